import type { Box } from "../geometry/box.ts";
import type { Panel, Seam } from "../model/plan.ts";
import type { Ticks } from "../units/ticks.ts";

/** Two panels that share film at a seam: `under` lies beneath `over`. */
export interface Lap {
  readonly under: Panel;
  readonly over: Panel;
  readonly seam: Seam;
  /** Width that the two windows share across the seam's line. */
  readonly shared: Ticks;
}

/**
 * Every lap between the panels and fills of one elevation.
 *
 * @param panels of that elevation
 * @param seams of that elevation, `top` naming a panel inside a section, a section at a border
 * @returns in the order of the seams, at a border then by the panel under and the panel over. Windows that only touch, as
 *   butted film does, share nothing and make no lap.
 *
 * Time O(seams x panels squared) at worst, when all meet at borders.
 */
export function lapsOf(panels: readonly Panel[], seams: readonly Seam[]): Lap[] {
  return seams.flatMap((seam) => {
    const [first, second] = seam.between;
    const named = (id: string) =>
      panels.filter((panel) => (seam.section === null ? panel.section === id : panel.id === id));
    const over = named(seam.top);
    return named(seam.top === first ? second : first).flatMap((under) =>
      over
        .filter((top) => overlap(under.window, top.window))
        .map((top) => ({ under, over: top, seam, shared: sharedAcross(under.window, top.window, seam) })),
    );
  });
}

const overlap = (a: Box, b: Box): boolean => a.x0 < b.x1 && b.x0 < a.x1 && a.y0 < b.y1 && b.y0 < a.y1;

const sharedAcross = (a: Box, b: Box, { axis }: Seam): Ticks =>
  axis === "x" ? Math.min(a.x1, b.x1) - Math.max(a.x0, b.x0) : Math.min(a.y1, b.y1) - Math.max(a.y0, b.y0);
