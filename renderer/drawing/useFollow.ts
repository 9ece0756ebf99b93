import { type RefObject, useLayoutEffect, useRef } from "react";
import type { RollScene } from "./rollScene.ts";

/** Brings what was selected elsewhere into view, sideways only and only when it is out of view. */
export function useFollow(element: RefObject<HTMLElement | null>, scene: RollScene, selected: string | null): void {
  const last = useRef<string | null>(null);
  useLayoutEffect(() => {
    const view = element.current;
    if (selected === last.current) return;
    last.current = selected;
    const box =
      scene.pieces.find((shape) => shape.key === selected)?.box ?? scene.cuts.find((cut) => cut.key === selected)?.box;
    if (!view || !box) return;
    const inside = box.x >= view.scrollLeft && box.x + box.width <= view.scrollLeft + view.clientWidth;
    if (!inside) view.scrollLeft = Math.max(0, box.x - Math.max(8, (view.clientWidth - box.width) / 2));
  }, [element, scene, selected]);
}
