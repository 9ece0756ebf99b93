import type { Violation } from "../../model/violation.ts";
import { breachOf, type LayoutCheck } from "../check.ts";
import { shiftSides, shiftsOf } from "../shifts.ts";
import { allowance } from "../tolerance.ts";

const breach = breachOf("slackTrue");

/** No panel is said to shift farther than film and its seams allow; that it may shift less is no fault. */
export const slackTrue: LayoutCheck = ({ job, elevations }) => {
  const found: Violation[] = [];
  for (const view of elevations) {
    if (!view.sections.some(({ panels }) => panels.some(({ slack }) => slack !== null))) continue;
    for (const [{ id, slack }, shifts] of shiftsOf(job, view)) {
      for (const side of slack === null ? [] : shiftSides) {
        const [stated, due] = [slack?.[side] ?? 0, shifts[side]];
        if (stated <= due + allowance(due)) continue;
        const words = `${job.words.length(stated)} ${side}; ${job.words.length(due)} is the most`;
        found.push(breach([id], `it is said to shift ${words} before film falls short or a seam stops lapping`));
      }
    }
  }
  return found;
};
