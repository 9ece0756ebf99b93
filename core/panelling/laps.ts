import type { Axis } from "../geometry/box.ts";
import type { Travel } from "../model/instance.ts";

/**
 * Which of two neighbouring panels or sections lies on top: 0 the left or lower one, 1 the right or upper one.
 *
 * Side by side, the one nearer the front laps over, so that the wind of travel does not lift its edge; left when the view
 * has no front to a side. One above the other, the upper laps over like a roof tile; with travel down, the lower.
 */
export function topOf(axis: Axis, travel: Travel): 0 | 1 {
  if (axis === "x") return travel === "right" ? 1 : 0;
  return travel === "down" ? 0 : 1;
}
