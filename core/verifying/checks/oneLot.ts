import type { Load } from "../../model/plan.ts";
import type { Violation } from "../../model/violation.ts";
import { breachOf, type LayoutCheck } from "../check.ts";
import { copyGroups, lotOf } from "../lots.ts";

const breach = breachOf("oneLot");

/**
 * All panels of one copy on one film come from one lot, those of elevations that the job holds together too; new rolls of
 * a film count as one (rule 23).
 */
export const oneLot: LayoutCheck = (view) => {
  const found: Violation[] = [];
  for (const { name, copy, film, loads } of copyGroups(view)) {
    const lots = new Set([...loads].map((load: Load) => lotOf(load, view.job)));
    if (lots.size > 1) {
      const ids = [...loads].map(({ id }) => id).join(", ");
      found.push(breach([name, film], `copy ${copy} lies on ${lots.size} lots of ${film}: loads ${ids}`));
    }
  }
  return found;
};
