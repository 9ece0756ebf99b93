import type { Axis, Interval } from "../geometry/box.ts";
import type { Elevation, Instance, SeamMap } from "../model/instance.ts";
import type { Ticks } from "../units/ticks.ts";
import type { LineFacts } from "./lines.ts";
import { SLOPE_TICKS } from "./tolerance.ts";

/** A seam's length as it counts, and how far it may be off by rounding. */
export interface Weighed {
  readonly length: number;
  readonly allowance: number;
}

/** Whether seams count unequally anywhere in the job: by height or by what the artwork shows. */
export const seamsAreWeighed = ({ elevations, rules }: Instance): boolean =>
  rules.heightZones.length > 0 || elevations.some(({ seamMap }) => seamMap !== null);

/**
 * What the needed stretches of one line count on one copy: each bit of them by its height over the ground and by the value
 * of the artwork's map there, the sum rounded to the nearest tick.
 *
 * Every bit between two neighbouring places where a zone or a cell of the map ends is weighed at its middle.
 */
export function weigh({ rules }: Instance, elevation: Elevation, axis: Axis, at: Ticks, facts: LineFacts): Weighed {
  const { seamMap, ground } = elevation;
  const weightAt = (along: number): number => {
    const height = (axis === "x" ? along : at) - ground;
    const zone = rules.heightZones.find(({ from, to }) => from <= height && height < to);
    const value = seamMap === null ? 0 : valueAt(seamMap, axis, at, along);
    return (zone?.weight ?? 1) * (1 + (rules.artworkWeight * value) / 255);
  };
  const zoneEnds = axis === "x" ? rules.heightZones.flatMap(({ from, to }) => [from + ground, to + ground]) : [];
  let [sum, heaviest] = [0, 0];
  for (const { from, to } of facts.stretches) {
    const ends = [from, to, ...zoneEnds, ...cellEnds(seamMap, axis, { from, to })]
      .filter((place) => place >= from && place <= to)
      .sort((a, b) => a - b);
    for (let i = 0; i + 1 < ends.length; i++) {
      const [a, b] = [ends[i] as number, ends[i + 1] as number];
      if (a >= b) continue;
      const weight = weightAt((a + b) / 2);
      heaviest = Math.max(heaviest, weight);
      sum += weight * (b - a);
    }
  }
  // A sum that lies between two ticks may be rounded to either; off by anything at a sloped end, it may always.
  const between = facts.slopedEnds > 0 || Math.abs(sum - Math.floor(sum) - 0.5) < 1e-3 ? 1 : 0;
  return { length: Math.round(sum), allowance: between + SLOPE_TICKS * heaviest * facts.slopedEnds };
}

/** The map's value for a seam on this axis at this place of its line; 0 outside the map. */
function valueAt({ x0, y0, cell, columns, rows, upright, level }: SeamMap, axis: Axis, at: number, along: number) {
  const [x, y] = axis === "x" ? [at, along] : [along, at];
  const [column, row] = [Math.floor((x - x0) / cell), Math.floor((y - y0) / cell)];
  if (column < 0 || column >= columns || row < 0 || row >= rows) return 0;
  return (axis === "x" ? upright : level)[row * columns + column] ?? 0;
}

/** Places along the line inside a stretch at which one cell of the map ends and the next begins. */
function cellEnds(map: SeamMap | null, axis: Axis, { from, to }: Interval): number[] {
  if (map === null) return [];
  const [start, count] = axis === "x" ? [map.y0, map.rows] : [map.x0, map.columns];
  const first = Math.max(0, Math.ceil((from - start) / map.cell));
  const last = Math.min(count, Math.floor((to - start) / map.cell));
  return Array.from({ length: Math.max(0, last - first + 1) }, (_, i) => start + (first + i) * map.cell);
}
