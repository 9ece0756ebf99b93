import type { Panel } from "../../model/plan.ts";
import type { Violation } from "../../model/violation.ts";
import { breachOf, type LayoutCheck } from "../check.ts";
import { insidesMeet } from "../ranges.ts";

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

  const hold = (seam: string, under: Panel, over: Panel): void => {
    const [first, second] = [place.get(under.id), place.get(over.id)];
    if (first === undefined || second === undefined || !insidesMeet(under.window, over.window)) return;
    if (first >= second)
      found.push(breach([seam, under.id, over.id], `${under.id} lies under ${over.id} and is applied after it`));
  };
  for (const view of elevations) {
    for (const { seam, low, high } of view.seams) {
      if (seam.top === low.id) hold(seam.id, high, low);
      else hold(seam.id, low, high);
    }
    for (const { seam, border } of view.borderSeams) {
      if (border === null) continue;
      const [over, under] = seam.top === border.low.id ? [border.low, border.high] : [border.high, border.low];
      for (const top of over.panels) for (const bottom of under.panels) hold(seam.id, bottom, top);
    }
  }
  return found;
};
