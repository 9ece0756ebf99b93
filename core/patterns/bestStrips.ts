import type { Strip, StripEntry, StripItem } from "./twoStage.ts";

/**
 * For each depth that some item has, the strip that is worth most at given prices: an exact bounded knapsack along the
 * strip, over the items that are no deeper.
 *
 * @param prices of each item: what counts is these, not the items' own values
 * @param length of every strip, whole number ≥ 0
 * @returns strips by rising depth, with their worth at the prices; depths where nothing is worth anything are left out
 *
 * One table over the length serves all depths: items join it by rising depth. O(length x items x log most).
 */
export function bestStrips(
  items: readonly StripItem[],
  prices: ArrayLike<number>,
  length: number,
): { readonly depth: number; readonly worth: number; readonly entries: readonly StripEntry[] }[] {
  const order = items
    .map((item, index) => ({ ...item, index, most: Math.min(item.most, Math.floor(length / item.along)) }))
    .filter(({ most, index }) => most > 0 && (prices[index] as number) > 0)
    .sort((a, b) => a.depth - b.depth || a.index - b.index);
  const parts: { index: number; times: number; space: number }[] = [];
  const taken: Uint8Array[] = [];
  const best = new Float64Array(length + 1);
  const strips: { depth: number; worth: number; entries: StripEntry[] }[] = [];
  for (const [place, { index, along, most, depth }] of order.entries()) {
    for (let left = most, times = 1; left > 0; left -= times, times = Math.min(times * 2, left)) {
      const [space, gain] = [along * times, (prices[index] as number) * times];
      const row = new Uint8Array(length + 1);
      for (let cell = length; cell >= space; cell--) {
        const candidate = (best[cell - space] as number) + gain;
        if (candidate > (best[cell] as number)) {
          best[cell] = candidate;
          row[cell] = 1;
        }
      }
      parts.push({ index, times, space });
      taken.push(row);
    }
    if (order[place + 1]?.depth === depth) continue;
    const counts = new Map<number, number>();
    for (let p = parts.length - 1, cell = length; p >= 0; p--) {
      if ((taken[p] as Uint8Array)[cell] !== 1) continue;
      const part = parts[p] as { index: number; times: number; space: number };
      counts.set(part.index, (counts.get(part.index) ?? 0) + part.times);
      cell -= part.space;
    }
    const entries = [...counts].map(([item, count]) => ({ item, count })).sort((a, b) => a.item - b.item);
    const deepest = entries.reduce((most, { item }) => Math.max(most, (items[item] as StripItem).depth), 0);
    if (deepest === depth) strips.push({ depth, worth: best[length] as number, entries });
  }
  return strips;
}

/** A strip of these items as it stands: its depth and value from the items. */
export function stripOf(items: readonly StripItem[], entries: readonly StripEntry[]): Strip {
  let [depth, value] = [0, 0];
  for (const { item, count } of entries) {
    depth = Math.max(depth, (items[item] as StripItem).depth);
    value += count * (items[item] as StripItem).value;
  }
  return { depth, value, entries };
}
