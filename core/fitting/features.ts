import type { Axis, Box } from "../geometry/box.ts";
import type { Break, ColourEdge, Elevation, Hold, ZoneRule } from "../model/instance.ts";
import type { Seam } from "../model/plan.ts";
import type { Ticks } from "../units/ticks.ts";

/** What spans a seam: on its line, from no later than it begins to no earlier than it ends. */
const spans = ({ axis, at, from, to }: Break | ColourEdge, seam: Seam): boolean =>
  axis === seam.axis && at === seam.at && from <= seam.from && to >= seam.to;

export const breakWords: Readonly<Record<Break["type"], string>> = {
  gap: "gap",
  moulding: "moulding",
  bodyLine: "body line",
};

/** The breaks that make a seam what it is: gaps and mouldings, or body lines; none for other seams. */
export const breaksOf = ({ breaks }: Elevation, seam: Seam): Break[] =>
  seam.kind !== "break" && seam.kind !== "bodyLine"
    ? []
    : breaks.filter((line) => (line.type === "bodyLine") === (seam.kind === "bodyLine") && spans(line, seam));

/** The first listed of these; null where there is none. */
export const breakOf = (elevation: Elevation, seam: Seam): Break | null => breaksOf(elevation, seam)[0] ?? null;

/** The colour edge that hides a seam; of several a straight one first. */
export function colourEdgeOf({ colourEdges }: Elevation, seam: Seam): ColourEdge | null {
  if (seam.kind !== "colourEdge") return null;
  const there = colourEdges.filter((edge) => spans(edge, seam));
  return there.find(({ path }) => path === null) ?? there[0] ?? null;
}

/** Whether a break on a seam's line asks for a seam there. */
export const isDemanded = ({ breaks }: Elevation, seam: Seam): boolean =>
  breaks.some((line) => line.mustSplit && spans(line, seam));

/** The hold that settles a seam's place. */
export const seamHold = ({ holds }: Elevation, { axis, at, section }: Seam): Hold | null =>
  holds.find(
    (hold) =>
      hold.kind === "seam" &&
      hold.axis === axis &&
      hold.at === at &&
      (hold.section === null || (section !== null && hold.section === section)),
  ) ?? null;

/** Lettering, logo or obstacle, obstacles grown by their clearance. */
export interface NamedZone {
  readonly words: string;
  readonly box: Box;
  readonly rule: ZoneRule;
}

/** Zones in the job's order, obstacles last. */
export function zonesOf({ keepClear, obstacles }: Elevation): NamedZone[] {
  return [
    ...keepClear.map(({ label, reason, box, rule }) => ({
      words: reason === "other" ? `'${label}'` : `${reason} '${label}'`,
      box,
      rule,
    })),
    ...obstacles.map(({ id, kind, box, rule, clearance: by }) => ({
      words: kind === "other" ? `'${id}'` : `${kind} '${id}'`,
      box: { x0: box.x0 - by, y0: box.y0 - by, x1: box.x1 + by, y1: box.y1 + by },
      rule,
    })),
  ];
}

/** Places of an axis that carry a line which would hide a seam over this run, ascending. */
export function hidingPlaces({ breaks, colourEdges }: Elevation, axis: Axis, from: Ticks, to: Ticks): Ticks[] {
  return [...breaks, ...colourEdges]
    .filter((line) => line.axis === axis && line.from <= from && line.to >= to)
    .map(({ at }) => at)
    .sort((a, b) => a - b);
}
