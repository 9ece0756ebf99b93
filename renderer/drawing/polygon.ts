import type { Rectangle } from "./rectangle.ts";

export interface Spot {
  readonly x: number;
  readonly y: number;
}

/** True inside the polygon, by the even-odd rule. */
export function inPolygon(corners: readonly Spot[], { x, y }: Spot): boolean {
  let inside = false;
  corners.forEach((a, index) => {
    const b = corners[(index + 1) % corners.length] ?? a;
    if (a.y > y !== b.y > y && x < a.x + ((y - a.y) / (b.y - a.y)) * (b.x - a.x)) inside = !inside;
  });
  return inside;
}

/** True when the corners and the middles of the sides of a box lie inside the polygon. */
export function boxInPolygon(corners: readonly Spot[], { x, y, width, height }: Rectangle): boolean {
  return [0, 0.5, 1].every((across) =>
    [0, 0.5, 1].every((down) => inPolygon(corners, { x: x + width * across, y: y + height * down })),
  );
}

/** The middle of the corners. */
export const middleOf = (corners: readonly Spot[]): Spot => ({
  x: corners.reduce((sum, { x }) => sum + x, 0) / corners.length,
  y: corners.reduce((sum, { y }) => sum + y, 0) / corners.length,
});
