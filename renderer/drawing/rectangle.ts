/** A rectangle on the screen: CSS pixels, y down. */
export interface Rectangle {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

export const rectangle = (x: number, y: number, width: number, height: number): Rectangle => ({ x, y, width, height });

/** True when the interiors meet; touching is not meeting. */
export const meet = (a: Rectangle, b: Rectangle): boolean =>
  a.x < b.x + b.width && b.x < a.x + a.width && a.y < b.y + b.height && b.y < a.y + a.height;

export const holds = (outer: Rectangle, inner: Rectangle): boolean =>
  inner.x >= outer.x - 1e-6 &&
  inner.y >= outer.y - 1e-6 &&
  inner.x + inner.width <= outer.x + outer.width + 1e-6 &&
  inner.y + inner.height <= outer.y + outer.height + 1e-6;

/** What both share; null when their interiors do not meet. */
export function shared(a: Rectangle, b: Rectangle): Rectangle | null {
  if (!meet(a, b)) return null;
  const x = Math.max(a.x, b.x);
  const y = Math.max(a.y, b.y);
  return {
    x,
    y,
    width: Math.min(a.x + a.width, b.x + b.width) - x,
    height: Math.min(a.y + a.height, b.y + b.height) - y,
  };
}

/** Grown on all sides, or shrunk with a negative amount (never below nothing). */
export function grown(box: Rectangle, by: number): Rectangle {
  const width = Math.max(0, box.width + 2 * by);
  const height = Math.max(0, box.height + 2 * by);
  return { x: box.x + box.width / 2 - width / 2, y: box.y + box.height / 2 - height / 2, width, height };
}

export const middle = (box: Rectangle): { x: number; y: number } => ({
  x: box.x + box.width / 2,
  y: box.y + box.height / 2,
});

/** The rectangle widened about its middle until a pointer can hit it: at least `least` in both directions. */
export function hitArea(box: Rectangle, least = 24): Rectangle {
  const { x, y } = middle(box);
  const width = Math.max(least, box.width);
  const height = Math.max(least, box.height);
  return { x: x - width / 2, y: y - height / 2, width, height };
}
