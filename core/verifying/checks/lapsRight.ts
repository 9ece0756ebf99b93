import type { Axis } from "../../geometry/box.ts";
import type { Travel } from "../../model/instance.ts";
import type { Violation } from "../../model/violation.ts";
import { breachOf, type LayoutCheck } from "../check.ts";

const breach = breachOf("lapsRight");

/** What lies on top: the front one on axis x, the upper one on axis y, panels over fills (rules 14 and 15). */
export const lapsRight: LayoutCheck = ({ elevations }) => {
  const found: Violation[] = [];
  for (const view of elevations) {
    const { travel } = view.job.elevation;
    const due = [
      ...view.seams.map(({ seam }) => ({ seam, top: seam.between[topByTravel(seam.axis, travel)] })),
      ...view.borderSeams.flatMap(({ seam, border }) => {
        if (border === null) return [];
        const panelSections = [border.low, border.high].filter(({ role }) => role === "panel");
        const top = panelSections.length === 1 ? panelSections[0]?.id : seam.between[topByTravel(seam.axis, travel)];
        return [{ seam, top }];
      }),
    ];
    for (const { seam, top } of due) {
      if (seam.top !== top) found.push(breach([seam.id], `${seam.top} is said to lie on top; it is ${top} that does`));
    }
  }
  return found;
};

/** 0: left or lower; 1: right or upper. */
function topByTravel(axis: Axis, travel: Travel): 0 | 1 {
  if (axis === "x") return travel === "right" ? 1 : 0;
  return travel === "down" ? 0 : 1;
}
