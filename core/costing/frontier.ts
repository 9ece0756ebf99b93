import { type Layout, seamCount } from "../model/plan.ts";

/** Two amounts nearer than this share of the larger are told apart by rounding alone. */
const ROUNDING = 1e-9;

type Criteria = readonly [number, number, number];

const criteria = ({ totals }: Layout): Criteria => [totals.wastePercent, seamCount(totals), totals.cost.total];

/**
 * Leaves out layouts that another equals or beats by no more than rounding, so that nobody who adds up the same figures
 * in another order comes to another frontier.
 *
 * @returns the rest, cheapest first; of equal ones the first by cost, seam count, waste and id
 */
export function withoutNearTies(layouts: readonly Layout[]): Layout[] {
  const kept: Layout[] = [];
  for (const layout of [...layouts].sort(byCost)) {
    const tied = kept.some((other) => {
      const [a, b] = [criteria(other), criteria(layout)];
      return atMost(a, b, ROUNDING) && !beats(a, b, ROUNDING);
    });
    if (!tied) kept.push(layout);
  }
  return kept;
}

/** Ids of the layouts that no other beats on waste, seam count and cost, in the order given; equal ones once. */
export function frontierOf(layouts: readonly Layout[]): string[] {
  const frontier: Layout[] = [];
  for (const layout of layouts) {
    const here = criteria(layout);
    const beaten = layouts.some((other) => other !== layout && beats(criteria(other), here, 0));
    const twin = frontier.some((other) => criteria(other).every((value, i) => value === here[i]));
    if (!beaten && !twin) frontier.push(layout);
  }
  return frontier.map(({ id }) => id);
}

/** Order of preference: lowest cost, then fewest seams, then least waste, then id. */
export function byCost(a: Layout, b: Layout): number {
  return (
    a.totals.cost.total - b.totals.cost.total ||
    seamCount(a.totals) - seamCount(b.totals) ||
    a.totals.wastePercent - b.totals.wastePercent ||
    (a.id < b.id ? -1 : a.id > b.id ? 1 : 0)
  );
}

const slackOf = (value: number, share: number) => Math.abs(value) * share;

const atMost = (a: Criteria, b: Criteria, share: number): boolean =>
  a.every((value, i) => value <= (b[i] as number) + slackOf(b[i] as number, share));

/** At most as much on all and clearly less on one. */
const beats = (a: Criteria, b: Criteria, share: number): boolean =>
  a.every((value, i) => value <= (b[i] as number)) &&
  a.some((value, i) => value < (b[i] as number) - slackOf(b[i] as number, share));
