import { type FirstCut, inStrips, placeStrips, type Rectangle, type SheetPlacement } from "./twoStage.ts";
import { twoStageKnapsack } from "./twoStageKnapsack.ts";

/** One sheet, and items of which at most `most` each may be cut from it. Lengths are whole numbers ≥ 1. */
export interface SheetKnapsack {
  readonly sheet: Rectangle;
  readonly items: readonly (Rectangle & { readonly most: number; readonly value: number })[];
}

export interface SheetKnapsackPlan {
  readonly value: number;
  /** No plan with these first cuts is worth more. */
  readonly upperBound: number;
  /** Depths of the strips that the first cuts make, from the low corner. */
  readonly cuts: readonly number[];
  readonly placements: readonly SheetPlacement[];
}

/**
 * The most valuable items that a sheet gives in two guillotine stages beginning with `firstCut`, nothing turned, lower
 * items trimmed: exact, unless `stop` ends it early. Method and cost: see `twoStageKnapsack`.
 *
 * @returns placements strip by strip, the deepest strip first; proven best when value equals bound
 */
export function solveSheetKnapsack(
  { sheet, items }: SheetKnapsack,
  firstCut: FirstCut,
  stop: () => boolean,
): SheetKnapsackPlan {
  const { along, depth } = inStrips(sheet, firstCut);
  const inLine = items.map(({ width, height, most, value }) => ({
    ...inStrips({ width, height }, firstCut),
    most,
    value,
  }));
  const { value, upperBound, strips } = twoStageKnapsack(inLine, along, depth, stop);
  const placements = placeStrips(
    strips,
    items,
    firstCut,
    items.map(() => 0),
  );
  return { value, upperBound, cuts: strips.map((strip) => strip.depth), placements };
}
