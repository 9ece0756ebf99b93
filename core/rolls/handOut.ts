import type { CutPattern, Shape } from "../nesting/sizes.ts";
import type { Ticks } from "../units/ticks.ts";
import { compareRanks, type Item } from "./neighbours.ts";
import type { Stack } from "./stacks.ts";

/** One cut with the very copies that lie in it; x from the edge of the printable width, y from the start of the cut. */
export interface DraftCut {
  readonly length: Ticks;
  readonly pieces: readonly { readonly item: Item; readonly shape: Shape; readonly x: Ticks; readonly y: Ticks }[];
  /** Cuts of one pattern are alike but for the copies in them. */
  readonly pattern: number;
  /** Rank of the piece that comes first. */
  readonly rank: readonly number[];
}

/** Longest first; of equals by pattern, so that the copies in them decide nothing. */
export const longestFirst = (cuts: readonly DraftCut[]): DraftCut[] =>
  [...cuts].sort((a, b) => b.length - a.length || a.pattern - b.pattern);

/**
 * Gives every place of every cut its copy, so that neighbours get near one another.
 *
 * @param stacks by the size index that the patterns use; a stack's items are given out from its start
 * @returns every single cut, by rank; and the stacks of what was not used, empty ones among them
 *
 * Uses of the patterns are taken in turn, each pattern spread evenly over the whole, so that all stacks advance alike and
 * one copy's pieces come out together. Time O(n log n) in the number of cuts and pieces.
 */
export function handOut(
  patterns: readonly CutPattern[],
  stacks: readonly Stack[],
): { cuts: DraftCut[]; rest: Stack[] } {
  const next = stacks.map(() => 0);
  const uses = patterns.flatMap((pattern, index) =>
    Array.from({ length: pattern.times }, (_, k) => ({ pattern, index, at: (k + 0.5) / pattern.times })),
  );
  uses.sort((a, b) => a.at - b.at || a.index - b.index);
  const cuts = uses.map(({ pattern, index }): DraftCut => {
    const pieces = pattern.places.map(({ size, shape, x, y }) => {
      const item = (stacks[size] as Stack).items[next[size] as number] as Item;
      next[size] = (next[size] as number) + 1;
      return { item, shape, x, y };
    });
    const first = pieces.reduce((a, b) => (compareRanks(b.item.rank, a.item.rank) < 0 ? b : a));
    return { length: pattern.length, pieces, pattern: index, rank: first.item.rank };
  });
  cuts.sort((a, b) => compareRanks(a.rank, b.rank));
  return { cuts, rest: stacks.map(({ shapes, items }, size) => ({ shapes, items: items.slice(next[size]) })) };
}
