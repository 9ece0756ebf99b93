import type { Axis, Box, Interval } from "../geometry/box.ts";
import type { Direction } from "../model/instance.ts";

export const otherAxis = (axis: Axis): Axis => (axis === "x" ? "y" : "x");

/** The axis on which panels of this direction lie side by side. */
export const splitAxisOf = (direction: Direction): Axis => (direction === "vertical" ? "x" : "y");

/** A box's range on an axis. */
export const rangeOn = (axis: Axis, { x0, y0, x1, y1 }: Box): Interval =>
  axis === "x" ? { from: x0, to: x1 } : { from: y0, to: y1 };

/** The box of a range on an axis and one on the other. */
export const boxOf = (axis: Axis, on: Interval, other: Interval): Box =>
  axis === "x"
    ? { x0: on.from, x1: on.to, y0: other.from, y1: other.to }
    : { x0: other.from, x1: other.to, y0: on.from, y1: on.to };

/** What two ranges share; `from` beyond `to` where they share nothing. */
export const shared = (a: Interval, b: Interval): Interval => ({
  from: Math.max(a.from, b.from),
  to: Math.min(a.to, b.to),
});

export const lengthOf = ({ from, to }: Interval): number => to - from;
