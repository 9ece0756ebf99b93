import type { Violation } from "../../model/violation.ts";
import { breachOf, type LayoutCheck } from "../check.ts";
import { lapsOf } from "../laps.ts";

const breach = breachOf("applyOrder");

/** Every panel and fill is applied once per elevation, with a reason; of two that lap, the one under comes first. */
export const applyOrder: LayoutCheck = ({ layout, elevations, panels }) => {
  const found: Violation[] = [];
  const place = new Map<string, number>();
  layout.applyOrder.forEach(({ panel, why }, index) => {
    if (!panels.has(panel)) found.push(breach([panel], "there is no such panel to apply"));
    if (place.has(panel)) found.push(breach([panel], "it is applied more than once"));
    if (why.trim() === "") found.push(breach([panel], "no reason is given for its place in the order"));
    place.set(panel, index);
  });
  for (const id of panels.keys()) if (!place.has(id)) found.push(breach([id], "it is never applied"));

  for (const { seam, under, over } of elevations.flatMap(lapsOf)) {
    const [first, second] = [place.get(under.id), place.get(over.id)];
    if (first === undefined || second === undefined || first < second) continue;
    found.push(breach([seam.id, under.id, over.id], `${under.id} lies under ${over.id} and is applied after it`));
  }
  return found;
};
