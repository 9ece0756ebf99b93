import type { Strip, StripEffort, StripNesting } from "./strip.ts";
import { stripBound } from "./stripBound.ts";
import { stripSearch } from "./stripSearch.ts";

/**
 * Lays pieces in a strip so that it gets short, and says how short it could get at best.
 *
 * @param strip whole numbers; sizes in any order, also with a count of 0
 * @returns the shortest nesting found when the bound is met or `stop` says so; the search has no other end
 * @throws RangeError naming the size and both widths, if a piece is wider than the strip however it lies
 *
 * See `stripSearch` and `stripBound` for how. Memory O(pieces). Equal input, seed and number of steps give equal output.
 */
export function nestInStrip(strip: Strip, effort: StripEffort): StripNesting {
  for (const [i, { shapes, count }] of strip.sizes.entries()) {
    const least = Math.min(...shapes.map(({ across }) => across));
    if (count > 0 && least > strip.width) {
      throw new RangeError(`size ${i} is ${least} across, the strip ${strip.width}`);
    }
  }
  if (strip.sizes.every(({ count }) => count === 0)) return { length: 0, bound: 0, places: [] };
  const bound = stripBound(strip);
  const { length, places } = stripSearch(strip, bound, effort);
  const ordered = [...places].sort((a, b) => a.y - b.y || a.x - b.x);
  return { length, bound, places: ordered };
}
