import type { Panel } from "../../model/plan.ts";
import type { Violation } from "../../model/violation.ts";
import { breachOf, type LayoutCheck } from "../check.ts";
import { mirroredSection } from "../sections.ts";

const breach = breachOf("mirrorsExact");

/**
 * The windows of an elevation that repeats another are the exact mirror image of those it mirrors (rule 3). One that only
 * follows another has windows of its own, and what repeats it repeats those.
 */
export const mirrorsExact: LayoutCheck = ({ job, layout }) => {
  const found: Violation[] = [];
  for (const elevation of job.instance.elevations) {
    if (elevation.mirrorOf === null || elevation.mirror === "follow") continue;
    const source = job.elevations.get(elevation.mirrorOf)?.elevation;
    if (source === undefined) {
      found.push(breach([elevation.id, elevation.mirrorOf], "the elevation that it mirrors is not there"));
      continue;
    }
    const { x0, x1 } = source.box;
    const own = layout.panels
      .filter((panel) => panel.elevation === elevation.id)
      .map((panel) => keyOf(panel, panel.section));
    const due = layout.panels
      .filter((panel) => panel.elevation === source.id)
      .map((panel) => {
        const { window } = panel;
        const mirrored = { ...window, x0: x0 + x1 - window.x1, x1: x0 + x1 - window.x0 };
        return keyOf({ ...panel, window: mirrored }, mirroredSection(panel.section));
      });
    own.sort();
    due.sort();
    if (own.length !== due.length || own.some((key, i) => key !== due[i])) {
      found.push(breach([elevation.id, source.id], "its windows are not the exact mirror image"));
    }
  }
  return found;
};

const keyOf = ({ role, direction, window }: Panel, section: string): string =>
  JSON.stringify([section, role, direction, window.x0, window.y0, window.x1, window.y1]);
