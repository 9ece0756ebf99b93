import type { Ticks } from "../units/ticks.ts";
import type { Axis, Box, Interval, Polygon, Side } from "./box.ts";
import { cutIntoSlabs, type End, ringsAlong, type Slab, type Stretch, valueAt } from "./slabs.ts";

/**
 * The needed region of an elevation: its outline less its openings, as a closed set without loose threads. An opening's
 * own edge belongs to it only where film lies beside it.
 */
export interface Region {
  /**
   * Needed stretches on the line `axis` = `at`, cut to `within`, in order, disjoint, each of positive length. Both sides
   * of the line count, so a line along an opening's edge is needed where film lies on either side of it. Ends on sloped
   * edges are rounded outward to a tick.
   */
  line(axis: Axis, at: Ticks, within: Interval): Interval[];
  /** Needed stretches just before (-1) or just after (1) that line; what `line` joins. */
  beside(axis: Axis, at: Ticks, within: Interval, side: -1 | 1): Interval[];
  /** Needed area inside the box, square ticks, to the precision of a double. */
  area(box: Box): number;
  /** Area of the outline inside the box, openings not taken off, square ticks. */
  outlineArea(box: Box): number;
  /** Smallest box of whole ticks round the needed area inside `box`; null when there is none. */
  extent(box: Box): Box | null;
  /**
   * How far what is needed inside `box` reaches toward one of its sides, as slabs along that side in order, tiling it.
   */
  profile(box: Box, side: Side): ProfileSlab[];
}

/**
 * One slab of a profile, from..to along the side. `outline` and `opening` give the farthest place, at `from` and at `to`
 * and linear in between, at which the needed region ends at that kind of edge; null where it ends at none. `beyond` tells
 * whether needed film goes on past the box's side there.
 */
export interface ProfileSlab {
  readonly from: number;
  readonly to: number;
  readonly outline: readonly [number, number] | null;
  readonly opening: readonly [number, number] | null;
  readonly beyond: boolean;
}

/** A place nearer to a whole tick than this lies on it: the error of one division at the largest coordinates allowed. */
const NEAR = 1e-5;

/** The whole tick at or below a place. */
export const tickBelow = (place: number): Ticks => Math.floor(place + NEAR);
/** The whole tick at or above a place; 0 is added since rounding up from just below it gives minus nought. */
export const tickAbove = (place: number): Ticks => Math.ceil(place - NEAR) + 0;

/**
 * Builds the needed region of an outline and its openings.
 *
 * @param outline simple polygon, ticks, either way round
 * @param openings simple polygons; may overlap each other and reach past the outline
 *
 * Building is put off until first asked and costs what `cutIntoSlabs` says, once for each axis; a query costs the slabs
 * and stretches inside its box.
 */
export function neededRegion(outline: Polygon, openings: readonly Polygon[]): Region {
  const slabsBy = {
    x: once(() => cutIntoSlabs(ringsAlong("x", [outline, ...openings]))),
    y: once(() => cutIntoSlabs(ringsAlong("y", [outline, ...openings]))),
  };
  const whole = once(() => cutIntoSlabs(ringsAlong("x", [outline])));

  const beside = (axis: Axis, at: Ticks, within: Interval, side: -1 | 1): Interval[] => {
    const slabs = slabsBy[axis]();
    const slab =
      side < 0 ? slabs.findLast((s) => s.from < at && at <= s.to) : slabs.find((s) => s.from <= at && at < s.to);
    return slab === undefined ? [] : stretchesOn(slab, at, within);
  };

  return {
    beside,
    line: (axis, at, within) => join([...beside(axis, at, within, -1), ...beside(axis, at, within, 1)]),
    area: (box) => areaOf(clip(slabsBy.x(), frame(box, "x"))),
    outlineArea: (box) => areaOf(clip(whole(), frame(box, "x"))),
    extent: (box) => {
      const columns = rangeOf(clip(slabsBy.x(), frame(box, "x")));
      const rows = rangeOf(clip(slabsBy.y(), frame(box, "y")));
      if (columns === null || rows === null) return null;
      return { x0: columns.from, x1: columns.to, y0: rows.from, y1: rows.to };
    },
    profile: (box, side) => {
      const axis = side === "top" || side === "bottom" ? "x" : "y";
      return profileOf(clip(slabsBy[axis](), frame(box, axis)), side === "top" || side === "right");
    },
  };
}

interface Frame {
  readonly u0: number;
  readonly u1: number;
  readonly v0: number;
  readonly v1: number;
}

const frame = ({ x0, y0, x1, y1 }: Box, axis: Axis): Frame =>
  axis === "x" ? { u0: x0, u1: x1, v0: y0, v1: y1 } : { u0: y0, u1: y1, v0: x0, v1: x1 };

function once<T>(make: () => T): () => T {
  let made: { readonly value: T } | null = null;
  return () => {
    made ??= { value: make() };
    return made.value;
  };
}

