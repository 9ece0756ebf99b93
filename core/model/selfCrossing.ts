import type { Point, Polygon } from "../geometry/box.ts";

/**
 * Finds a place where a closed outline crosses itself or runs back over itself. Merely touching itself at a point is no
 * crossing: inside and outside stay plain.
 *
 * @param outline n ≥ 3 points in ticks, no two neighbours alike, the last not the first again
 * @returns a point at or beside the first crossing found, or null
 *
 * Edges are gone through from left to right, each against those that still reach it; boxes are compared first, turns are
 * decided exactly. Time O(n log n + pairs of edges that overlap in x), memory O(n).
 */
export function selfCrossing(outline: Polygon): Point | null {
  const n = outline.length;
  const at = (i: number): Point => outline[((i % n) + n) % n] as Point;
  const order = Array.from(outline, (_, i) => i).sort((i, j) => left(at(i), at(i + 1)) - left(at(j), at(j + 1)));
  let open: number[] = [];
  for (const i of order) {
    const [a, b] = [at(i), at(i + 1)];
    const [x0, y0, y1] = [left(a, b), Math.min(a.y, b.y), Math.max(a.y, b.y)];
    const still: number[] = [];
    for (const j of open) {
      const [c, d] = [at(j), at(j + 1)];
      if (Math.max(c.x, d.x) < x0) continue;
      still.push(j);
      if (Math.max(c.y, d.y) < y0 || Math.min(c.y, d.y) > y1) continue;
      const place = crossing(at, i, j);
      if (place) return place;
    }
    still.push(i);
    open = still;
  }
  return null;
}

const left = (a: Point, b: Point): number => Math.min(a.x, b.x);

/** Whether edges i and j cross, overlap, or meet at a corner where one path changes sides of the other. */
function crossing(at: (i: number) => Point, i: number, j: number): Point | null {
  const [a, b, c, d] = [at(i), at(i + 1), at(j), at(j + 1)];
  const [abc, abd] = [turn(a, b, c), turn(a, b, d)];
  const [cda, cdb] = [turn(c, d, a), turn(c, d, b)];
  if (abc === 0 && abd === 0) return overlapOnLine(a, b, c, d);
  if (abc * abd > 0 || cda * cdb > 0) return null;
  if (abc * abd < 0 && cda * cdb < 0) return a.x + b.x < c.x + d.x ? b : a;
  // They touch. Each meeting point is looked at once, from the edge that ends there.
  if (cdb === 0) return changesSides(at, i + 1, j) ? b : null;
  if (abd === 0) return changesSides(at, j + 1, i) ? d : null;
  return null;
}

/** Edges on one line overlap when they share more than a point. */
function overlapOnLine(a: Point, b: Point, c: Point, d: Point): Point | null {
  const key: "x" | "y" = a.x === b.x ? "y" : "x";
  const from = Math.max(Math.min(a[key], b[key]), Math.min(c[key], d[key]));
  const to = Math.min(Math.max(a[key], b[key]), Math.max(c[key], d[key]));
  if (from >= to) return null;
  return [a, b, c, d].find((point) => point[key] === from) ?? a;
}

/** Whether the path through corner `i`, which lies on edge `j`, passes from one side of that path to the other. */
function changesSides(at: (i: number) => Point, i: number, j: number): boolean {
  const [before, corner, after] = [at(i - 1), at(i), at(i + 1)];
  const same = (p: Point, q: Point) => p.x === q.x && p.y === q.y;
  let [from, to] = [at(j), at(j + 1)];
  if (same(corner, from)) from = at(j - 1);
  else if (same(corner, to)) to = at(j + 2);
  if (same(corner, at(j)) || same(corner, at(j + 1))) {
    const isNeighbour = same(before, from) || same(before, to) || same(after, from) || same(after, to);
    if (isNeighbour) return false; // the very corner the two edges share, or an overlap that is found as such
  }
  return within(from, corner, to, before) !== within(from, corner, to, after);
}

/** Whether the ray from `corner` to `point` lies in the angle swept counter-clockwise from `from` to `to`. */
function within(from: Point, corner: Point, to: Point, point: Point): boolean {
  const [inFrom, inTo] = [turn(corner, from, point) > 0, turn(corner, point, to) > 0];
  return turn(corner, from, to) > 0 ? inFrom && inTo : inFrom || inTo;
}

/**
 * Sign of the turn a → b → c: 1 to the left, -1 to the right, 0 straight on. Exact: where a double could be wrong the
 * product is worked out in whole numbers. The bound is that of two rounded products and one rounded difference.
 */
export function turn(a: Point, b: Point, c: Point): -1 | 0 | 1 {
  const first = (b.x - a.x) * (c.y - a.y);
  const second = (b.y - a.y) * (c.x - a.x);
  const value = first - second;
  if (Math.abs(value) > 4 * Number.EPSILON * (Math.abs(first) + Math.abs(second))) return value > 0 ? 1 : -1;
  const exact = BigInt(b.x - a.x) * BigInt(c.y - a.y) - BigInt(b.y - a.y) * BigInt(c.x - a.x);
  return exact > 0n ? 1 : exact < 0n ? -1 : 0;
}
