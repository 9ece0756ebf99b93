import type { Violation } from "../../model/violation.ts";
import { breachOf, type LayoutCheck } from "../check.ts";
import { copyGroups, lotOf } from "../lots.ts";

const breach = breachOf("stockFirst");

/**
 * No new roll where a stock entry could carry the same load at the same cost: same film and width, enough left, and no
 * copy torn between lots by it (rule 22).
 */
export const stockFirst: LayoutCheck = (view) => {
  const { job, layout } = view;
  const found: Violation[] = [];
  const groups = copyGroups(view);
  for (const load of layout.rolls.filter(({ stock }) => stock === null)) {
    const touched = groups.filter(({ loads }) => loads.has(load));
    const entry = job.instance.stock.find((candidate) => {
      if (candidate.film !== load.film || candidate.width !== load.width) return false;
      const used = layout.rolls
        .filter(({ stock }) => stock === candidate.id)
        .reduce((sum, other) => sum + other.used, 0);
      const lot = lotOf({ ...load, stock: candidate.id }, job);
      const torn = touched.some(({ loads }) => [...loads].some((other) => other !== load && lotOf(other, job) !== lot));
      return candidate.length - used >= load.used && !torn;
    });
    if (entry !== undefined) {
      found.push(breach([load.id, entry.id], `a new roll is used where ${entry.id} from stock would do`));
    }
  }
  return found;
};
