import type { Axis, Box, Interval } from "../geometry/box.ts";
import type { ZoneRule } from "../model/instance.ts";
import type { Panel, Seam } from "../model/plan.ts";
import { type Region, trapezoids } from "./geometry/region.ts";
import type { ElevationView } from "./layoutView.ts";
import { roundedDown, roundedUp } from "./lines.ts";
import { boxFrom, insidesMeet, lengthOf, otherAxis, rangeOn, shared, sharedBox } from "./ranges.ts";

/** A place that seams keep out of, or avoid: obstacles with their clearance. */
export interface Zone {
  readonly id: string;
  readonly words: string;
  readonly box: Box;
  readonly rule: ZoneRule;
}

export function zonesOf({ job: { elevation } }: ElevationView): Zone[] {
  return [
    ...elevation.keepClear.map(({ id, label, box, rule }) => ({ id, words: label || id, box, rule })),
    ...elevation.obstacles.map(({ id, kind, box: { x0, y0, x1, y1 }, rule, clearance }) => ({
      id,
      words: kind,
      box: { x0: x0 - clearance, y0: y0 - clearance, x1: x1 + clearance, y1: y1 + clearance },
      rule,
    })),
  ];
}

/** What one seam covers: its line if film is cut in a break there, else the bands that its windows share. */
export interface Cover {
  readonly seam: Seam;
  readonly line: { readonly axis: Axis; readonly at: number; readonly over: Interval } | null;
  readonly bands: readonly Box[];
}

/** The cover of every seam of an elevation whose panels or sections were found. */
export function coversOf(view: ElevationView): Cover[] {
  const needed = view.job.needed;
  const inside = view.seams.map(({ seam, section, low, high }) =>
    coverOf(seam, () => {
      const overlap = sharedOn(seam.axis, low, high);
      const within = boxFrom(
        seam.axis,
        shared(overlap, rangeOn(seam.axis, section.box)),
        rangeOn(otherAxis(seam.axis), section.box),
      );
      // Windows that only touch meet on the line itself.
      if (lengthOf(overlap) === 0) return [boxFrom(seam.axis, overlap, { from: seam.from, to: seam.to })];
      return bandIn(needed, seam.axis, overlap, within);
    }),
  );
  const atBorders = view.borderSeams.flatMap(({ seam, border }) =>
    border === null
      ? []
      : [
          coverOf(seam, () =>
            border.facing.flatMap(({ overlap, stretch }) => {
              const both = boxFrom(
                seam.axis,
                { from: rangeOn(seam.axis, border.low.box).from, to: rangeOn(seam.axis, border.high.box).to },
                border.shared,
              );
              return bandIn(needed, seam.axis, overlap, sharedBox(both, boxFrom(seam.axis, overlap, stretch)));
            }),
          ),
        ],
  );
  return [...inside, ...atBorders];
}

function coverOf(seam: Seam, bands: () => Box[]): Cover {
  return seam.kind === "break"
    ? { seam, line: { axis: seam.axis, at: seam.at, over: { from: seam.from, to: seam.to } }, bands: [] }
    : { seam, line: null, bands: bands() };
}

/**
 * The band between the lowest and the highest point needed of it inside `within`, rounded outward; none where nothing is.
 * Windows that only touch share a band without width: all that both cover of the line.
 */
function bandIn(needed: Region, axis: Axis, overlap: Interval, within: Box): Box[] {
  if (lengthOf(overlap) < 0) return [];
  if (lengthOf(overlap) === 0) return [boxFrom(axis, overlap, rangeOn(otherAxis(axis), within))];
  const pieces = trapezoids(needed, axis, within);
  if (pieces.length === 0) return [];
  const lowest = Math.min(...pieces.flatMap(({ low }) => low));
  const highest = Math.max(...pieces.flatMap(({ high }) => high));
  return [boxFrom(axis, overlap, { from: roundedDown(lowest), to: roundedUp(highest) })];
}

export function sharedOn(axis: Axis, low: Panel, high: Panel): Interval {
  return shared(rangeOn(axis, low.window), rangeOn(axis, high.window));
}

/** True where the insides of seam and zone meet; touching is allowed. */
export function meets(cover: Cover, zone: Zone): boolean {
  if (cover.line !== null) {
    const { axis, at, over } = cover.line;
    const across = rangeOn(axis, zone.box);
    return across.from < at && at < across.to && lengthOf(shared(over, rangeOn(otherAxis(axis), zone.box))) > 0;
  }
  const { axis } = cover.seam;
  return cover.bands.some((band) => {
    const { from, to } = rangeOn(axis, band);
    if (from < to) return insidesMeet(band, zone.box);
    const [across, along] = [rangeOn(axis, zone.box), rangeOn(otherAxis(axis), zone.box)];
    return across.from < from && from < across.to && lengthOf(shared(rangeOn(otherAxis(axis), band), along)) > 0;
  });
}
