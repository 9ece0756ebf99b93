import type { Dimension } from "../../model/plan.ts";
import type { Violation } from "../../model/violation.ts";
import { breachOf, type LayoutCheck } from "../check.ts";
import { dimensionsOf, type TrueDimension } from "../dimensions.ts";
import { allowance } from "../tolerance.ts";

const breach = breachOf("dimensionsTrue");

/**
 * Every measure of the body that is told runs between two neighbouring fixed lines of a section, or along it from end to
 * end, and is not said to bear more than it does. That it may bear more is no fault.
 */
export const dimensionsTrue: LayoutCheck = ({ job, layout, elevations }) => {
  const found: Violation[] = [];
  const told = layout.dimensions ?? [];
  if (told.length === 0) return found;
  const ids = new Set(job.elevations.keys());
  for (const { elevation, name, slack } of told) {
    if (!ids.has(elevation)) found.push(breach([elevation], `the job has no elevation ${elevation} to measure`));
    if (name.trim() === "") found.push(breach([elevation], "a measure without a name"));
    if (slack < 0) found.push(breach([elevation, name], "its slack is less than nothing"));
  }
  for (const view of elevations) {
    const { id } = view.job.elevation;
    const own = told.filter(({ elevation }) => elevation === id).sort((a, b) => b.slack - a.slack);
    if (own.length === 0) continue;
    // Of several sections with the same measure, each told one takes the tightest that bears it.
    const left = new Set(dimensionsOf(job, view).sort((a, b) => a.slack - b.slack));
    for (const one of [...own].reverse()) {
      const same = [...left].filter((due) => isSame(one, due));
      const bearing = same.find(({ slack }) => one.slack <= slack + allowance(slack));
      if (bearing !== undefined) {
        left.delete(bearing);
        continue;
      }
      const most = same.at(-1);
      const range = `${job.words.length(one.from)} to ${job.words.length(one.to)} on axis ${one.axis}`;
      found.push(
        breach(
          [id, one.name],
          most === undefined
            ? `${range} is no measure between neighbouring fixed lines, or is told more than once`
            : `${range} is said to bear ${job.words.length(one.slack)} more; ${job.words.length(most.slack)} is the most`,
        ),
      );
    }
  }
  return found;
};

const isSame = (told: Dimension, due: TrueDimension): boolean =>
  told.axis === due.axis &&
  Math.abs(told.from - due.from) <= allowance(due.from) &&
  Math.abs(told.to - due.to) <= allowance(due.to);
