import type { Axis, Box, Side } from "../geometry/box.ts";
import type { Direction } from "../model/instance.ts";
import type { Ticks } from "../units/ticks.ts";

/**
 * A box seen by one split: u runs across the panels (the axis on which the section is split), v along them. Everything
 * about splitting is written once in u and v; vertical panels have u = x, horizontal ones u = y.
 */
export interface Span {
  readonly u0: Ticks;
  readonly u1: Ticks;
  readonly v0: Ticks;
  readonly v1: Ticks;
}

/** The axis on which panels of this direction are split: vertical panels stand side by side in x. */
export const splitAxis = (direction: Direction): Axis => (direction === "vertical" ? "x" : "y");

export const directionOf = (axis: Axis): Direction => (axis === "x" ? "vertical" : "horizontal");

export const toSpan = ({ x0, y0, x1, y1 }: Box, axis: Axis): Span =>
  axis === "x" ? { u0: x0, u1: x1, v0: y0, v1: y1 } : { u0: y0, u1: y1, v0: x0, v1: x1 };

export const toBox = ({ u0, u1, v0, v1 }: Span, axis: Axis): Box =>
  axis === "x" ? { x0: u0, x1: u1, y0: v0, y1: v1 } : { x0: v0, x1: v1, y0: u0, y1: u1 };

/** The sides at which u and v begin and end. */
export const sidesOf = (axis: Axis): { readonly u: readonly [Side, Side]; readonly v: readonly [Side, Side] } =>
  axis === "x" ? { u: ["left", "right"], v: ["bottom", "top"] } : { u: ["bottom", "top"], v: ["left", "right"] };
