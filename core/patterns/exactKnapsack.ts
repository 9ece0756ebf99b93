import { powersOfTwo } from "../model/powersOfTwo.ts";

/** One kind of item: at most `most` of it, each of `size` > 0 and worth `value`. */
export interface ExactItem {
  readonly size: number;
  readonly value: number;
  readonly most: number;
}

export interface Packing {
  readonly value: number;
  /** How many of each item, in the order of the items. */
  readonly counts: readonly number[];
}

/** Up to this many cells of capacity the table is used; beyond, branch and bound. */
export const MOST_CELLS = 20_000;

/**
 * Fills one capacity with the most valuable items, exactly, whatever it takes.
 *
 * @param items any order; sizes whole numbers ≥ 1, `most` ≥ 0; items worth nothing or less are never packed
 * @param capacity whole number ≥ 0
 * @returns the best packing; of equals the one that the method meets first, the same for the same input
 *
 * Sizes and capacity are first divided by the sizes' greatest common divisor. When few cells are left: dynamic
 * programming over the capacity with each item's count split into powers of two, O(cells x sum of log most) (Martello and
 * Toth 1990, Knapsack Problems, section 3.2). Otherwise: depth-first branch and bound by value per size with the bound of
 * the continuous relaxation (same book, section 3.3), exponential at worst.
 */
export function exactKnapsack(items: readonly ExactItem[], capacity: number): Packing {
  const useful = items
    .map((item, index) => ({ ...item, index, most: Math.min(item.most, Math.floor(capacity / item.size)) }))
    .filter(({ value, most }) => value > 0 && most > 0);
  const counts = new Array<number>(items.length).fill(0);
  if (useful.length === 0) return { value: 0, counts };
  const unit = useful.reduce((divisor, { size }) => greatestCommonDivisor(divisor, size), 0);
  const cells = tableCells(useful, capacity);
  const scaled = useful.map((item) => ({ ...item, size: item.size / unit }));
  const packed = cells <= MOST_CELLS ? byTable(scaled, cells) : byBranching(scaled, cells);
  let value = 0;
  for (const [i, { index, value: each }] of useful.entries()) {
    counts[index] = packed[i] as number;
    value += each * (packed[i] as number);
  }
  return { value, counts };
}

/** How many cells a table over the capacity needs: sizes and capacity divided by what all sizes have in common. */
export function tableCells(items: readonly ExactItem[], capacity: number): number {
  const unit = items.reduce((divisor, { size }) => greatestCommonDivisor(divisor, size), 0);
  return unit === 0 ? 0 : Math.floor(capacity / unit);
}

export function greatestCommonDivisor(a: number, b: number): number {
  let [x, y] = [a, b];
  while (y !== 0) [x, y] = [y, x % y];
  return x;
}

function byTable(items: readonly ExactItem[], cells: number): number[] {
  const parts = items.flatMap((item, i) => powersOfTwo(item.most).map((times) => ({ item: i, times })));
  const best = new Float64Array(cells + 1);
  const taken = new Uint8Array(parts.length * (cells + 1));
  for (const [p, { item, times }] of parts.entries()) {
    const { size, value } = items[item] as ExactItem;
    const [space, gain, row] = [size * times, value * times, p * (cells + 1)];
    for (let cell = cells; cell >= space; cell--) {
      const candidate = (best[cell - space] as number) + gain;
      if (candidate > (best[cell] as number)) {
        best[cell] = candidate;
        taken[row + cell] = 1;
      }
    }
  }
  const counts = new Array<number>(items.length).fill(0);
  let cell = cells;
  for (let p = parts.length - 1; p >= 0; p--) {
    if (taken[p * (cells + 1) + cell] !== 1) continue;
    const { item, times } = parts[p] as { item: number; times: number };
    counts[item] = (counts[item] as number) + times;
    cell -= (items[item] as ExactItem).size * times;
  }
  return counts;
}

function byBranching(items: readonly ExactItem[], cells: number): number[] {
  const order = items
    .map((item, index) => ({ ...item, index }))
    .sort((a, b) => b.value / b.size - a.value / a.size || b.size - a.size || a.index - b.index);
  const counts = new Array<number>(order.length).fill(0);
  let best = 0;
  let bestCounts = [...counts];
  const visit = (depth: number, room: number, value: number): void => {
    if (value > best) {
      best = value;
      bestCounts = [...counts];
    }
    const item = order[depth];
    if (item === undefined || value + mostMore(order, depth, room) <= best) return;
    for (let count = Math.min(item.most, Math.floor(room / item.size)); count >= 0; count--) {
      counts[depth] = count;
      visit(depth + 1, room - count * item.size, value + count * item.value);
    }
    counts[depth] = 0;
  };
  visit(0, cells, 0);
  const inOrder = new Array<number>(items.length).fill(0);
  for (const [i, { index }] of order.entries()) inOrder[index] = bestCounts[i] as number;
  return inOrder;
}

/** Value of filling the room with the items from `depth` on, the last one in part: no whole filling is worth more. */
function mostMore(order: readonly ExactItem[], depth: number, room: number): number {
  let [value, left] = [0, room];
  for (let i = depth; i < order.length && left > 0; i++) {
    const { size, value: each, most } = order[i] as ExactItem;
    const count = Math.min(most, left / size);
    value += count * each;
    left -= count * size;
    if (count < most) break;
  }
  return value;
}
