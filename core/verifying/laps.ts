import type { Panel, Seam } from "../model/plan.ts";
import type { ElevationView } from "./layoutView.ts";
import { insidesMeet } from "./ranges.ts";

/** Two panels whose windows share more than an edge at a seam, and which of them lies under. */
export interface Lap {
  readonly seam: Seam;
  readonly under: Panel;
  readonly over: Panel;
}

/** Every lap of an elevation, at seams inside its sections and at their borders. */
export function lapsOf(view: ElevationView): Lap[] {
  const inside = view.seams.map(({ seam, low, high }) =>
    seam.top === low.id ? { seam, under: high, over: low } : { seam, under: low, over: high },
  );
  const atBorders = view.borderSeams.flatMap(({ seam, border }) => {
    if (border === null) return [];
    const [over, under] = seam.top === border.low.id ? [border.low, border.high] : [border.high, border.low];
    return over.panels.flatMap((top) => under.panels.map((bottom) => ({ seam, under: bottom, over: top })));
  });
  return [...inside, ...atBorders].filter(({ under, over }) => insidesMeet(under.window, over.window));
}
