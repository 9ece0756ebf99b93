import type { Violation } from "../../model/violation.ts";
import { breachOf, type PlanCheck } from "../check.ts";

const breach = breachOf("planHead");

/** The plan is one of this job, in its unit, and not empty; its layouts have ids of their own. */
export const planHead: PlanCheck = ({ instance }, plan) => {
  const found: Violation[] = [];
  if (plan.jobName !== instance.name)
    found.push(breach([plan.jobName], `the plan is of another job, not of ${instance.name}`));
  if (plan.unit !== instance.unit)
    found.push(breach([plan.unit], `the plan is in ${plan.unit} and the job in ${instance.unit}`));
  if (!Number.isInteger(plan.seed)) found.push(breach([], `its seed ${plan.seed} is no whole number`));
  if (plan.layouts.length === 0) found.push(breach([], "it has no layout"));
  const seen = new Set<string>();
  for (const { id } of plan.layouts) {
    if (seen.has(id)) found.push(breach([id], "two layouts have this id"));
    seen.add(id);
  }
  return found;
};
