import { type Axis, type Box, mirrorBox, type Side } from "../geometry/box.ts";
import type { DatumRow, FromEdges, NearestBreak } from "../model/datumRow.ts";
import type { Elevation, Instance, KeepClear } from "../model/instance.ts";
import type { Layout, Seam } from "../model/plan.ts";
import type { Ticks, Unit } from "../units/ticks.ts";
import { bodyOf, fromEdges, type TapeLines } from "./bodyEdges.ts";
import { boxOf, lengthOf, otherAxis, rangeOn, shared } from "./ranges.ts";
import { toTape } from "./tape.ts";

/**
 * Where lettering, logos and seams lie on the body, as a fitter measures them: from the nearest edges of the body and from
 * the nearest gap, moulding or body line, with the same measures of the body's other side beside them.
 *
 * @param layout its seams are measured; panels and rolls play no part
 * @returns elevations in the job's order; of each first the keep-clear zones of lettering and logos in the job's order,
 *   then the seams in the layout's. Lengths to the nearest 1/16 in or 1 mm, halves up.
 *
 * Left and right are measured along the level through the middle of the lettering or of the seam's run, bottom and top
 * along the upright through it, so that two sides made alike give the same figures. The other side is the elevation that
 * mirrors this one or that it mirrors, else the first of the same subject that travels the opposite way. Zones pair by id,
 * else by label; seams of one axis pair where each lies nearest to the other. Time O(seams squared) for two sides.
 */
export function datumSheet(instance: Instance, layout: Layout): DatumRow[] {
  const { unit, elevations } = instance;
  const measured = new Map(elevations.map((elevation) => [elevation.id, measure(elevation, layout, unit)] as const));
  return elevations.flatMap((elevation) => {
    const own = measured.get(elevation.id) ?? [];
    const across = otherSideOf(elevation, elevations);
    const there = across === null ? [] : (measured.get(across.id) ?? []);
    return own.map((item): DatumRow => {
      const match = across === null ? null : matchOf(item, elevation, own, across, there);
      return { ...item.row, otherSide: match === null ? null : sideBySide(item.row, match.row) };
    });
  });
}

/** A row before it is held against the other side, and the box that it measures. */
interface Measured {
  readonly row: DatumRow;
  readonly box: Box;
}

function measure(elevation: Elevation, { seams }: Layout, unit: Unit): Measured[] {
  const body = bodyOf(elevation);
  const rowOf = (
    item: Pick<DatumRow, "kind" | "id" | "label" | "axis">,
    lines: TapeLines,
    nearestBreak: NearestBreak | null,
  ): Measured => ({
    box: lines.box,
    row: {
      elevation: elevation.id,
      ...item,
      fromEdges: fromEdges(body, elevation, lines, unit),
      atHeight: lines.atHeight === null ? null : toTape(lines.atHeight, unit),
      atPlace: lines.atPlace === null ? null : toTape(lines.atPlace, unit),
      nearestBreak,
      otherSide: null,
    },
  });
  const marked = elevation.keepClear.flatMap((zone): Measured[] => {
    const kind = markedAs(zone);
    if (kind === null) return [];
    const { id, label, box } = zone;
    const lines = { box, atHeight: middle(box, "y"), atPlace: middle(box, "x") };
    return [rowOf({ kind, id, label, axis: null }, lines, nearestBreak(elevation, box, ["x", "y"], unit))];
  });
  const lines = seams
    .filter((seam) => seam.elevation === elevation.id)
    .map((seam): Measured => {
      const { axis, at, from, to, id } = seam;
      const box = boxOf(axis, { from: at, to: at }, { from, to });
      const along = middle(box, otherAxis(axis));
      const tape = axis === "x" ? { box, atHeight: along, atPlace: null } : { box, atHeight: null, atPlace: along };
      const nearest = nearestBreak(elevation, box, [axis], unit);
      return rowOf({ kind: "seam", id, label: seamLabel(seam), axis }, tape, nearest);
    });
  return [...marked, ...lines];
}

const markedAs = ({ reason }: KeepClear): "lettering" | "logo" | null =>
  reason === "lettering" || reason === "logo" ? reason : null;

/** Not rounded, so that it is the same place on both of two sides. */
const middle = (box: Box, axis: Axis): number => {
  const { from, to } = rangeOn(axis, box);
  return (from + to) / 2;
};

