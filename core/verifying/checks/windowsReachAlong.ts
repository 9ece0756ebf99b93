import type { Side } from "../../geometry/box.ts";
import type { Violation } from "../../model/violation.ts";
import { breachOf, type LayoutCheck } from "../check.ts";
import { trapezoids } from "../geometry/region.ts";
import { roundedDown, roundedUp } from "../lines.ts";
import { boxFrom, otherAxis, rangeOn, sharedBox } from "../ranges.ts";
import { reachToward } from "../reach.ts";
import { allowance } from "../tolerance.ts";

const breach = breachOf("windowsReachAlong");

/**
 * Along the roll every window reaches the farthest that anything needed in its strip asks, bleed or half a border's
 * overlap included, and every panel covers something needed (rule 6).
 */
export const windowsReachAlong: LayoutCheck = ({ job: { words }, elevations }) => {
  const found: Violation[] = [];
  for (const view of elevations) {
    for (const section of view.sections) {
      for (const panel of section.panels) {
        const axis = panel.direction === "vertical" ? "x" : "y";
        const range = rangeOn(axis, panel.window);
        const strip = sharedBox(section.box, boxFrom(axis, range, rangeOn(otherAxis(axis), section.box)));
        if (trapezoids(view.job.needed, "x", strip).length === 0) {
          found.push(breach([panel.id], "it covers nothing that is needed"));
          continue;
        }
        const ends: readonly [Side, Side] = axis === "x" ? ["bottom", "top"] : ["left", "right"];
        const { from, to } = rangeOn(otherAxis(axis), panel.window);
        const low = reachToward(view, section, strip, ends[0]);
        const high = reachToward(view, section, strip, ends[1]);
        if (low !== null && from > roundedDown(low) + allowance(low)) {
          found.push(
            breach([panel.id], `its ${ends[0]} is at ${words.length(from)} and must reach ${words.length(low)}`),
          );
        }
        if (high !== null && to < roundedUp(high) - allowance(high)) {
          found.push(
            breach([panel.id], `its ${ends[1]} is at ${words.length(to)} and must reach ${words.length(high)}`),
          );
        }
      }
    }
  }
  return found;
};
