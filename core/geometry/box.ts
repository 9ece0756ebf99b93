import type { Ticks } from "../units/ticks.ts";

/** A point of an elevation or a roll, in ticks. */
export interface Point {
  readonly x: Ticks;
  readonly y: Ticks;
}

/** A closed polygon without its first point repeated, either way round. */
export type Polygon = readonly Point[];

/** An axis-parallel rectangle, x0 ≤ x1 and y0 ≤ y1. */
export interface Box {
  readonly x0: Ticks;
  readonly y0: Ticks;
  readonly x1: Ticks;
  readonly y1: Ticks;
}

/** A closed stretch of one axis, from ≤ to. */
export interface Interval {
  readonly from: Ticks;
  readonly to: Ticks;
}

export type Axis = "x" | "y";

export type Side = "left" | "right" | "bottom" | "top";

/** The smallest box round a polygon of at least one point. */
export function boundingBox(points: Polygon): Box {
  let [x0, y0, x1, y1] = [Infinity, Infinity, -Infinity, -Infinity];
  for (const { x, y } of points) {
    x0 = Math.min(x0, x);
    y0 = Math.min(y0, y);
    x1 = Math.max(x1, x);
    y1 = Math.max(y1, y);
  }
  return { x0, y0, x1, y1 };
}

/** The reflection of x in the middle of [x0, x1]. */
export const mirrorX = (x: Ticks, { x0, x1 }: Box): Ticks => x0 + x1 - x;

/** The box reflected left to right within `frame`. */
export const mirrorBox = (box: Box, frame: Box): Box => ({
  x0: mirrorX(box.x1, frame),
  y0: box.y0,
  x1: mirrorX(box.x0, frame),
  y1: box.y1,
});
