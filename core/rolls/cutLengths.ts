import type { Rules } from "../model/instance.ts";
import type { Ticks } from "../units/ticks.ts";

/**
 * Where a load is cut across: the first cut starts after the leader, each further one a gap after the last.
 *
 * @param lengths of the cuts in order, ticks
 * @returns the start of each cut from the start of the load, and the length that leaves the stock: to the end of the last
 *   cut, and the trailer
 */
export function cutLengths(
  { leader, cutGap, trailer }: Pick<Rules, "leader" | "cutGap" | "trailer">,
  lengths: readonly Ticks[],
): { starts: Ticks[]; used: Ticks } {
  const starts: Ticks[] = [];
  let end = leader;
  for (const length of lengths) {
    const start = starts.length === 0 ? leader : end + cutGap;
    starts.push(start);
    end = start + length;
  }
  return { starts, used: end + trailer };
}
