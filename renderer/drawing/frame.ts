import type { Box, Point } from "./model.ts";
import type { Rectangle } from "./rectangle.ts";

/** How an elevation lies on the screen: y up there, y down here. `scale` is pixels per tick. */
export interface Frame {
  readonly scale: number;
  /** Ticks of the point that lies at (left, top). */
  readonly x0: number;
  readonly y1: number;
  readonly left: number;
  readonly top: number;
}

export const screenX = (frame: Frame, x: number): number => frame.left + (x - frame.x0) * frame.scale;
export const screenY = (frame: Frame, y: number): number => frame.top + (frame.y1 - y) * frame.scale;

export const screenBox = (frame: Frame, box: Box): Rectangle => ({
  x: screenX(frame, box.x0),
  y: screenY(frame, box.y1),
  width: (box.x1 - box.x0) * frame.scale,
  height: (box.y1 - box.y0) * frame.scale,
});

/** Two decimals are finer than any screen and keep the markup short. */
export const short = (value: number): number => Math.round(value * 100) / 100;

/** A closed path through the points. */
export const polygonPath = (frame: Frame, points: readonly Point[]): string =>
  `M${points.map(({ x, y }) => `${short(screenX(frame, x))} ${short(screenY(frame, y))}`).join("L")}Z`;
