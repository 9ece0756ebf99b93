import type { Violation } from "../../model/violation.ts";
import { breachOf, type LayoutCheck } from "../check.ts";

const breach = breachOf("bordersListed");

/** Every border with film on both sides is listed once, lower or left section first, and no other is (rule 13). */
export const bordersListed: LayoutCheck = ({ elevations }) => {
  const found: Violation[] = [];
  for (const { job, borders, borderSeams } of elevations) {
    for (const border of borders) {
      const listed = borderSeams.filter((entry) => entry.border === border).length;
      if (listed !== 1) {
        const at = [job.elevation.id, border.low.id, border.high.id];
        found.push(breach(at, `film meets on both sides of this border, and it is listed ${listed} times`));
      }
    }
    for (const { seam, border } of borderSeams) {
      if (border === null) {
        found.push(breach([seam.id, ...seam.between], "no film meets at such a border, left or lower section first"));
      }
    }
  }
  return found;
};
