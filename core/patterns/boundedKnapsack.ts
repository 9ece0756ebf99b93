import { type ExactItem, exactKnapsack, MOST_CELLS, type Packing, tableCells } from "./exactKnapsack.ts";

/** A packing, and a value that no packing exceeds. */
export interface BoundedPacking extends Packing {
  readonly most: number;
}

/** Sizes are rounded to this share of the capacity when exact ones would take too long. */
const COARSE_CELLS = 4_000;

/**
 * Fills one capacity with valuable items: exactly where that takes a table of a useful size, otherwise closely, with a
 * limit on what is missed.
 *
 * @param items as for `exactKnapsack`; sizes and capacity at most 2^40
 * @returns a packing that fits, and `most`, which is its value where the packing is exact
 *
 * With too many cells for a table, sizes are taken in parts of 1 / 4,000 of the capacity: rounded up, whatever fits fits
 * in earnest; rounded down, whatever fits in earnest fits, so that the best value is a limit. O(4,000 x sum of log most).
 */
export function boundedKnapsack(items: readonly ExactItem[], capacity: number): BoundedPacking {
  if (tableCells(items, capacity) <= MOST_CELLS) {
    const packing = exactKnapsack(items, capacity);
    return { ...packing, most: packing.value };
  }
  const whole = (size: number): number => {
    const parts = size * COARSE_CELLS;
    return (parts - (parts % capacity)) / capacity;
  };
  const fits = items.map((item) => (item.size <= capacity ? item : { ...item, most: 0 }));
  const up = fits.map((item) => ({
    ...item,
    size: whole(item.size) + ((item.size * COARSE_CELLS) % capacity ? 1 : 0),
  }));
  const down = fits.map((item) => ({ ...item, size: whole(item.size) }));
  const packing = exactKnapsack(up, COARSE_CELLS);
  const sized = down.filter(({ size }) => size > 0);
  const free = down.filter(({ size }) => size === 0);
  const freely = free.reduce((sum, { value, most }) => sum + Math.max(0, value) * most, 0);
  return { ...packing, most: Math.max(packing.value, exactKnapsack(sized, COARSE_CELLS).value + freely) };
}
