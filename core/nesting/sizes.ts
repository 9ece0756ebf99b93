import type { Ticks } from "../units/ticks.ts";

/** One way a piece may lie: its box on the roll. */
export interface Shape {
  readonly across: Ticks;
  readonly along: Ticks;
  readonly turn: 0 | 90;
}

/** Pieces that are alike on the roll, counted and not listed, so that ten thousand copies cost no more than one. */
export interface Size {
  /** At least one; only those that are no wider than the room. */
  readonly shapes: readonly Shape[];
  readonly count: number;
  /** False for pieces that may fill a gap but must not make a cut of their own. */
  readonly due: boolean;
}

/** The width that pieces may lie in and the least distance between them, ticks. */
export interface Room {
  readonly width: Ticks;
  readonly gap: Ticks;
}

/** A piece in a cut; x from the edge of the room, y from the start of the cut. */
export interface Place {
  /** Index of its size. */
  readonly size: number;
  readonly shape: Shape;
  readonly x: Ticks;
  readonly y: Ticks;
}

/** One cut, made `times` times. */
export interface CutPattern {
  readonly length: Ticks;
  readonly places: readonly Place[];
  readonly times: number;
}

/** The least length along the roll that one piece of this size can have. */
export const shortestAlong = ({ shapes }: Size): Ticks => Math.min(...shapes.map(({ along }) => along));

/** The least width across the roll that one piece of this size can have. */
export const leastAcross = ({ shapes }: Size): Ticks => Math.min(...shapes.map(({ across }) => across));

/** Length of all cuts, each with one gap. */
export const totalLength = (patterns: readonly CutPattern[], gap: Ticks): Ticks =>
  patterns.reduce((sum, { length, times }) => sum + times * (length + gap), 0);
