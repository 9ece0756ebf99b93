import type { Violation } from "../../model/violation.ts";
import { breachOf, type LayoutCheck } from "../check.ts";
import { coversOf, meets, zonesOf } from "../zones.ts";

const breach = breachOf("keepClear");

/** No seam meets a zone to keep clear, nor an obstacle with its clearance; touching is allowed (rule 11). */
export const keepClear: LayoutCheck = ({ job: { words }, elevations }) => {
  const found: Violation[] = [];
  for (const view of elevations) {
    const never = zonesOf(view).filter(({ rule }) => rule === "never");
    if (never.length === 0) continue;
    for (const cover of coversOf(view)) {
      for (const zone of never) {
        if (meets(cover, zone)) {
          const where = `${words.box(zone.box)}`;
          found.push(
            breach(
              [cover.seam.id, zone.id],
              `the seam at ${words.length(cover.seam.at)} runs into ${zone.words} ${where}`,
            ),
          );
        }
      }
    }
  }
  return found;
};
