import type { Box } from "../geometry/box.ts";
import type { Ticks } from "../units/ticks.ts";
import { toBox } from "./orientation.ts";
import { farthest } from "./reach.ts";
import type { SectionTask } from "./sectionTask.ts";
import { type SplitNode, windowEnds } from "./splitNodes.ts";

/** A panel's window on the source elevation, and its size across and along the roll. */
export interface PanelWindow {
  readonly window: Box;
  readonly across: Ticks;
  readonly along: Ticks;
}

/**
 * The windows of a split, left to right or bottom to top: each as small as the rules allow.
 *
 * Across, a window runs from node to node; along, it reaches the farthest of all that its strip must reach.
 *
 * @param ends the nodes of the split, n ≥ 2
 * @returns n - 1 windows, ticks
 */
export function windowsOf(task: SectionTask, ends: readonly SplitNode[]): PanelWindow[] {
  return ends.slice(1).map((end, i) => {
    const span = windowEnds(ends[i] as SplitNode, end);
    if (span === null) throw new RangeError(`no window fits between the seams at ${ends[i]?.at} and ${end.at}`);
    return windowBetween(task, span.lo, span.hi);
  });
}

/** The least window from u = lo to u = hi. */
export function windowBetween({ span, reach, axis }: SectionTask, lo: Ticks, hi: Ticks): PanelWindow {
  const from = Math.max(lo, span.u0);
  const to = Math.min(hi, span.u1);
  // Taken from 0, since the negative of 0 is another number to whoever compares files.
  const v0 = 0 - farthest(reach.low, from, to);
  const v1 = farthest(reach.high, from, to);
  return { window: toBox({ u0: lo, u1: hi, v0, v1 }, axis), across: hi - lo, along: v1 - v0 };
}
