import type { Elevation, Instance } from "../model/instance.ts";
import type { Panel } from "../model/plan.ts";

/** Copies alike in all they hold: what `oneLot` keeps on one lot is one copy of these panels. */
export interface LotGroup {
  readonly panels: readonly Panel[];
  readonly copies: number;
  /** Trade name for messages: the subject's or the elevation's. */
  readonly name: string;
}

/** Some copies of each group, consecutive ones. */
export interface Batch {
  /** By group: first copy (from 1) and how many. */
  readonly parts: readonly { readonly first: number; readonly count: number }[];
}

/**
 * The groups that must come from one lot.
 *
 * @param panels of one film
 * @returns in the job's order; with `oneLot` `none` every elevation by itself, though nothing binds it
 */
export function lotGroups({ elevations, rules }: Instance, panels: readonly Panel[]): LotGroup[] {
  const groups = new Map<string, { panels: Panel[]; copies: number; name: string }>();
  for (const elevation of elevations) {
    const own = panels.filter((panel) => panel.elevation === elevation.id);
    if (own.length === 0) continue;
    const bySubject = rules.oneLot === "subject" && elevation.subject !== null;
    const key = bySubject ? `subject ${elevation.subject}` : `elevation ${elevation.id}`;
    const known = groups.get(key);
    if (known !== undefined) known.panels.push(...own);
    else groups.set(key, { panels: own, copies: elevation.count, name: nameOf(elevation, bySubject) });
  }
  return [...groups.values()];
}

const nameOf = ({ id, subject }: Elevation, bySubject: boolean): string => (bySubject ? (subject as string) : id);

export const wholeBatch = (groups: readonly LotGroup[]): Batch => ({
  parts: groups.map(({ copies }) => ({ first: 1, count: copies })),
});

/** One way to share all copies out over lots. */
export interface LotShare {
  readonly lot: string;
  readonly batch: Batch;
}

/**
 * Shares the copies of all groups over lots, each group's copies in order, by filling lot after lot.
 *
 * @param groups largest first fills best
 * @param lots in the order in which they are to be filled
 * @param fits whether a lot holds so many copies of each group
 * @returns the shares that hold anything, or null when copies are left over
 *
 * As many copies of each group as fit, found by bisection: O(lots x groups x log copies) calls of `fits`.
 */
export function fillLots(
  groups: readonly LotGroup[],
  lots: readonly string[],
  order: readonly number[],
  fits: (lot: string, counts: readonly number[]) => boolean,
): LotShare[] | null {
  const given = groups.map(() => 0);
  const shares: LotShare[] = [];
  for (const lot of lots) {
    const counts = groups.map(() => 0);
    for (const group of order) {
      const left = (groups[group] as LotGroup).copies - (given[group] as number);
      counts[group] = mostThat(left, (count) => fits(lot, counts.with(group, count)));
    }
    if (counts.every((count) => count === 0)) continue;
    const parts = counts.map((count, group) => ({ first: (given[group] as number) + 1, count }));
    for (const [group, count] of counts.entries()) given[group] = (given[group] as number) + count;
    shares.push({ lot, batch: { parts } });
  }
  return groups.every(({ copies }, group) => given[group] === copies) ? shares : null;
}

function mostThat(most: number, fits: (count: number) => boolean): number {
  if (most === 0 || fits(most)) return most;
  let [low, high] = [0, most];
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if (fits(middle)) low = middle;
    else high = middle;
  }
  return low;
}
