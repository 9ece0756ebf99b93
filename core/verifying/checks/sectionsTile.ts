import type { Violation } from "../../model/violation.ts";
import { breachOf, type LayoutCheck } from "../check.ts";
import { insidesMeet, lengthOf, rangeOn } from "../ranges.ts";
import { hasSize, sides } from "../sections.ts";
import { SHARE } from "../tolerance.ts";

const breach = breachOf("sectionsTile");

/** Sections and the fills in use tile the elevation's box; a fill is no deeper than it may be (rules 2 and 15). */
export const sectionsTile: LayoutCheck = ({ job: { words }, layout, elevations }) => {
  const found: Violation[] = [];
  for (const { job, fills, sections } of elevations) {
    const { elevation } = job;
    for (const { id, choice, depth, statedDepths } of fills) {
      const at = [elevation.id, id];
      if (statedDepths.length > 1) {
        found.push(breach(at, `its borders put its depth at ${statedDepths.map(words.length).join(" and at ")}`));
      }
      if (depth <= 0) found.push(breach(at, `its depth is ${words.length(depth)}`));
      if (depth > choice.maxDepth) {
        found.push(breach(at, `it is ${words.length(depth)} deep; ${words.length(choice.maxDepth)} is the most`));
      }
    }
    for (const side of sides) {
      const id = `fill-${side}`;
      const used = layout.panels.some((panel) => panel.elevation === elevation.id && panel.section === id);
      if (used && !elevation.fill.some(({ edge }) => edge === side)) {
        found.push(breach([elevation.id, id], `the job allows no fill along the ${side}`));
      }
    }
    let area = 0;
    sections.forEach((section, i) => {
      if (!hasSize(section.box))
        found.push(breach([elevation.id, section.id], "the fills leave nothing of this section"));
      area += lengthOf(rangeOn("x", section.box)) * lengthOf(rangeOn("y", section.box));
      for (const other of sections.slice(i + 1)) {
        if (insidesMeet(section.box, other.box)) {
          found.push(breach([elevation.id, section.id, other.id], "two sections overlap"));
        }
      }
    });
    const whole = lengthOf(rangeOn("x", elevation.box)) * lengthOf(rangeOn("y", elevation.box));
    if (Math.abs(area - whole) > SHARE * whole) {
      found.push(breach([elevation.id], `the sections do not tile the elevation's box ${words.box(elevation.box)}`));
    }
  }
  return found;
};
