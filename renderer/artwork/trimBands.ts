import { TICKS_PER, type Ticks, type TrimBand, ticksFrom, type Unit } from "../../core/index.ts";
import type { PlanLayout } from "../../shared/planFile.ts";

/** An overlap in which both films may be trimmed along a line of the fitter's choice. */
export interface NamedBand extends TrimBand {
  readonly key: string;
  /** Id of the seam. */
  readonly seam: string;
}

/**
 * The overlaps of one elevation less a strip along the edge of either film, from the low end of each seam's needed stretch
 * to the high one. Seams in breaks have none: there both films are trimmed in the gap. A border has one for each pair of
 * panels that face each other over it.
 */
export function trimBands(elevation: string, layout: PlanLayout, unit: Unit): NamedBand[] {
  const panels = layout.panels.filter((panel) => panel.elevation === elevation);
  return layout.seams
    .filter((seam) => seam.elevation === elevation && seam.kind !== "break")
    .flatMap((seam) => {
      const side = (name: string) => panels.filter((panel) => (seam.border ? panel.section : panel.id) === name);
      return side(seam.between[0]).flatMap((low) =>
        side(seam.between[1]).flatMap((high): NamedBand[] => {
          const [from, to] = [ticksFrom(seam.from, unit), ticksFrom(seam.to, unit)];
          const shared = sharedBox(low.window, high.window, unit);
          const edge = (width: Ticks): Ticks => Math.min(fromEdge[unit], Math.floor(width / 4));
          const [across, up] = [edge(shared.x1 - shared.x0), edge(shared.y1 - shared.y0)];
          const box =
            seam.axis === "x"
              ? {
                  x0: shared.x0 + across,
                  x1: shared.x1 - across,
                  y0: Math.max(shared.y0, from),
                  y1: Math.min(shared.y1, to),
                }
              : {
                  x0: Math.max(shared.x0, from),
                  x1: Math.min(shared.x1, to),
                  y0: shared.y0 + up,
                  y1: shared.y1 - up,
                };
          if (box.x1 <= box.x0 || box.y1 <= box.y0) return [];
          const key = `${seam.id} ${low.id} ${high.id}`;
          return [{ key, seam: seam.id, axis: seam.axis, box, near: ticksFrom(seam.at, unit) }];
        }),
      );
    });
}

/** A cut keeps so far from the edge of either film, or a quarter of a narrow overlap: common practice, no source. */
const fromEdge: Readonly<Record<Unit, Ticks>> = { in: TICKS_PER.in / 8, mm: 3 * TICKS_PER.mm };

type Window = PlanLayout["panels"][number]["window"];

function sharedBox(a: Window, b: Window, unit: Unit) {
  const at = (window: Window, corner: 0 | 1 | 2 | 3): Ticks => ticksFrom(window[corner], unit);
  return {
    x0: Math.max(at(a, 0), at(b, 0)),
    y0: Math.max(at(a, 1), at(b, 1)),
    x1: Math.min(at(a, 2), at(b, 2)),
    y1: Math.min(at(a, 3), at(b, 3)),
  };
}
