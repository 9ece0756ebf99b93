import type { Violation } from "../../model/violation.ts";
import { breachOf, type LayoutCheck } from "../check.ts";
import { lengthOf, rangeOn } from "../ranges.ts";

const breach = breachOf("panelShape");

/** Every panel's sizes are those of its window, its direction one that its section allows (rules 4 and 5). */
export const panelShape: LayoutCheck = ({ job: { words }, layout, elevations }) => {
  const found: Violation[] = [];
  for (const panel of layout.panels) {
    const [wide, high] = [lengthOf(rangeOn("x", panel.window)), lengthOf(rangeOn("y", panel.window))];
    if (wide <= 0 || high <= 0) found.push(breach([panel.id], `its window ${words.box(panel.window)} has no size`));
    const [across, along] = panel.direction === "vertical" ? [wide, high] : [high, wide];
    if (panel.across !== across) {
      found.push(
        breach([panel.id], `it is ${words.length(panel.across)} across, but its window is ${words.length(across)}`),
      );
    }
    if (panel.along !== along) {
      found.push(
        breach([panel.id], `it is ${words.length(panel.along)} along, but its window is ${words.length(along)}`),
      );
    }
    if (panel.slack !== null && Object.values(panel.slack).some((slack) => slack < 0)) {
      found.push(breach([panel.id], "its slack is less than nothing"));
    }
  }
  for (const { job, sections } of elevations) {
    for (const section of sections) {
      const at = [job.elevation.id, section.id];
      const directions = new Set(section.panels.map(({ direction }) => direction));
      if (directions.size > 1) found.push(breach(at, "its panels run in two directions"));
      for (const direction of directions) {
        if (section.direction !== "either" && section.direction !== direction) {
          found.push(breach(at, `its panels run ${direction}, and only ${section.direction} is allowed`));
        }
      }
      for (const { id, across } of section.panels) {
        if (section.maxAcross !== null && across > section.maxAcross) {
          const most = words.length(section.maxAcross);
          found.push(breach([id], `it is ${words.length(across)} across; ${most} is the most in ${section.id}`));
        }
      }
    }
  }
  return found;
};
