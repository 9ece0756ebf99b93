import { type RefObject, useLayoutEffect, useRef, useState } from "react";

/** The width of an element's content box in pixels, kept up to date; `first` until it has been measured. */
export function useWidth<E extends HTMLElement>(first: number): [RefObject<E | null>, number] {
  const element = useRef<E>(null);
  const [width, setWidth] = useState(first);
  useLayoutEffect(() => {
    const measured = element.current;
    if (measured === null || typeof ResizeObserver === "undefined") return;
    const observer = new ResizeObserver(([entry]) => {
      if (entry !== undefined && entry.contentRect.width > 0) setWidth(Math.floor(entry.contentRect.width));
    });
    observer.observe(measured);
    return () => observer.disconnect();
  }, []);
  return [element, width];
}
