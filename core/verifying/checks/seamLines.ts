import type { Seam } from "../../model/plan.ts";
import type { Violation } from "../../model/violation.ts";
import { breachOf, type LayoutCheck } from "../check.ts";
import type { LineFacts } from "../lines.ts";
import { rangeOn } from "../ranges.ts";
import { allowance } from "../tolerance.ts";
import type { Words } from "../words.ts";

const breach = breachOf("seamLines");

/** A seam lies across the split of its section, inside its box, from its lowest to its highest needed point (rule 9). */
export const seamLines: LayoutCheck = ({ job: { words }, elevations }) => {
  const found: Violation[] = [];
  for (const view of elevations) {
    for (const { seam, section, facts } of view.seams) {
      if (section.splitAxis !== seam.axis) {
        found.push(
          breach([seam.id], `it lies on axis ${seam.axis}, and ${section.id} is split on ${section.splitAxis}`),
        );
        continue;
      }
      const { from, to } = rangeOn(seam.axis, section.box);
      if (seam.at <= from || seam.at >= to) {
        found.push(
          breach(
            [seam.id],
            `it lies at ${words.length(seam.at)}, not inside ${words.length(from)} to ${words.length(to)}`,
          ),
        );
      }
      found.push(...endsAgree(seam, facts, words));
    }
    for (const { seam, border } of view.borderSeams) {
      if (border === null) continue;
      if (seam.at !== border.at) {
        found.push(
          breach([seam.id], `it lies at ${words.length(seam.at)}, and the border at ${words.length(border.at)}`),
        );
      }
      found.push(...endsAgree(seam, border.facts, words));
    }
  }
  return found;
};

function endsAgree(seam: Seam, facts: LineFacts | null, words: Words): Violation[] {
  if (facts === null) return [breach([seam.id], "nothing is needed on its line")];
  const off =
    Math.abs(seam.from - facts.from) > allowance(facts.lowest) ||
    Math.abs(seam.to - facts.to) > allowance(facts.highest);
  if (!off) return [];
  const stated = `${words.length(seam.from)} to ${words.length(seam.to)}`;
  return [
    breach(
      [seam.id],
      `it is said to run ${stated}; film is needed ${words.length(facts.from)} to ${words.length(facts.to)}`,
    ),
  ];
}
