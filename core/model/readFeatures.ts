import type { ElevationEntry } from "../../shared/jobFile.ts";
import type { Point } from "../geometry/box.ts";
import type { Ticks } from "../units/ticks.ts";
import { checkIds } from "./checkIds.ts";
import type { Break, ColourEdge, KeepClear, Obstacle } from "./instance.ts";
import type { LengthReader } from "./lengthReader.ts";
import type { Place } from "./problemLog.ts";

/** What an elevation says of places for seams and of things in their way. */
export interface Features {
  readonly keepClear: readonly KeepClear[];
  readonly breaks: readonly Break[];
  readonly colourEdges: readonly ColourEdge[];
  readonly obstacles: readonly Obstacle[];
}

/** The lists that a mirror may have of its own. */
export function readFeatures(
  read: LengthReader,
  entry: ElevationEntry,
  place: Place,
  clearances: ReadonlyMap<string, Ticks>,
): Features {
  for (const key of ["keepClear", "breaks", "colourEdges", "obstacles"] as const) {
    checkIds(
      read,
      [...place, key],
      (entry[key] ?? []).map(({ id }) => id),
    );
  }
  return {
    keepClear: (entry.keepClear ?? []).flatMap(({ id, label, box, rule, reason }, index) => {
      const read_ = read.box([...place, "keepClear", index, "box"], box);
      return read_ === null ? [] : [{ id, label: label || id, box: read_, rule, reason }];
    }),
    breaks: (entry.breaks ?? []).map((item, index) => {
      const here = [...place, "breaks", index];
      const { id, type, mustSplit } = item;
      return { id, ...readLine(read, here, item), type, width: read.length([...here, "width"], item.width), mustSplit };
    }),
    colourEdges: (entry.colourEdges ?? []).map((item, index) => {
      const here = [...place, "colourEdges", index];
      const line = readLine(read, here, item);
      return { id: item.id, ...line, path: readPath(read, [...here, "path"], item.path ?? null, line) };
    }),
    obstacles: (entry.obstacles ?? []).flatMap(({ id, kind, box, rule, clearance }, index) => {
      const here = [...place, "obstacles", index];
      const grown = clearance == null ? (clearances.get(kind) ?? 0) : read.length([...here, "clearance"], clearance);
      const read_ = read.box([...here, "box"], box, grown > 0);
      return read_ === null ? [] : [{ id, kind, box: read_, rule, clearance: grown }];
    }),
  };
}

type Line = Pick<ColourEdge, "axis" | "at" | "from" | "to">;

function readLine(read: LengthReader, place: Place, item: Line): Line {
  const at = read.length([...place, "at"], item.at);
  const [from, to] = [read.length([...place, "from"], item.from), read.length([...place, "to"], item.to)];
  if (from > to)
    read.log.problem(
      [...place, "from"],
      item.from,
      `The line runs backwards: from ${read.say(from)} is beyond to ${read.say(to)}.`,
      "Change from and to about.",
    );
  else if (from === to)
    read.log.warning(
      [...place, "from"],
      item.from,
      "The line has no length, so no seam can use it.",
      "Give from and to the ends of the line.",
    );
  return { axis: item.axis, at, from, to };
}

/**
 * The path of a sloped or stepped colour edge, by ascending place along its line: it covers the line from end to end and
 * never turns back, and `at` lies within its breadth.
 */
function readPath(
  read: LengthReader,
  place: Place,
  value: readonly (readonly [number, number])[] | null,
  { axis, at, from, to }: Line,
): readonly Point[] | null {
  if (value === null) return null;
  const points = value.map(([x, y], i) => ({
    x: read.length([...place, i, 0], x),
    y: read.length([...place, i, 1], y),
  }));
  const along = ({ x, y }: Point): Ticks => (axis === "x" ? y : x);
  const across = ({ x, y }: Point): Ticks => (axis === "x" ? x : y);
  const [first, last] = [points[0] as Point, points.at(-1) as Point];
  const path = along(first) <= along(last) ? points : points.toReversed();
  const turn = path.findIndex((point, i) => i > 0 && along(point) < along(path[i - 1] as Point));
  if (turn > 0) {
    read.log.problem(
      place,
      value,
      `The colour edge turns back on itself at ${read.say(along(path[turn] as Point))}.`,
      "Give its corners so that it always goes on along the line, or make two edges of it.",
    );
    return null;
  }
  if (along(path[0] as Point) > from || along(path.at(-1) as Point) < to) {
    read.log.problem(
      place,
      value,
      `The path does not reach from ${read.say(from)} to ${read.say(to)}, which the colour edge is said to run over.`,
      "Let it begin and end where from and to say, or change these.",
    );
    return null;
  }
  const places = path.map(across);
  if (at < Math.min(...places) || at > Math.max(...places)) {
    read.log.problem(
      place,
      value,
      `The colour edge's place, ${read.say(at)}, lies beside its path.`,
      "Give at a place between the path's least and greatest, best the middle.",
    );
    return null;
  }
  return path;
}
