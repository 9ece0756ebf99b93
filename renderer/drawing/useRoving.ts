import { type KeyboardEvent, type RefObject, useEffect, useRef, useState } from "react";
import { neighbour, type Stop, type Way } from "./neighbour.ts";

const ways: Readonly<Record<string, Way>> = {
  ArrowLeft: "left",
  ArrowRight: "right",
  ArrowUp: "up",
  ArrowDown: "down",
};

export interface Roving {
  /** The one stop that the Tab key reaches. */
  readonly active: string | null;
  readonly onKeyDown: (event: KeyboardEvent) => void;
  readonly setActive: (id: string) => void;
}

/**
 * One tab stop for a whole drawing: arrow keys move to the neighbour, Home and End to the first and last, Enter or Space
 * selects, Escape lets go. Elements carry their id as `data-id`.
 */
export function useRoving(
  container: RefObject<Element | null>,
  stops: readonly Stop[],
  selected: string | null,
  onSelect: (id: string | null) => void,
): Roving {
  const [moved, setMoved] = useState<string | null>(null);
  const wantsFocus = useRef(false);
  const known = (id: string | null): string | null => (stops.some((stop) => stop.id === id) ? id : null);
  const active = known(moved) ?? known(selected) ?? stops[0]?.id ?? null;

  useEffect(() => {
    if (!wantsFocus.current || active === null) return;
    wantsFocus.current = false;
    for (const element of container.current?.querySelectorAll<SVGElement>("[data-id]") ?? []) {
      if (element.dataset.id === active) element.focus();
    }
  });

  const go = (id: string | null) => {
    if (id === null) return;
    wantsFocus.current = true;
    setMoved(id);
  };
  const onKeyDown = (event: KeyboardEvent): void => {
    if (active === null || event.altKey || event.ctrlKey || event.metaKey) return;
    const way = ways[event.key];
    if (way) go(neighbour(stops, active, way));
    else if (event.key === "Home") go(stops[0]?.id ?? null);
    else if (event.key === "End") go(stops.at(-1)?.id ?? null);
    else if (event.key === "Enter" || event.key === " ") onSelect(active);
    else if (event.key === "Escape") onSelect(null);
    else return;
    event.preventDefault();
  };
  return { active, onKeyDown, setActive: setMoved };
}
