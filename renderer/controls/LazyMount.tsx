import { type ReactNode, useEffect, useRef, useState } from "react";

interface LazyMountProps {
  /** Height of the place that is kept free until the content is near the screen, in pixels. */
  readonly height: number;
  /** Shown at once, wherever it is. */
  readonly eager?: boolean;
  readonly children: ReactNode;
}

/** Draws its content once it comes near the screen, so that a job of forty elevations opens like a job of one. */
export function LazyMount({ height, eager = false, children }: LazyMountProps) {
  const place = useRef<HTMLDivElement>(null);
  const [near, setNear] = useState(eager || typeof IntersectionObserver === "undefined");
  useEffect(() => {
    const element = place.current;
    if (near || element === null) return;
    const observer = new IntersectionObserver(
      (entries) => {
        if (entries.some(({ isIntersecting }) => isIntersecting)) setNear(true);
      },
      { rootMargin: "800px" },
    );
    observer.observe(element);
    return () => observer.disconnect();
  }, [near]);
  return (
    <div ref={place} style={near ? undefined : { height }}>
      {near ? children : null}
    </div>
  );
}
