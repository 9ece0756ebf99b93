/** Something that can be reached with the arrow keys, by its middle on the screen. */
export interface Stop {
  readonly id: string;
  readonly x: number;
  readonly y: number;
}

export type Way = "left" | "right" | "up" | "down";

/**
 * The stop that lies nearest in the wanted way; what lies aside counts double. Null when nothing lies there.
 * Ties: the first in order.
 */
export function neighbour(stops: readonly Stop[], from: string, way: Way): string | null {
  const start = stops.find((stop) => stop.id === from);
  if (!start) return null;
  let best: string | null = null;
  let least = Infinity;
  for (const stop of stops) {
    if (stop.id === from) continue;
    const right = stop.x - start.x;
    const down = stop.y - start.y;
    const ahead = way === "left" ? -right : way === "right" ? right : way === "up" ? -down : down;
    const aside = way === "left" || way === "right" ? Math.abs(down) : Math.abs(right);
    if (ahead <= 0.5) continue;
    const far = ahead + 2 * aside;
    if (far < least) {
      least = far;
      best = stop.id;
    }
  }
  return best;
}
