import type { Axis, Box, Interval } from "../geometry/box.ts";

/** The box's range on an axis. */
export const rangeOn = (axis: Axis, { x0, y0, x1, y1 }: Box): Interval =>
  axis === "x" ? { from: x0, to: x1 } : { from: y0, to: y1 };

export const otherAxis = (axis: Axis): Axis => (axis === "x" ? "y" : "x");

/** The box with this range on `axis` and that on the other. */
export const boxFrom = (axis: Axis, along: Interval, other: Interval): Box =>
  axis === "x"
    ? { x0: along.from, x1: along.to, y0: other.from, y1: other.to }
    : { y0: along.from, y1: along.to, x0: other.from, x1: other.to };

/** What two ranges share; from > to when they share nothing. */
export const shared = (a: Interval, b: Interval): Interval => ({
  from: Math.max(a.from, b.from),
  to: Math.min(a.to, b.to),
});

export const sharedBox = (a: Box, b: Box): Box => ({
  x0: Math.max(a.x0, b.x0),
  y0: Math.max(a.y0, b.y0),
  x1: Math.min(a.x1, b.x1),
  y1: Math.min(a.y1, b.y1),
});

export const lengthOf = ({ from, to }: Interval): number => to - from;

/** True where the insides of two boxes have a point in common, the error of a division set aside. */
export const insidesMeet = (a: Box, b: Box): boolean =>
  lengthOf(shared(rangeOn("x", a), rangeOn("x", b))) > 1e-4 &&
  lengthOf(shared(rangeOn("y", a), rangeOn("y", b))) > 1e-4;
