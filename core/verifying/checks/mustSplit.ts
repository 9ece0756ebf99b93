import type { Violation } from "../../model/violation.ts";
import { breachOf, type LayoutCheck } from "../check.ts";
import { lineFacts } from "../lines.ts";
import { otherAxis, rangeOn } from "../ranges.ts";

const breach = breachOf("mustSplit");

/** A break that must split has a seam in every section that it crosses whole, across the section's split (rule 12). */
export const mustSplit: LayoutCheck = ({ job: { instance, words }, elevations }) => {
  const found: Violation[] = [];
  for (const { job, sections, seams } of elevations) {
    const { elevation } = job;
    for (const line of elevation.breaks.filter((entry) => entry.mustSplit)) {
      for (const section of sections) {
        const across = rangeOn(line.axis, section.box);
        if (section.splitAxis !== line.axis || line.at <= across.from || line.at >= across.to) continue;
        const range = rangeOn(otherAxis(line.axis), section.box);
        const facts = lineFacts(elevation, instance.rules, job.needed, line.axis, line.at, range, section.butted);
        if (facts === null || line.from > facts.from || line.to < facts.to) continue;
        const split = seams.some(
          ({ seam }) => seam.section === section.id && seam.axis === line.axis && seam.at === line.at,
        );
        if (!split) {
          found.push(
            breach(
              [elevation.id, section.id, line.id],
              `a seam is demanded at ${words.length(line.at)} and there is none`,
            ),
          );
        }
      }
    }
  }
  return found;
};
