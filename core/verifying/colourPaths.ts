import type { Point } from "../geometry/box.ts";
import type { ColourEdge } from "../model/instance.ts";
import type { Ticks } from "../units/ticks.ts";
import { isWhole } from "./tolerance.ts";

/**
 * How far a sloped or stepped colour edge runs from its place at most, over a stretch of its line; 0 for a straight one.
 * Both ends of the stretch count, so does a step that lies just there.
 *
 * @returns ticks, rounded up
 */
export function breadthOf({ axis, at, path }: ColourEdge, from: number, to: number): Ticks {
  if (path === null) return 0;
  const places = path.map(({ x, y }: Point) => (axis === "x" ? { along: y, off: x - at } : { along: x, off: y - at }));
  let most = 0;
  places.forEach((b, i) => {
    const a = places[i - 1];
    if (b.along >= from && b.along <= to) most = Math.max(most, Math.abs(b.off));
    if (a === undefined) return;
    for (const end of [from, to]) {
      if (a.along < end && end < b.along) {
        most = Math.max(most, Math.abs(a.off + ((b.off - a.off) * (end - a.along)) / (b.along - a.along)));
      }
    }
  });
  return isWhole(most) ? Math.round(most) : Math.ceil(most);
}
