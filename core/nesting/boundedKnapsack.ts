import { powersOfTwo } from "../model/powersOfTwo.ts";

/** One kind of item: at most `most` of it, each of `size` > 0 and worth `value`. */
export interface KnapsackItem {
  readonly size: number;
  readonly value: number;
  readonly most: number;
}

/** A filling that none smaller is worth as much as. Fillings share their tails, so a long list of them stays small. */
interface Filling {
  readonly size: number;
  readonly value: number;
  readonly item: number;
  readonly times: number;
  readonly rest: Filling | null;
}

const EMPTY: Filling = { size: 0, value: 0, item: -1, times: 0, rest: null };

/**
 * Fills one capacity with the most valuable items.
 *
 * @param items any order; sizes whole numbers ≥ 1, `most` ≥ 0; items worth nothing or less are never packed
 * @param capacity whole number; below 0 nothing is packed
 * @param mostFillings how many fillings are kept after each step, at least 2
 * @returns how many of each item, in the order of the items
 *
 * Dynamic programming over undominated pairs of size and value, each item's count split into powers of two (Martello and
 * Toth 1990, Knapsack Problems, sections 2.6 and 3.2). Exact unless more than `mostFillings` undominated fillings appear;
 * then an even selection of them is kept, the most valuable always, and the result is a good packing, not surely the best.
 * Time O(sum of log most x mostFillings). Ties: the filling met first, in the order of the items.
 */
export function boundedKnapsack(items: readonly KnapsackItem[], capacity: number, mostFillings = 1000): number[] {
  let fillings: Filling[] = [EMPTY];
  for (const [item, { size, value, most }] of items.entries()) {
    if (value <= 0) continue;
    for (const times of powersOfTwo(Math.min(most, Math.floor(capacity / size)))) {
      fillings = thinned(withMore(fillings, item, times, size * times, value * times, capacity), mostFillings);
    }
  }
  const counts = new Array<number>(items.length).fill(0);
  for (let filling = fillings.at(-1) as Filling | null; filling !== null && filling.item >= 0; filling = filling.rest) {
    counts[filling.item] = (counts[filling.item] as number) + filling.times;
  }
  return counts;
}

/** Merges the fillings with the same ones enlarged, by size, leaving out each that is worth no more than a smaller one. */
function withMore(
  fillings: readonly Filling[],
  item: number,
  times: number,
  size: number,
  value: number,
  capacity: number,
): Filling[] {
  const merged: Filling[] = [];
  let highest = -1;
  const keep = (filling: Filling) => {
    if (filling.value <= highest) return;
    highest = filling.value;
    if (merged.at(-1)?.size === filling.size) merged.pop();
    merged.push(filling);
  };
  let larger = 0;
  for (const filling of fillings) {
    for (; larger < fillings.length; larger++) {
      const rest = fillings[larger] as Filling;
      if (rest.size + size >= filling.size) break;
      keep({ size: rest.size + size, value: rest.value + value, item, times, rest });
    }
    keep(filling);
  }
  for (; larger < fillings.length; larger++) {
    const rest = fillings[larger] as Filling;
    if (rest.size + size > capacity) break;
    keep({ size: rest.size + size, value: rest.value + value, item, times, rest });
  }
  return merged;
}

function thinned(fillings: Filling[], most: number): Filling[] {
  if (fillings.length <= most) return fillings;
  const step = (fillings.length - 1) / (most - 1);
  return Array.from({ length: most }, (_, i) => fillings[Math.round(i * step)] as Filling);
}
