import { boundingBox, type Point, type Polygon } from "../geometry/box.ts";
import { polygonArea } from "../geometry/polygonArea.ts";
import type { LengthReader } from "./lengthReader.ts";
import type { Place } from "./problemLog.ts";
import { selfCrossing, turn } from "./selfCrossing.ts";

/**
 * Reads an outline into ticks and says what is wrong with it: fewer than three different points, no area, crossing
 * itself. Points repeated one after another, and the first repeated at the end, are left out.
 *
 * @param points [x, y] in the job's unit
 * @param what the thing outlined, as it begins a sentence: "The outline", "The opening"
 * @returns the polygon, or null once a problem is reported
 */
export function readOutline(
  read: LengthReader,
  place: Place,
  points: readonly (readonly [number, number])[],
  what: string,
): Polygon | null {
  const problemsBefore = read.log.problems.length;
  const outline: Point[] = [];
  points.forEach(([x, y], index) => {
    const point = { x: read.length([...place, index], x), y: read.length([...place, index], y) };
    const last = outline.at(-1);
    if (last === undefined || last.x !== point.x || last.y !== point.y) outline.push(point);
  });
  while (outline.length > 1 && outline[0]?.x === outline.at(-1)?.x && outline[0]?.y === outline.at(-1)?.y)
    outline.pop();
  if (read.log.problems.length > problemsBefore) return null;
  const no = (why: string, mend: string): null => {
    read.log.problem(place, points, why, mend);
    return null;
  };
  if (outline.length < 3)
    return no(
      `${what} has fewer than three different points.`,
      "Give at least three corners that are not all in one place.",
    );
  if (isFlat(outline))
    return no(`${what} has no area: all its points lie on one line.`, "Give corners that enclose an area.");
  const crossing = selfCrossing(outline);
  if (crossing !== null) {
    return no(
      `${what} crosses itself near ${read.say(crossing.x)}, ${read.say(crossing.y)}.`,
      "Put its corners in order, going once round.",
    );
  }
  return outline;
}

function isFlat(outline: Polygon): boolean {
  const { x0, y0, x1, y1 } = boundingBox(outline);
  if (x0 === x1 || y0 === y1) return true;
  if (polygonArea(outline) > 1e-6 * (x1 - x0) * (y1 - y0)) return false;
  const [first, second] = [outline[0] as Point, outline[1] as Point];
  return outline.every((point) => turn(first, second, point) === 0);
}
