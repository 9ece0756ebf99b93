import { z } from "./zod.ts";

/** How a search stood at one moment: its cheapest layout so far, and how cheap any such layout could be at most. */
export const Standing = z.object({
  /** Since the run began. */
  seconds: z.number().nonnegative(),
  /** Of the chosen layout. */
  cost: z.number(),
  /** No plan on the same rolls with at most as many seams costs less. It falls when the search turns to other rolls. */
  bound: z.number(),
  /** What the bound leaves open, as a share of the cost. */
  gapPercent: z.number(),
  proven: z.boolean(),
  /** Name of the bound. */
  by: z.string(),
});
export type Standing = z.output<typeof Standing>;

/** Longest history that is kept: more steps than a drawing of this size has pixels to tell apart. */
export const mostStandings = 200;

/**
 * The history with one entry more. What only repeats the last entry is left out; where the history is full, every second
 * entry between the first and the last goes.
 */
export function withStanding(history: readonly Standing[], next: Standing, most = mostStandings): readonly Standing[] {
  const last = history.at(-1);
  const news =
    last === undefined ||
    last.cost !== next.cost ||
    last.bound !== next.bound ||
    last.proven !== next.proven ||
    last.by !== next.by;
  if (!news) return history;
  const kept = history.length < most ? history : history.filter((_, place) => place === 0 || place % 2 === 1);
  return [...kept, next];
}

/** A gap with one decimal, rounded up: what is told as the most that could be saved must not be less than it is. */
export const gapFigure = (gapPercent: number): string => (Math.ceil(gapPercent * 10 - 1e-6) / 10).toFixed(1);
