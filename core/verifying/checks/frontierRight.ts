import { type Layout, seamCount } from "../../model/plan.ts";
import type { Violation } from "../../model/violation.ts";
import { breachOf, type PlanCheck } from "../check.ts";
import { EQUAL_COST } from "../tolerance.ts";

const breach = breachOf("frontierRight");

/** Amounts nearer than this share are told apart by the order of a sum alone: either way of ranking them is right. */
const ROUNDING = 1e-9;

type Merits = readonly [waste: number, seams: number, cost: number];

/**
 * The frontier lists every layout that none beats on waste, seam count and cost, equal ones once; the chosen one is the
 * cheapest of them, then the one with fewest seams, then least waste, then the first by id (section 5).
 */
export const frontierRight: PlanCheck = (_, plan) => {
  const found: Violation[] = [];
  const byId = new Map(plan.layouts.map((layout) => [layout.id, layout]));
  const listed: Layout[] = [];
  for (const id of plan.frontier) {
    const layout = byId.get(id);
    if (layout === undefined) found.push(breach([id], "there is no such layout"));
    else if (listed.includes(layout)) found.push(breach([id], "it is listed twice"));
    else listed.push(layout);
  }
  for (const layout of listed) {
    const beater = plan.layouts.find((other) => other !== layout && beats(meritsOf(other), meritsOf(layout)));
    if (beater !== undefined) found.push(breach([layout.id, beater.id], `it is listed, and ${beater.id} beats it`));
    const twin = listed.find((other) => other.id < layout.id && same(meritsOf(other), meritsOf(layout)));
    if (twin !== undefined) found.push(breach([layout.id, twin.id], "two equal layouts are listed"));
  }
  for (const layout of plan.layouts) {
    if (!listed.includes(layout) && !listed.some((other) => asGood(meritsOf(other), meritsOf(layout)))) {
      found.push(breach([layout.id], "no listed layout beats or equals it, and it is not listed"));
    }
  }
  const chosen = byId.get(plan.chosen);
  if (chosen === undefined || !listed.includes(chosen)) {
    found.push(breach([plan.chosen], "what is chosen is not on the frontier"));
  } else {
    const better = listed.find((other) => other !== chosen && comesFirst(other, chosen));
    if (better !== undefined) found.push(breach([chosen.id, better.id], `${better.id} comes before what is chosen`));
  }
  return found;
};

const meritsOf = ({ totals }: Layout): Merits => [totals.wastePercent, seamCount(totals), totals.cost.total];

const same = (a: Merits, b: Merits): boolean => a.every((merit, i) => merit === b[i]);

/** No worse on any, roundings aside. */
const asGood = (a: Merits, b: Merits): boolean =>
  a.every((merit, i) => merit <= (b[i] as number) + slack(b[i] as number));

/** No worse on any and clearly better on one. */
const beats = (a: Merits, b: Merits): boolean =>
  a.every((merit, i) => merit <= (b[i] as number)) &&
  a.some((merit, i) => merit < (b[i] as number) - slack(b[i] as number));

const slack = (merit: number): number => Math.abs(merit) * ROUNDING;

/** Before the other both when costs half a cent apart are equal and when they are not. */
function comesFirst(a: Layout, b: Layout): boolean {
  const [wasteA, seamsA, costA] = meritsOf(a);
  const [wasteB, seamsB, costB] = meritsOf(b);
  const inOrder = (equalCost: number): boolean => {
    if (Math.abs(costA - costB) > equalCost) return costA < costB;
    if (seamsA !== seamsB) return seamsA < seamsB;
    if (Math.abs(wasteA - wasteB) > slack(wasteB)) return wasteA < wasteB;
    return a.id < b.id;
  };
  return inOrder(EQUAL_COST) && inOrder(slack(costB));
}
