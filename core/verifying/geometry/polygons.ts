import type { Box, Point, Polygon } from "../../geometry/box.ts";
import { areaIn, regionOf } from "./region.ts";

/** Area inside a simple polygon, square ticks. */
export function polygonArea(polygon: Polygon): number {
  let twice = 0;
  const origin = polygon[0] ?? { x: 0, y: 0 };
  polygon.forEach((a, i) => {
    const b = polygon[(i + 1) % polygon.length] ?? a;
    twice += (a.x - origin.x) * (b.y - origin.y) - (b.x - origin.x) * (a.y - origin.y);
  });
  return Math.abs(twice) / 2;
}

/** The smallest box round a polygon; nothing at the origin for an empty one. */
export function boxOf(polygon: Polygon): Box {
  let [x0, y0, x1, y1] = [Infinity, Infinity, -Infinity, -Infinity];
  for (const { x, y } of polygon) {
    [x0, y0, x1, y1] = [Math.min(x0, x), Math.min(y0, y), Math.max(x1, x), Math.max(y1, y)];
  }
  return x0 <= x1 ? { x0, y0, x1, y1 } : { x0: 0, y0: 0, x1: 0, y1: 0 };
}

/** The polygon turned counter-clockwise by quarter turns, its low corner brought to `corner`. */
export function turnedTo(polygon: Polygon, turn: number, corner: Point): Point[] {
  const turned = polygon.map(({ x, y }) => {
    if (turn === 90) return { x: -y, y: x };
    if (turn === 180) return { x: -x, y: -y };
    if (turn === 270) return { x: y, y: -x };
    return { x, y };
  });
  const { x0, y0 } = boxOf(turned);
  return turned.map(({ x, y }) => ({ x: x - x0 + corner.x, y: y - y0 + corner.y }));
}

/** Four corners, each level or upright with the next. */
export function isRectangle(polygon: Polygon): boolean {
  const box = boxOf(polygon);
  const whole = (box.x1 - box.x0) * (box.y1 - box.y0);
  return (
    polygon.length === 4 &&
    polygon.every(({ x, y }) => (x === box.x0 || x === box.x1) && (y === box.y0 || y === box.y1)) &&
    Math.abs(polygonArea(polygon) - whole) <= 1e-9 * whole
  );
}

/** Area that two simple polygons share, square ticks. */
export function sharedArea(a: Polygon, b: Polygon): number {
  const box = boxOf(a);
  return areaIn(regionOf(a, []), box) - areaIn(regionOf(a, [b]), box);
}

/** Shortest distance between the edges of two polygons; 0 where they touch or cross. Every edge against every edge. */
export function edgeDistance(a: Polygon, b: Polygon): number {
  let least = Infinity;
  a.forEach((p, i) => {
    const q = a[(i + 1) % a.length] ?? p;
    b.forEach((r, k) => {
      least = Math.min(least, segmentDistance(p, q, r, b[(k + 1) % b.length] ?? r));
    });
  });
  return least;
}

function segmentDistance(p: Point, q: Point, r: Point, s: Point): number {
  if (sideOf(p, q, r) * sideOf(p, q, s) < 0 && sideOf(r, s, p) * sideOf(r, s, q) < 0) return 0;
  return Math.min(pointDistance(p, r, s), pointDistance(q, r, s), pointDistance(r, p, q), pointDistance(s, p, q));
}

const sideOf = (a: Point, b: Point, c: Point): number =>
  Math.sign((b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x));

function pointDistance(p: Point, a: Point, b: Point): number {
  const [dx, dy] = [b.x - a.x, b.y - a.y];
  const length = dx * dx + dy * dy;
  const share = length === 0 ? 0 : Math.min(1, Math.max(0, ((p.x - a.x) * dx + (p.y - a.y) * dy) / length));
  return Math.hypot(p.x - a.x - share * dx, p.y - a.y - share * dy);
}
