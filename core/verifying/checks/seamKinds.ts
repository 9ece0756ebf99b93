import type { Violation } from "../../model/violation.ts";
import { breachOf, type LayoutCheck } from "../check.ts";

const breach = breachOf("seamKinds");

/** A seam's kind is that of what spans its whole needed stretch (rules 9 and 13). */
export const seamKinds: LayoutCheck = ({ elevations }) => {
  const found: Violation[] = [];
  for (const view of elevations) {
    const seams = [
      ...view.seams,
      ...view.borderSeams.map(({ seam, border }) => ({ seam, facts: border?.facts ?? null })),
    ];
    for (const { seam, facts } of seams) {
      if (facts !== null && seam.kind !== facts.kind) {
        found.push(breach([seam.id], `it is said to be ${seam.kind}; what spans its line makes it ${facts.kind}`));
      }
    }
  }
  return found;
};
