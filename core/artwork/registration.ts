import type { Box, Point } from "../geometry/box.ts";
import type { Ticks } from "../units/ticks.ts";
import type { Picture, Pixel } from "./picture.ts";

/** How a picture lies on an elevation. Ticks, none of them rounded. */
export interface Registration {
  /** Where the picture's upper left corner lies. */
  readonly origin: Point;
  /** How far one pixel to the right leads on the elevation. */
  readonly right: Point;
  /** How far one pixel down leads on the elevation. */
  readonly down: Point;
}

/** A place of the picture that is known on the elevation. */
export interface KnownPlace {
  readonly pixel: Pixel;
  readonly place: Point;
}

/** `turn` in degrees, counter-clockwise: what the picture was turned by to fit. */
export type Registered =
  | { readonly registration: Registration; readonly turn: number }
  | { readonly fault: "close" | "turned"; readonly turn: number };

/** A picture of an upright face is turned by no more than a camera is held askew; beyond that two places were mixed up. */
export const MOST_TURN = 5;
/** Two places nearer than this, in pixels, say too little of scale and turn: one pixel is then an eighth of the whole. */
export const LEAST_APART = 8;

/** The place on the elevation of a place in the picture. */
export function placeOf({ origin, right, down }: Registration, { x, y }: Pixel): Point {
  return { x: origin.x + x * right.x + y * down.x, y: origin.y + x * right.y + y * down.y };
}

/** The place in the picture of a place on the elevation. */
export function pixelOf({ origin, right, down }: Registration, { x, y }: Point): Pixel {
  const whole = right.x * down.y - right.y * down.x;
  const [dx, dy] = [x - origin.x, y - origin.y];
  return { x: (dx * down.y - dy * down.x) / whole, y: (dy * right.x - dx * right.y) / whole };
}

/** Ticks a pixel measures: the side of a square as large as one. */
export function pixelSize({ right, down }: Registration): number {
  return Math.sqrt(Math.abs(right.x * down.y - right.y * down.x));
}

/**
 * Lays a picture over a whole box, which is right when it was made for it.
 *
 * @param picture its size in pixels
 * @param box of positive width and height, ticks
 * @returns the registration, and by how many percent the longer scale is above the shorter: 0 when the picture's sides
 *   are as the box's
 */
export function fitToBox(
  { width, height }: Pick<Picture, "width" | "height">,
  box: Box,
): { readonly registration: Registration; readonly misfit: number } {
  const across = (box.x1 - box.x0) / width;
  const up = (box.y1 - box.y0) / height;
  return {
    registration: { origin: { x: box.x0, y: box.y1 }, right: { x: across, y: 0 }, down: { x: 0, y: -up } },
    misfit: 100 * (Math.max(across, up) / Math.min(across, up) - 1),
  };
}

/**
 * Lays a picture by two of its places that are known on the elevation: one scale, moved, and turned by at most 5 degrees.
 *
 * @returns the registration with the turn that was made; `close` when the two lie too near to each other in the picture
 *   or on the elevation, `turned` when they ask for a larger turn
 */
export function placedByTwo(first: KnownPlace, second: KnownPlace): Registered {
  // As complex numbers, the picture's y turned upward: the ratio of the two ways is scale and turn in one.
  const way = { x: second.pixel.x - first.pixel.x, y: first.pixel.y - second.pixel.y };
  const goal = { x: second.place.x - first.place.x, y: second.place.y - first.place.y };
  const square = way.x * way.x + way.y * way.y;
  if (square < LEAST_APART * LEAST_APART || (goal.x === 0 && goal.y === 0)) return { fault: "close", turn: 0 };
  const right = {
    x: (goal.x * way.x + goal.y * way.y) / square,
    y: (goal.y * way.x - goal.x * way.y) / square,
  };
  // Adding 0 turns minus nought into nought, which would make half a turn one of -180.
  const turn = (Math.atan2(right.y + 0, right.x) * 180) / Math.PI;
  if (Math.abs(turn) > MOST_TURN) return { fault: "turned", turn };
  return { registration: withOrigin(first, right, { x: right.y, y: -right.x }), turn };
}

/**
 * Lays a picture by one known place and the distance between two: one scale, moved, not turned.
 *
 * @param distance ticks, positive
 * @returns `close` when the two lie too near to each other in the picture
 */
export function placedByDistance(first: KnownPlace, second: Pixel, distance: Ticks): Registered {
  const apart = Math.hypot(second.x - first.pixel.x, second.y - first.pixel.y);
  if (apart < LEAST_APART || !(distance > 0)) return { fault: "close", turn: 0 };
  const scale = distance / apart;
  return { registration: withOrigin(first, { x: scale, y: 0 }, { x: 0, y: -scale }), turn: 0 };
}

function withOrigin({ pixel, place }: KnownPlace, right: Point, down: Point): Registration {
  return {
    origin: { x: place.x - pixel.x * right.x - pixel.y * down.x, y: place.y - pixel.x * right.y - pixel.y * down.y },
    right,
    down,
  };
}
