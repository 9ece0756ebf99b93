import type { Covering, CoveringMeasures } from "../model/covering.ts";

/** One covering for each group of elevations, and the policy that picked them first. */
export interface Combination {
  readonly policy: Policy;
  readonly coverings: readonly Covering[];
}

/** What a layout is made to be good at. */
export type Policy = "cheapest" | "leastFilm" | "leastPrint" | "fewestSeams" | "fewestOpen" | "hiddenSeams" | "between";

type Order = (a: CoveringMeasures, b: CoveringMeasures) => number;

const cheaper: Order = (a, b) => a.costEstimate - b.costEstimate || a.visibleSeams - b.visibleSeams;

/** Each policy as an order on the coverings of one group; the first of the order is taken. */
const orders: Readonly<Record<Exclude<Policy, "between">, Order>> = {
  cheapest: cheaper,
  leastFilm: (a, b) => a.aloneArea - b.aloneArea || cheaper(a, b),
  fewestSeams: (a, b) => a.visibleSeams - b.visibleSeams || a.penalties - b.penalties || cheaper(a, b),
  fewestOpen: (a, b) =>
    a.openSeamsPerCopy - b.openSeamsPerCopy ||
    a.visibleSeams - b.visibleSeams ||
    a.penalties - b.penalties ||
    cheaper(a, b),
  hiddenSeams: (a, b) =>
    a.visibleLength - b.visibleLength || a.penalties - b.penalties || a.visibleSeams - b.visibleSeams || cheaper(a, b),
  leastPrint: (a, b) => a.windowArea - b.windowArea || cheaper(a, b),
};

/** At most this many combinations between the fewest seams and the lowest cost are tried. */
const STEPS_BETWEEN = 8;

/**
 * Picks combinations of coverings worth laying on rolls: one for each policy, and some between the fewest seams and the
 * lowest estimate.
 *
 * @param groups for each group of elevations its coverings, at least one
 * @returns distinct combinations, policies first in a fixed order
 *
 * Time O(groups x seams x coverings). Ties: the covering listed first.
 */
export function combinations(groups: readonly (readonly Covering[])[]): Combination[] {
  const picked: Combination[] = [];
  const seen = new Set<string>();
  const add = (policy: Policy, coverings: readonly Covering[]) => {
    const key = coverings.map((covering, i) => groups[i]?.indexOf(covering)).join(" ");
    if (seen.has(key)) return;
    seen.add(key);
    picked.push({ policy, coverings });
  };
  for (const policy of Object.keys(orders) as (keyof typeof orders)[]) {
    add(
      policy,
      groups.map((coverings) => least(coverings, orders[policy])),
    );
  }
  for (const coverings of evenly(cheapestBySeams(groups), STEPS_BETWEEN)) add("between", coverings);
  return picked;
}

function least(coverings: readonly Covering[], order: Order): Covering {
  return coverings.reduce((best, covering) => (order(covering.measures, best.measures) < 0 ? covering : best));
}

/** For each total of visible seams that buys a lower estimate, the combination with the lowest, fewest seams first. */
function cheapestBySeams(groups: readonly (readonly Covering[])[]): (readonly Covering[])[] {
  let totals = new Map<number, { cost: number; coverings: readonly Covering[] }>([[0, { cost: 0, coverings: [] }]]);
  for (const coverings of groups) {
    const next: typeof totals = new Map();
    for (const [seams, sofar] of totals) {
      for (const covering of coverings) {
        const total = seams + covering.measures.visibleSeams;
        const cost = sofar.cost + covering.measures.costEstimate;
        const known = next.get(total);
        if (known === undefined || cost < known.cost) {
          next.set(total, { cost, coverings: [...sofar.coverings, covering] });
        }
      }
    }
    totals = onlyCheaper(next);
  }
  return [...totals.values()].map(({ coverings }) => coverings);
}

/** Drops totals that cost no less than one with fewer seams. */
function onlyCheaper<T extends { readonly cost: number }>(totals: ReadonlyMap<number, T>): Map<number, T> {
  const kept = new Map<number, T>();
  let lowest = Infinity;
  for (const [seams, total] of [...totals].sort(([a], [b]) => a - b)) {
    if (total.cost >= lowest) continue;
    lowest = total.cost;
    kept.set(seams, total);
  }
  return kept;
}

function evenly<T>(items: readonly T[], most: number): T[] {
  if (items.length <= most) return [...items];
  return Array.from({ length: most }, (_, i) => items[Math.round((i * (items.length - 1)) / (most - 1))] as T);
}
