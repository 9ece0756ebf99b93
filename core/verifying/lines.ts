import type { Axis, Interval } from "../geometry/box.ts";
import type { Elevation, Rules } from "../model/instance.ts";
import type { SeamKind } from "../model/plan.ts";
import type { Ticks } from "../units/ticks.ts";
import { onLine, type Region } from "./geometry/region.ts";
import { isWhole } from "./tolerance.ts";

/** What a seam's line is, by the features of its elevation: no choice of the plan's. */
export interface LineFacts {
  /** Lowest and highest needed point as they are, and rounded outward to ticks. */
  readonly lowest: number;
  readonly highest: number;
  readonly from: Ticks;
  readonly to: Ticks;
  /** Needed length on the line, and how much of it is open to rounding. */
  readonly needed: number;
  readonly slopedEnds: number;
  readonly kind: SeamKind;
  readonly leastOverlap: Ticks;
  /** How far each window reaches past the line at least. */
  readonly half: Ticks;
}

/** @returns what a line is between lo and hi; null where no film is needed on it */
export function lineFacts(
  elevation: Elevation,
  rules: Rules,
  region: Region,
  axis: Axis,
  at: Ticks,
  { from: lo, to: hi }: Interval,
): LineFacts | null {
  const stretches = onLine(region, axis, at, lo, hi);
  const [first, last] = [stretches[0], stretches[stretches.length - 1]];
  if (first === undefined || last === undefined) return null;
  const from = roundedDown(first.from);
  const to = roundedUp(last.to);
  const spans = (line: { axis: Axis; at: Ticks; from: Ticks; to: Ticks }): boolean =>
    line.axis === axis && line.at === at && line.from <= from && line.to >= to;
  const breaks = elevation.breaks.filter(spans);
  const gaps = breaks.filter(({ type }) => type === "gap" || type === "moulding");
  const kind = ((): SeamKind => {
    if (gaps.length > 0) return "break";
    if (breaks.some(({ type }) => type === "bodyLine")) return "bodyLine";
    return elevation.colourEdges.some(spans) ? "colourEdge" : "open";
  })();
  const leastOverlap =
    kind === "break" ? Math.max(rules.trimOverlap, ...gaps.map(({ width }) => width)) : rules.overlap;
  return {
    lowest: first.from,
    highest: last.to,
    from,
    to,
    needed: stretches.reduce((sum, stretch) => sum + stretch.to - stretch.from, 0),
    slopedEnds: stretches.filter((s) => !isWhole(s.from)).length + stretches.filter((s) => !isWhole(s.to)).length,
    kind,
    leastOverlap,
    half: Math.ceil(leastOverlap / 2),
  };
}

export const roundedDown = (place: number): Ticks => (isWhole(place) ? Math.round(place) : Math.floor(place));
export const roundedUp = (place: number): Ticks => (isWhole(place) ? Math.round(place) : Math.ceil(place));
