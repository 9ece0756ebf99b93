import type { Axis, Interval } from "../geometry/box.ts";
import type { Panel } from "../model/plan.ts";
import { joined, trapezoids } from "./geometry/region.ts";
import type { ElevationView } from "./layoutView.ts";
import { rangeOn } from "./ranges.ts";
import type { SectionView } from "./sections.ts";

/** Stretches of the split axis inside the section where nothing is needed over its whole height, film before and after. */
export function gapsOf(view: ElevationView, section: SectionView, axis: Axis): Interval[] {
  const covered = joined(trapezoids(view.job.needed, axis, section.box));
  return covered.slice(1).map((stretch, i) => ({ from: (covered[i] as Interval).to, to: stretch.from }));
}

/** Gaps that may part two neighbours without a seam, none before `from`: neither window ends short of its own side. */
export function gapsBetween(gaps: readonly Interval[], axis: Axis, low: Panel, high: Panel, from: number): Interval[] {
  const across = { low: rangeOn(axis, low.window).to, high: rangeOn(axis, high.window).from };
  return gaps.filter((gap) => gap.from >= from && across.low >= gap.from && across.high <= gap.to);
}

/** The part of a section that one panel stands for: from one place where the section is split to the next. */
export interface Stretch {
  readonly panel: Panel;
  readonly from: number;
  readonly to: number;
}

/**
 * The stretches of a section's panels, in order: they meet at seams, leave gaps out and end with the section. Where two
 * neighbours have neither seam nor gap between them the list ends before the second: a check of the windows reports it.
 */
export function stretchesOf(view: ElevationView, section: SectionView): Stretch[] {
  const axis = section.splitAxis;
  if (axis === null) return [];
  const gaps = gapsOf(view, section, axis);
  const { from: start, to: end } = rangeOn(axis, section.box);
  const stretches: Stretch[] = [];
  let from = start;
  let partStart = start;
  for (const [i, panel] of section.panels.entries()) {
    const next = section.panels[i + 1];
    if (next === undefined) {
      stretches.push({ panel, from, to: end });
      break;
    }
    const seam = view.seams.find(({ low, high }) => low === panel && high === next);
    const gap = seam === undefined ? gapsBetween(gaps, axis, panel, next, partStart)[0] : undefined;
    const to = seam?.seam.at ?? gap?.from;
    if (to === undefined) break;
    stretches.push({ panel, from, to });
    if (gap !== undefined) partStart = gap.to;
    from = gap?.to ?? to;
  }
  return stretches;
}
