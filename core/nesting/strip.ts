import type { Random } from "../model/run.ts";
import type { Ticks } from "../units/ticks.ts";
import type { Shape, Size } from "./sizes.ts";

/** Pieces to be laid in one strip so that it gets short: an open dimension problem. Whole numbers throughout. */
export interface Strip {
  /** Across the strip; every piece has a shape no wider. */
  readonly width: Ticks;
  readonly sizes: readonly StripSize[];
}

/** Pieces that are alike, with the ways in which they may lie. */
export type StripSize = Pick<Size, "shapes" | "count">;

/** A piece in the strip; x and y of its corner nearest the origin. */
export interface StripPlace {
  /** Index of its size. */
  readonly size: number;
  readonly shape: Shape;
  readonly x: Ticks;
  readonly y: Ticks;
}

export interface StripNesting {
  /** From the start of the strip to the end of the piece that reaches farthest. */
  readonly length: Ticks;
  /** No nesting of these pieces is shorter; equal to `length` when that is proven least. */
  readonly bound: Ticks;
  /** Every piece once, from the start of the strip. */
  readonly places: readonly StripPlace[];
}

/** Chance and end of a search in a strip. */
export interface StripEffort {
  readonly random: Random;
  /** Asked before each filling but the first. */
  readonly stop: () => boolean;
}