/** "seam 2 of section 'flank'", "border of section 'flank' and section 'band'", "border of bottom fill and section 'whole'". */
function seamLabel({ id, section, between }: Seam): string {
  const named = (name: string): string =>
    name.startsWith("fill-") ? `${name.slice("fill-".length)} fill` : `section '${name}'`;
  if (section === null) return `border of ${named(between[0])} and ${named(between[1])}`;
  return `seam ${id.slice(id.lastIndexOf(":") + 1)} of ${named(section)}`;
}

/** The break on one of these axes that lies nearest to a box and runs beside it; of equals the first listed. */
function nearestBreak({ breaks }: Elevation, box: Box, axes: readonly Axis[], unit: Unit): NearestBreak | null {
  let nearest: NearestBreak | null = null;
  let least = Infinity;
  for (const { id, type, axis, at, from, to } of breaks) {
    if (!axes.includes(axis) || lengthOf(shared({ from, to }, rangeOn(otherAxis(axis), box))) <= 0) continue;
    const own = rangeOn(axis, box);
    const [lowSide, highSide]: readonly [Side, Side] = axis === "x" ? ["left", "right"] : ["bottom", "top"];
    const isThrough = own.from === own.to ? at === own.from : own.from < at && at < own.to;
    const side = isThrough ? "through" : at <= own.from ? lowSide : highSide;
    const apart = isThrough ? 0 : side === lowSide ? own.from - at : at - own.to;
    if (apart >= least) continue;
    least = apart;
    nearest = { id, type, axis, side, distance: toTape(isThrough ? at - own.from : apart, unit) };
  }
  return nearest;
}

/** The elevation that shows the other side of the same body, seen from there. */
function otherSideOf(elevation: Elevation, elevations: readonly Elevation[]): Elevation | null {
  const { id, mirrorOf, subject, travel } = elevation;
  const mirror = elevations.find((other) => other.id === mirrorOf) ?? elevations.find((other) => other.mirrorOf === id);
  if (mirror !== undefined) return mirror;
  const opposite = travel === "left" ? "right" : travel === "right" ? "left" : null;
  if (subject === null || opposite === null) return null;
  return elevations.find((other) => other.id !== id && other.subject === subject && other.travel === opposite) ?? null;
}

/** The same lettering or seam on the other side; null where there is none. */
function matchOf(
  item: Measured,
  elevation: Elevation,
  own: readonly Measured[],
  across: Elevation,
  there: readonly Measured[],
): Measured | null {
  const { kind, id, label, axis } = item.row;
  if (kind !== "seam") {
    const marked = there.filter(({ row }) => row.kind === kind);
    return marked.find(({ row }) => row.id === id) ?? marked.find(({ row }) => row.label === label) ?? null;
  }
  const alike = (list: readonly Measured[]) => list.filter(({ row }) => row.kind === "seam" && row.axis === axis);
  const apart = (a: Measured, b: Measured): Ticks => distance(a, elevation, b, across);
  const best = closest(alike(there), (other) => apart(item, other));
  if (best === null) return null;
  return closest(alike(own), (candidate) => apart(candidate, best)) === item ? best : null;
}

function closest(items: readonly Measured[], distanceOf: (item: Measured) => Ticks): Measured | null {
  let [best, least]: [Measured | null, Ticks] = [null, Infinity];
  for (const item of items) {
    const here = distanceOf(item);
    if (here < least) [best, least] = [item, here];
  }
  return best;
}

/** How far the middles of two seams lie apart, the one seen reflected; from the front edges and over the ground. */
function distance(a: Measured, on: Elevation, b: Measured, across: Elevation): Ticks {
  const turned = mirrorBox(b.box, across.box);
  const x = middle(a.box, "x") - on.box.x0 - (middle(turned, "x") - across.box.x0);
  const y = middle(a.box, "y") - on.ground - (middle(turned, "y") - across.ground);
  return Math.abs(x) + Math.abs(y);
}

function sideBySide(row: DatumRow, match: DatumRow): NonNullable<DatumRow["otherSide"]> {
  const { left, right, bottom, top } = match.fromEdges;
  const turned: FromEdges = { left: right, right: left, bottom, top };
  const sides: readonly Side[] = ["left", "right", "bottom", "top"];
  const differences = sides.map((side) => Math.abs((row.fromEdges[side] ?? 0) - (turned[side] ?? 0)));
  return { elevation: match.elevation, id: match.id, fromEdges: turned, difference: Math.max(...differences) };
}
