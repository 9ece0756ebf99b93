import type { Polygon } from "./box.ts";

/** Area of a simple polygon, square ticks, whichever way round. Measured from its first corner to keep products small. */
export function polygonArea(polygon: Polygon): number {
  const origin = polygon[0];
  if (origin === undefined) return 0;
  let doubled = 0;
  for (let i = 1; i + 1 < polygon.length; i++) {
    const a = polygon[i] as { x: number; y: number };
    const b = polygon[i + 1] as { x: number; y: number };
    doubled += (a.x - origin.x) * (b.y - origin.y) - (b.x - origin.x) * (a.y - origin.y);
  }
  return Math.abs(doubled) / 2;
}
