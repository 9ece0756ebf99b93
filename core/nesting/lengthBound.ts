import type { Ticks } from "../units/ticks.ts";
import type { Room, Size } from "./sizes.ts";

/**
 * A lower bound on the length that pieces take on a roll, each piece and each cut counted with one gap.
 *
 * @param sizes shapes no wider than the room; ticks
 * @param room printable width and gap, ticks
 * @returns ticks, not rounded: sum over the loads of (length from the first piece to the last + gap) is at least this
 *
 * Grow every piece by the gap to the right and forward: as pieces are at least the gap apart across or along, the grown
 * boxes are disjoint in a strip of width + gap. On every line across the strip the grown widths then add up to at most
 * width + gap, and so do their images under a dual feasible function; integrating over the length gives the bound. The
 * functions tried are the identity (the area bound), that of Martello and Toth (1990), Discrete Applied Mathematics 28(1),
 * 59-70, which rounds what leaves less than a threshold up to the whole width and drops what is under it, and the rounding
 * function u(k) of Fekete and Schepers (2001), Mathematical Programming 91(1), 11-31. A piece that may be turned counts
 * with its cheaper shape.
 *
 * Time O(thresholds x sizes), with at most 64 thresholds.
 */
export function lengthBound(sizes: readonly Size[], room: Room): number {
  const strip = room.width + room.gap;
  let best = measured(sizes, room.gap, (across) => across / strip);
  for (const threshold of thresholds(sizes, strip, room.gap)) {
    best = Math.max(
      best,
      measured(sizes, room.gap, (across) => roundedAt(across, threshold, strip)),
    );
  }
  for (let k = 1; k <= 6; k++) {
    best = Math.max(
      best,
      measured(sizes, room.gap, (across) => steps(across, k, strip)),
    );
  }
  return best;
}

function measured(sizes: readonly Size[], gap: Ticks, share: (across: Ticks) => number): number {
  let length = 0;
  for (const { shapes, count } of sizes) {
    length += count * Math.min(...shapes.map(({ across, along }) => share(across + gap) * (along + gap)));
  }
  return length;
}

/** Widths up to half the strip: only there does the rounding change. Evenly chosen when there are many. */
function thresholds(sizes: readonly Size[], strip: Ticks, gap: Ticks): Ticks[] {
  const grown = sizes.flatMap(({ shapes }) => shapes.map(({ across }) => across + gap));
  const useful = new Set<Ticks>();
  for (const across of grown) {
    if (2 * across <= strip) useful.add(across);
    else useful.add(strip - across + 1);
  }
  const sorted = [...useful].filter((across) => across > 0 && 2 * across <= strip).sort((a, b) => a - b);
  if (sorted.length <= 64) return sorted;
  return Array.from({ length: 64 }, (_, i) => sorted[Math.round((i * (sorted.length - 1)) / 63)] as Ticks);
}

function roundedAt(across: Ticks, threshold: Ticks, strip: Ticks): number {
  if (across > strip - threshold) return 1;
  return across < threshold ? 0 : across / strip;
}

function steps(across: Ticks, k: number, strip: Ticks): number {
  const whole = Math.floor(((k + 1) * across) / strip);
  return (k + 1) * across === whole * strip ? across / strip : whole / k;
}
