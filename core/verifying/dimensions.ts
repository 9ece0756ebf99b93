import type { Axis, Interval } from "../geometry/box.ts";
import type { Seam } from "../model/plan.ts";
import { gapsOf, type Stretch, stretchesOf } from "./gaps.ts";
import { onBothSides, trapezoids } from "./geometry/region.ts";
import type { Job } from "./job.ts";
import type { ElevationView } from "./layoutView.ts";
import { leastKept } from "./lines.ts";
import { boxFrom, lengthOf, otherAxis, rangeOn, shared } from "./ranges.ts";
import type { SectionView } from "./sections.ts";

/** A measure of the body between two fixed places of an axis, and how much longer it may turn out: 0 or more, unrounded. */
export interface TrueDimension {
  readonly axis: Axis;
  readonly from: number;
  readonly to: number;
  readonly slack: number;
}

/**
 * Every measure of an elevation that its panels depend on: across each section's split between every two neighbouring
 * fixed lines (ends of what is needed, sides of gaps, seams in breaks), and along it from end to end.
 */
export function dimensionsOf(job: Job, view: ElevationView): TrueDimension[] {
  return view.sections.flatMap((section) => {
    if (section.splitAxis === null) return [];
    return [...acrossSplit(job, view, section, section.splitAxis), ...alongPanels(job, view, section)];
  });
}

/** A fixed line, and how far past it a window must reach at least. */
interface FixedLine {
  readonly at: number;
  readonly reach: number;
}

function acrossSplit(job: Job, view: ElevationView, section: SectionView, axis: Axis): TrueDimension[] {
  const covered = trapezoids(view.job.needed, axis, section.box);
  if (covered.length === 0) return [];
  const box = rangeOn(otherAxis(axis), section.box);
  const inside = view.seams.filter((entry) => entry.section === section);
  const gaps = gapsOf(view, section, axis);
  const lines: FixedLine[] = [
    {
      at: Math.min(...covered.map(({ from }) => from)),
      reach: reachAtBorder(job, view, section, axis, "low", box),
    },
    ...gaps.flatMap(({ from, to }) => [
      { at: from, reach: 0 },
      { at: to, reach: 0 },
    ]),
    ...inside.flatMap(({ seam, facts }) =>
      seam.kind === "break" ? [{ at: seam.at, reach: Math.ceil((facts?.breakWidth ?? 0) / 2) }] : [],
    ),
    {
      at: Math.max(...covered.map(({ to }) => to)),
      reach: reachAtBorder(job, view, section, axis, "high", box),
    },
  ].sort((a, b) => a.at - b.at);
  const stretches = stretchesOf(view, section);
  const seams = inside.map(({ seam }) => seam);
  const kept = leastKept(section.butted, job.instance.rules);
  return lines.slice(1).flatMap((upper, i) => {
    const lower = lines[i] as FixedLine;
    const bare = upper.at <= lower.at || gaps.some(({ from, to }) => from === lower.at && to === upper.at);
    const slack = bare ? null : slackBetween(axis, lower, upper, stretches, seams, kept);
    return slack === null ? [] : [{ axis, from: lower.at, to: upper.at, slack }];
  });
}

/** What the panels between two fixed lines have to spare: at both ends, and at every seam between them. */
function slackBetween(
  axis: Axis,
  lower: FixedLine,
  upper: FixedLine,
  stretches: readonly Stretch[],
  seams: readonly Seam[],
  kept: number,
): number | null {
  const between = stretches.filter(({ from, to }) => Math.min(to, upper.at) > Math.max(from, lower.at));
  const [first, last] = [between[0], between[between.length - 1]];
  if (first === undefined || last === undefined) return null;
  const spare = seams
    .filter(({ at }) => lower.at < at && at < upper.at)
    .reduce((sum, { overlap }) => sum + overlap - kept, 0);
  const low = lower.at - rangeOn(axis, first.panel.window).from - lower.reach;
  const high = rangeOn(axis, last.panel.window).to - upper.at - upper.reach;
  return Math.max(0, low + high + spare);
}

function alongPanels(job: Job, view: ElevationView, section: SectionView): TrueDimension[] {
  const split = section.splitAxis as Axis;
  const axis = otherAxis(split);
  const ends = endsIn(view, split, section.box);
  if (ends === null) return [];
  const spare = section.panels.flatMap(({ window }) => {
    const across = shared(rangeOn(split, window), rangeOn(split, section.box));
    const own = endsIn(view, split, boxFrom(split, across, rangeOn(axis, section.box)));
    if (own === null) return [];
    const reach = (end: "low" | "high"): number => reachAtBorder(job, view, section, axis, end, across);
    const { from, to } = rangeOn(axis, window);
    return [to - own.to - reach("high") + own.from - from - reach("low")];
  });
  return spare.length === 0 ? [] : [{ axis, ...ends, slack: Math.max(0, Math.min(...spare)) }];
}

/** Lowest and highest needed place of a box, across the axis that it is cut along. */
function endsIn(view: ElevationView, cut: Axis, box: SectionView["box"]): Interval | null {
  const pieces = trapezoids(view.job.needed, cut, box);
  if (pieces.length === 0) return null;
  return {
    from: Math.min(...pieces.flatMap(({ low }) => low)),
    to: Math.max(...pieces.flatMap(({ high }) => high)),
  };
}

/** Half of what must be kept of an overlap where film goes on past this end of a section, over part of its side; else 0. */
function reachAtBorder(
  { instance: { rules } }: Job,
  view: ElevationView,
  section: SectionView,
  axis: Axis,
  end: "low" | "high",
  part: Interval,
): number {
  const met = view.borders.filter((border) => {
    if (border.axis !== axis || (end === "high" ? border.low : border.high) !== section) return false;
    const { from, to } = shared(border.shared, part);
    return lengthOf({ from, to }) > 0 && onBothSides(view.job.needed, axis, border.at, from, to).length > 0;
  });
  return Math.max(0, ...met.map(({ facts }) => Math.ceil(leastKept(facts.butted, rules) / 2)));
}
