import type { Plan } from "../../core/index.ts";
import type { PlanFile } from "../../shared/planFile.ts";
import type { ReachedStanding } from "./messages.ts";

/** What a plan says of the search that found it: its chosen layout's cost and bound. @throws Error when it chose none */
export function standingOf(plan: Plan | PlanFile): ReachedStanding {
  for (const { id, totals, bound } of plan.layouts) {
    if (id !== plan.chosen) continue;
    const { cost, gapPercent, proven, by } = bound;
    return { cost: totals.cost.total, bound: cost, gapPercent, proven, by };
  }
  throw new Error(`The plan's chosen layout ${plan.chosen} is not among its layouts`);
}
