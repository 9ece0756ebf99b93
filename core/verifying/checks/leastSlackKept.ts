import type { Violation } from "../../model/violation.ts";
import { breachOf, type LayoutCheck } from "../check.ts";
import { shiftSides, shiftsOf } from "../shifts.ts";
import { allowance } from "../tolerance.ts";

const breach = breachOf("leastSlackKept");

/** Every panel and fill can be shifted to every side by the least slack that the job asks, whatever slack it states. */
export const leastSlackKept: LayoutCheck = ({ job, elevations }) => {
  const { leastSlack } = job.instance.rules;
  if (leastSlack <= 0) return [];
  const found: Violation[] = [];
  for (const view of elevations) {
    for (const [{ id }, shifts] of shiftsOf(job, view)) {
      for (const side of shiftSides) {
        const due = shifts[side];
        if (due >= leastSlack - allowance(due)) continue;
        const words = `${job.words.length(due)} ${side}; ${job.words.length(leastSlack)} is asked`;
        found.push(breach([id], `it can be shifted by no more than ${words}`));
      }
    }
  }
  return found;
};
