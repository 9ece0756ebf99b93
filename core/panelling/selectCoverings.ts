import { type Combination, mostOpen } from "./combineSections.ts";

/** Most coverings handed on: each is nested in full later. */
const MOST_COVERINGS = 24;

/**
 * A modest choice out of many coverings: for each count of visible seams the cheapest, the one of least area, the one
 * with fewest panels and the one with fewest penalties, and of all the one with fewest open seams, then the rest by cost while there is room.
 *
 * @param ranked by ascending cost
 * @returns at most 24 of them, in the same order
 */
export function selectCoverings<T extends Combination>(ranked: readonly T[]): T[] {
  if (ranked.length <= MOST_COVERINGS) return [...ranked];
  const kept = new Set<T>();
  const keep = (item: T | undefined) => {
    if (item !== undefined && kept.size < MOST_COVERINGS) kept.add(item);
  };
  const seamCounts = [...new Set(ranked.map(({ visible }) => visible))].sort((a, b) => a - b);
  const least = (list: readonly T[], of: (item: T) => number) =>
    list.reduce<T | undefined>((best, item) => (best === undefined || of(item) < of(best) ? item : best), undefined);
  const measures: ((list: readonly T[]) => T | undefined)[] = [
    (list) => list[0],
    (list) => least(list, ({ aloneArea }) => aloneArea),
    (list) => least(list, ({ penalties }) => penalties),
    (list) => least(list, ({ panels }) => panels),
  ];
  for (const measure of measures) keep(measure(ranked));
  keep(least(ranked, ({ visible }) => visible));
  keep(least(ranked, mostOpen));
  for (const measure of measures) {
    for (const count of seamCounts) keep(measure(ranked.filter(({ visible }) => visible === count)));
  }
  for (const item of ranked) keep(item);
  return ranked.filter((item) => kept.has(item));
}
