import { powersOfTwo } from "../model/powersOfTwo.ts";

/** One kind of item: at most `most` of it (Infinity for no limit), each of `size` > 0 and worth `value`. */
export interface KnapsackItem {
  readonly size: number;
  readonly value: number;
  readonly most: number;
}

/** A filling that none smaller is worth as much as. Fillings share their tails, so a long list of them stays small. */
export interface Filling {
  readonly size: number;
  readonly value: number;
  /** What was added last, and the filling it was added to; -1 in the empty one. */
  readonly item: number;
  readonly times: number;
  readonly rest: Filling | null;
}

/** Nothing packed: where every list of fillings begins. */
export const EMPTY: Filling = { size: 0, value: 0, item: -1, times: 0, rest: null };

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
  let fillings: readonly Filling[] = [EMPTY];
  for (const [index, item] of items.entries()) fillings = fillingsWith(fillings, index, item, capacity, mostFillings);
  const counts = new Array<number>(items.length).fill(0);
  for (const { item, times } of partsOf(fillings.at(-1) as Filling)) counts[item] = (counts[item] as number) + times;
  return counts;
}

/**
 * One step of the dynamic programme: the undominated fillings once an item may be added to those known.
 *
 * @param fillings by rising size and value, the empty one first
 * @param onThinned told each time that fillings had to be given up, after which the list is no longer surely complete
 * @returns the same kind of list, at most `mostFillings` long
 */
export function fillingsWith(
  fillings: readonly Filling[],
  item: number,
  { size, value, most }: KnapsackItem,
  capacity: number,
  mostFillings: number,
  onThinned?: () => void,
): readonly Filling[] {
  if (value <= 0) return fillings;
  if (most === Infinity) {
    const all = withMore(null, fillings, item, 1, size, value, capacity);
    if (all.length > mostFillings) onThinned?.();
    return thinned(all, mostFillings);
  }
  let grown = fillings;
  for (const times of powersOfTwo(Math.min(most, Math.floor(capacity / size)))) {
    const all = withMore(grown, grown, item, times, size * times, value * times, capacity);
    if (all.length > mostFillings) onThinned?.();
    grown = thinned(all, mostFillings);
  }
  return grown;
}

/** The most valuable filling that is no larger than `capacity`; found by bisection. */
export function fillingFor(fillings: readonly Filling[], capacity: number): Filling {
  let [low, high] = [0, fillings.length];
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if ((fillings[middle] as Filling).size <= capacity) low = middle;
    else high = middle;
  }
  return fillings[low] as Filling;
}

/** What a filling is made of, the last added first; an item may come several times. */
export function partsOf(filling: Filling): { item: number; times: number }[] {
  const parts: { item: number; times: number }[] = [];
  for (let at: Filling | null = filling; at !== null && at.item >= 0; at = at.rest) {
    parts.push({ item: at.item, times: at.times });
  }
  return parts;
}

/**
 * Merges the fillings with enlarged ones, by size, leaving out each that is worth no more than a smaller one.
 *
 * @param from which are enlarged; null for those that come out, so that the item is added any number of times
 */
function withMore(
  from: readonly Filling[] | null,
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
    // Of equal size the more valuable takes the place; nothing was made of the other yet, as items have a size.
    if (merged.at(-1)?.size === filling.size) merged[merged.length - 1] = filling;
    else merged.push(filling);
  };
  const enlarged = from ?? merged;
  let larger = 0;
  for (const filling of fillings) {
    for (; larger < enlarged.length; larger++) {
      const rest = enlarged[larger] as Filling;
      if (rest.size + size >= filling.size) break;
      keep({ size: rest.size + size, value: rest.value + value, item, times, rest });
    }
    keep(filling);
  }
  for (; larger < enlarged.length; larger++) {
    const rest = enlarged[larger] as Filling;
    if (rest.size + size > capacity) break;
    keep({ size: rest.size + size, value: rest.value + value, item, times, rest });
  }
  return merged;
}

function thinned(fillings: readonly Filling[], most: number): readonly Filling[] {
  if (fillings.length <= most) return fillings;
  const step = (fillings.length - 1) / (most - 1);
  return Array.from({ length: most }, (_, i) => fillings[Math.round(i * step)] as Filling);
}