function stretchesOn(slab: Slab, u: number, within: Interval): Interval[] {
  return slab.stretches
    .map(({ low, high }) => ({
      from: Math.max(within.from, tickBelow(valueAt(low.edge, u))),
      to: Math.min(within.to, tickAbove(valueAt(high.edge, u))),
    }))
    .filter(({ from, to }) => from < to);
}

/** Joins stretches that overlap or touch. */
export function join(stretches: readonly Interval[]): Interval[] {
  const joined: { from: Ticks; to: Ticks }[] = [];
  for (const { from, to } of [...stretches].sort((a, b) => a.from - b.from)) {
    const last = joined.at(-1);
    if (last !== undefined && from <= last.to) last.to = Math.max(last.to, to);
    else joined.push({ from, to });
  }
  return joined;
}

/** A slab cut to a frame, so thin that each of its stretches crosses neither end of the frame inside it. */
interface ClippedSlab {
  readonly from: number;
  readonly to: number;
  readonly parts: readonly ClippedStretch[];
}

interface ClippedStretch {
  readonly low: readonly [number, number];
  readonly high: readonly [number, number];
  /** What the stretch ends at; null where it goes on beyond the frame. */
  readonly lowEnd: End | null;
  readonly highEnd: End | null;
}

function clip(slabs: readonly Slab[], { u0, u1, v0, v1 }: Frame): ClippedSlab[] {
  const clipped: ClippedSlab[] = [];
  for (let i = firstReaching(slabs, u0); i < slabs.length; i++) {
    const slab = slabs[i] as Slab;
    if (slab.from >= u1) break;
    const marks = marksIn(slab, Math.max(slab.from, u0), Math.min(slab.to, u1), v0, v1);
    for (let k = 0; k + 1 < marks.length; k++) {
      const from = marks[k] as number;
      const to = marks[k + 1] as number;
      const parts = slab.stretches.flatMap((stretch) => clipStretch(stretch, from, to, v0, v1));
      clipped.push({ from, to, parts });
    }
  }
  return clipped;
}

function firstReaching(slabs: readonly Slab[], u: number): number {
  let [low, high] = [0, slabs.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((slabs[middle] as Slab).to <= u) low = middle + 1;
    else high = middle;
  }
  return low;
}

/** The ends of a slab and every place inside it where one of its edges crosses an end of the frame. */
function marksIn(slab: Slab, from: number, to: number, v0: number, v1: number): number[] {
  const marks = [from, to];
  for (const { low, high } of slab.stretches) {
    for (const { edge } of [low, high]) {
      if (edge.v0 === edge.v1) continue;
      for (const v of [v0, v1]) {
        const u = edge.u0 + ((v - edge.v0) / (edge.v1 - edge.v0)) * (edge.u1 - edge.u0);
        if (u > from && u < to) marks.push(u);
      }
    }
  }
  return marks.length === 2 ? marks : [...new Set(marks)].sort((a, b) => a - b);
}

function clipStretch({ low, high }: Stretch, from: number, to: number, v0: number, v1: number): ClippedStretch[] {
  const middle = (from + to) / 2;
  const lowMiddle = valueAt(low.edge, middle);
  const highMiddle = valueAt(high.edge, middle);
  if (Math.min(highMiddle, v1) <= Math.max(lowMiddle, v0)) return [];
  const below = lowMiddle < v0;
  const above = highMiddle > v1;
  return [
    {
      low: below ? [v0, v0] : [valueAt(low.edge, from), valueAt(low.edge, to)],
      high: above ? [v1, v1] : [valueAt(high.edge, from), valueAt(high.edge, to)],
      lowEnd: below ? null : low,
      highEnd: above ? null : high,
    },
  ];
}

function areaOf(slabs: readonly ClippedSlab[]): number {
  let area = 0;
  for (const { from, to, parts } of slabs) {
    for (const { low, high } of parts) area += ((high[0] - low[0] + high[1] - low[1]) / 2) * (to - from);
  }
  return area;
}

function rangeOf(slabs: readonly ClippedSlab[]): Interval | null {
  const first = slabs.find(({ parts }) => parts.length > 0);
  const last = slabs.findLast(({ parts }) => parts.length > 0);
  return first && last ? { from: tickBelow(first.from), to: tickAbove(last.to) } : null;
}

function profileOf(slabs: readonly ClippedSlab[], upward: boolean): ProfileSlab[] {
  return slabs.map(({ from, to, parts }) => {
    const ordered = upward ? [...parts].reverse() : parts;
    const endOf = (part: ClippedStretch) => (upward ? part.highEnd : part.lowEnd);
    const placeOf = (part: ClippedStretch | undefined) => (part === undefined ? null : upward ? part.high : part.low);
    return {
      from,
      to,
      outline: placeOf(ordered.find((part) => endOf(part)?.outline === true)),
      opening: placeOf(ordered.find((part) => endOf(part)?.opening === true)),
      beyond: ordered.some((part) => endOf(part) === null),
    };
  });
}
