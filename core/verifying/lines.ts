import type { Axis, Interval } from "../geometry/box.ts";
import type { Elevation, Rules } from "../model/instance.ts";
import type { SeamKind } from "../model/plan.ts";
import type { Ticks } from "../units/ticks.ts";
import { breadthOf } from "./colourPaths.ts";
import { onLine, type Region } from "./geometry/region.ts";
import { isWhole } from "./tolerance.ts";

/** What a seam's line is, by the features of its elevation: no choice of the plan's. */
export interface LineFacts {
  /** Lowest and highest needed point as they are, and rounded outward to ticks. */
  readonly lowest: number;
  readonly highest: number;
  readonly from: Ticks;
  readonly to: Ticks;
  /** What is needed on the line, in order; its length, and how many of its ends are open to rounding. */
  readonly stretches: readonly Interval[];
  readonly needed: number;
  readonly slopedEnds: number;
  readonly kind: SeamKind;
  readonly leastOverlap: Ticks;
  /** How far each window reaches past the line at least. */
  readonly half: Ticks;
  /** Greatest width of the gaps and mouldings that span it; 0 without any. */
  readonly breakWidth: Ticks;
  /** Whether the films there meet edge to edge. */
  readonly butted: boolean;
}

/**
 * @param butted whether the films on both sides of the line meet edge to edge
 * @returns what a line is between lo and hi; null where no film is needed on it
 */
export function lineFacts(
  elevation: Elevation,
  rules: Rules,
  region: Region,
  axis: Axis,
  at: Ticks,
  { from: lo, to: hi }: Interval,
  butted: boolean,
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
  const edges = elevation.colourEdges.filter(spans);
  const kind = ((): SeamKind => {
    if (gaps.length > 0) return "break";
    if (breaks.some(({ type }) => type === "bodyLine")) return "bodyLine";
    return edges.length > 0 ? "colourEdge" : "open";
  })();
  const breakWidth = Math.max(0, ...gaps.map(({ width }) => width));
  const leastOverlap = ((): Ticks => {
    if (kind === "break") return Math.max(rules.trimOverlap, breakWidth);
    if (kind !== "colourEdge") return butted ? 0 : rules.overlap;
    // What the band must hold of each edge; of several at the same place the one that asks least may be trimmed along.
    const breadths = edges.map((edge) => 2 * breadthOf(edge, first.from, last.to));
    const least = Math.min(...breadths);
    return butted ? least : Math.max(rules.overlap, least + rules.colourEdgeOverlap);
  })();
  return {
    lowest: first.from,
    highest: last.to,
    from,
    to,
    stretches,
    needed: stretches.reduce((sum, stretch) => sum + stretch.to - stretch.from, 0),
    slopedEnds: stretches.filter((s) => !isWhole(s.from)).length + stretches.filter((s) => !isWhole(s.to)).length,
    kind,
    leastOverlap,
    half: Math.ceil(leastOverlap / 2),
    breakWidth,
    butted,
  };
}

export const roundedDown = (place: number): Ticks => (isWhole(place) ? Math.round(place) : Math.floor(place));
export const roundedUp = (place: number): Ticks => (isWhole(place) ? Math.round(place) : Math.ceil(place));

/** What two films that share a seam still share of it at least, however one of them is shifted. */
export const leastKept = (butted: boolean, rules: Rules): Ticks => (butted ? 0 : rules.colourEdgeOverlap);
