import { type RefObject, useEffect, useLayoutEffect, useRef } from "react";

/**
 * Zooms a scrolling drawing: the wheel with Control or Command asks for another scale, and whenever the scale changes the
 * point under the pointer stays where it is; without a pointer the middle does, or the start while that is in sight.
 */
export function useZoom(
  element: RefObject<HTMLElement | null>,
  pixelsPerUnit: number,
  onPixelsPerUnit: ((next: number) => void) | undefined,
): void {
  const last = useRef(pixelsPerUnit);
  const anchor = useRef<{ x: number; y: number } | null>(null);
  useEffect(() => {
    const box = element.current;
    if (!box || !onPixelsPerUnit) return;
    const turn = (event: WheelEvent): void => {
      if (!event.ctrlKey && !event.metaKey) return;
      event.preventDefault();
      const place = box.getBoundingClientRect();
      anchor.current = { x: event.clientX - place.left, y: event.clientY - place.top };
      onPixelsPerUnit(last.current * Math.exp(-event.deltaY / 400));
    };
    // React listens passively to the wheel, where the browser's own zoom can't be held back.
    box.addEventListener("wheel", turn, { passive: false });
    return () => box.removeEventListener("wheel", turn);
  }, [element, onPixelsPerUnit]);
  useLayoutEffect(() => {
    const box = element.current;
    const grown = pixelsPerUnit / last.current;
    last.current = pixelsPerUnit;
    if (!box || grown === 1) return;
    // What stands at its start stays there: a new plan, fitted a little larger, must not hide the beginning of a roll.
    const { x, y } = anchor.current ?? {
      x: box.scrollLeft === 0 ? 0 : box.clientWidth / 2,
      y: box.scrollTop === 0 ? 0 : box.clientHeight / 2,
    };
    anchor.current = null;
    box.scrollLeft = (box.scrollLeft + x) * grown - x;
    box.scrollTop = (box.scrollTop + y) * grown - y;
  }, [element, pixelsPerUnit]);
}
