import type { Axis, Box, Interval, Side } from "../../geometry/box.ts";
import type { Panel } from "../../model/plan.ts";
import type { Violation } from "../../model/violation.ts";
import { breachOf, type LayoutCheck } from "../check.ts";
import { gapsBetween, gapsOf } from "../gaps.ts";
import { trapezoids } from "../geometry/region.ts";
import type { ElevationView } from "../layoutView.ts";
import { roundedDown, roundedUp } from "../lines.ts";
import { boxFrom, otherAxis, rangeOn } from "../ranges.ts";
import { reachToward } from "../reach.ts";
import type { SectionView } from "../sections.ts";
import { allowance } from "../tolerance.ts";
import type { Words } from "../words.ts";

const breach = breachOf("windowsReachAcross");

/**
 * Across the roll the first and the last panel of a section reach past its outermost needed points, and two neighbours
 * have exactly one seam between them, or none and a gap in which nothing is needed, past whose ends both reach
 * (rules 6, 7 and 10). A section with anything needed has panels.
 */
export const windowsReachAcross: LayoutCheck = ({ job: { words }, elevations }) =>
  elevations.flatMap((view) => view.sections.flatMap((section) => sectionBreaches(view, section, words)));

function sectionBreaches(view: ElevationView, section: SectionView, words: Words): Violation[] {
  const at = [view.job.elevation.id, section.id];
  const axis = section.splitAxis;
  const [first, last] = [section.panels[0], section.panels[section.panels.length - 1]];
  if (axis === null || first === undefined || last === undefined) {
    const bare = trapezoids(view.job.needed, "x", section.box).length > 0;
    return bare ? [breach(at, "film is needed here and there is no panel")] : [];
  }
  const found: Violation[] = [];
  const [lowSide, highSide]: readonly [Side, Side] = axis === "x" ? ["left", "right"] : ["bottom", "top"];
  const reaches = (panel: Panel, side: Side, part: Box): Violation[] => {
    const due = reachToward(view, section, part, side);
    if (due === null) return [];
    const { from, to } = rangeOn(axis, panel.window);
    const short = side === lowSide ? from > roundedDown(due) + allowance(due) : to < roundedUp(due) - allowance(due);
    const place = side === lowSide ? from : to;
    return short
      ? [breach([panel.id], `its ${side} is at ${words.length(place)} and must reach ${words.length(due)}`)]
      : [];
  };
  found.push(...reaches(first, lowSide, section.box), ...reaches(last, highSide, section.box));

  const gaps = gapsOf(view, section, axis);
  const { from: start, to: end } = rangeOn(axis, section.box);
  let partStart = start;
  let lastLine = -Infinity;
  for (let i = 0; i + 1 < section.panels.length; i++) {
    const [low, high] = [section.panels[i] as Panel, section.panels[i + 1] as Panel];
    const seams = view.seams.filter(({ seam }) => seam.between[0] === low.id && seam.between[1] === high.id);
    if (seams.length > 1) found.push(breach([low.id, high.id], `there are ${seams.length} seams between them`));
    const line = seams[0]?.seam.at;
    if (line !== undefined) {
      if (line <= lastLine) found.push(breach([low.id, high.id], "their seam does not come after the one before it"));
      lastLine = line;
      continue;
    }
    const between = gapsBetween(gaps, axis, low, high, partStart);
    const faults = between.map((gap) => [
      ...reaches(low, highSide, partOf(section, axis, { from: partStart, to: gap.from })),
      ...reaches(high, lowSide, partOf(section, axis, { from: gap.to, to: end })),
    ]);
    const chosen = Math.max(
      0,
      faults.findIndex((list) => list.length === 0),
    );
    const gap = between[chosen];
    if (gap === undefined) {
      found.push(breach([low.id, high.id], "there is neither a seam nor a gap without film between them"));
      continue;
    }
    found.push(...(faults[chosen] ?? []));
    partStart = gap.to;
  }
  const neighbours = new Set(section.panels.slice(1).map((panel, i) => `${section.panels[i]?.id} ${panel.id}`));
  for (const { seam } of view.seams) {
    if (seam.section === section.id && !neighbours.has(`${seam.between[0]} ${seam.between[1]}`)) {
      found.push(breach([seam.id, ...seam.between], "it does not lie between two neighbours, left or lower one first"));
    }
  }
  return found;
}

const partOf = (section: SectionView, axis: Axis, range: Interval): Box =>
  boxFrom(axis, range, rangeOn(otherAxis(axis), section.box));
