import { type RefObject, useLayoutEffect, useState } from "react";

/** Width of an element on the screen, followed as it changes; `first` until it has been measured. */
export function useRoom(element: RefObject<HTMLElement | null>, first = 960): number {
  const [width, setWidth] = useState(first);
  useLayoutEffect(() => {
    const watched = element.current;
    if (!watched) return;
    const measure = (): void => {
      if (watched.clientWidth > 0) setWidth(watched.clientWidth);
    };
    measure();
    const observer = new ResizeObserver(measure);
    observer.observe(watched);
    return () => observer.disconnect();
  }, [element]);
  return width;
}
