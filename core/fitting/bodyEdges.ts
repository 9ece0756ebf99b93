import type { Axis, Box, Interval } from "../geometry/box.ts";
import { neededRegion, type Region } from "../geometry/region.ts";
import type { FromEdges } from "../model/datumRow.ts";
import type { Elevation } from "../model/instance.ts";
import type { Ticks, Unit } from "../units/ticks.ts";
import { otherAxis, rangeOn } from "./ranges.ts";
import { toTape } from "./tape.ts";

/** The outline of an elevation alone: edges of the body, with no regard to windows and wheel arches inside it. */
export const bodyOf = ({ outline }: Elevation): Region => neededRegion(outline, []);

/** What is measured: a box, and the height and place at which the tape is laid. */
export interface TapeLines {
  readonly box: Box;
  /** Left and right are measured along this height, which may lie between two ticks; null leaves them out. */
  readonly atHeight: number | null;
  /** Bottom and top along this place, likewise. */
  readonly atPlace: number | null;
}

/**
 * Distances of a box from the edges of the body.
 *
 * Each is measured along one line, level or upright, to the end of the body that is met first; from a box that sticks out
 * of the body there, to the body's outermost edge on that line, and then it is negative. A sloped edge is met where the
 * line crosses it.
 */
export function fromEdges(body: Region, { box: frame }: Elevation, lines: TapeLines, unit: Unit): FromEdges {
  const { box, atHeight, atPlace } = lines;
  const x = atHeight === null ? null : edgesRound(body, "x", frame, rangeOn("x", box), atHeight);
  const y = atPlace === null ? null : edgesRound(body, "y", frame, rangeOn("y", box), atPlace);
  const read = (distance: Ticks | null): Ticks | null => (distance === null ? null : toTape(distance, unit));
  return {
    left: read(x && box.x0 - x.from),
    right: read(x && x.to - box.x1),
    bottom: read(y && box.y0 - y.from),
    top: read(y && y.to - box.y1),
  };
}

/** The edges of the body on both sides of a range, on the line across the other axis at `at`; null off the body. */
function edgesRound(body: Region, axis: Axis, frame: Box, range: Interval, at: number): Interval | null {
  const stretches = body.line(otherAxis(axis), at, rangeOn(axis, frame));
  const [first, last] = [stretches[0], stretches.at(-1)];
  if (first === undefined || last === undefined) return null;
  const holding = (place: Ticks): Interval | undefined =>
    stretches.find(({ from, to }) => from <= place && place <= to);
  return { from: (holding(range.from) ?? first).from, to: (holding(range.to) ?? last).to };
}
