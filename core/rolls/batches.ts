import type { Elevation, Instance } from "../model/instance.ts";
import type { Panel } from "../model/plan.ts";
import { type Bond, joinedBy, subjectBonds } from "./together.ts";
import { listed } from "./words.ts";

/** Copies alike in all they hold: what is kept on one lot is one copy of these panels. */
export interface LotGroup {
  readonly panels: readonly Panel[];
  readonly copies: number;
  /** For messages: the subject's, the elevation's or the job's own name for the group. */
  readonly name: string;
  /** Whether one copy must come from one lot. */
  readonly bound: boolean;
}

/** Some copies of each group, consecutive ones. */
export interface Batch {
  /** By group: first copy (from 1) and how many. */
  readonly parts: readonly { readonly first: number; readonly count: number }[];
}

/**
 * The groups that come from one lot, by the rule `oneLot` and by the job's own groups (`sameLot`).
 *
 * @param panels of one film
 * @returns in the job's order; an elevation that nothing binds is a group by itself, and not `bound`
 *
 * Groups that have an elevation with panels of this film in common are one.
 */
export function lotGroups(instance: Instance, panels: readonly Panel[]): LotGroup[] {
  const own = instance.elevations.map(({ id }) => panels.filter((panel) => panel.elevation === id));
  const here = instance.elevations.filter((_, i) => own[i]?.length !== 0);
  const bonds = lotBonds(instance);
  return joinedBy(here, bonds).map((members) => {
    const all = ({ elevations }: Bond) => members.every(({ id }) => elevations.includes(id));
    const some = ({ elevations }: Bond) => members.some(({ id }) => elevations.includes(id));
    return {
      panels: members.flatMap((elevation) => own[instance.elevations.indexOf(elevation)] as Panel[]),
      copies: (members[0] as Elevation).count,
      name: bonds.find(all)?.name ?? listed(members.map(({ id }) => id)),
      bound: bonds.some(some),
    };
  });
}

/** What binds elevations to one lot; a rule by elevation binds each one's own panels. */
function lotBonds(instance: Instance): Bond[] {
  const { elevations, sameLot, rules } = instance;
  const alone = elevations
    .filter(({ subject }) => rules.oneLot === "elevation" || (rules.oneLot === "subject" && subject === null))
    .map(({ id }) => ({ name: id, elevations: [id] }));
  const bySubject = rules.oneLot === "subject" ? subjectBonds(instance) : [];
  return [...alone, ...bySubject, ...sameLot.map(({ id, elevations }) => ({ name: id, elevations }))];
}

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
