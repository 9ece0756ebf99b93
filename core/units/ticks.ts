/**
 * A length in whole ticks of 25 nm. One millimetre, one inch, 1/64 in and 0.001 in are all whole numbers of ticks, so sums
 * and comparisons of lengths are exact. A plain alias, not a brand: nearly every line of the core adds two lengths, and a
 * sum of two brands is a bare number again, so a brand would be cast at each step and guard nothing.
 */
export type Ticks = number;

/** The unit a job is written in. */
export type Unit = "in" | "mm";

/** 1 in = 25.4 mm exactly (NIST SP 811, appendix B). */
export const TICKS_PER: Readonly<Record<Unit, Ticks>> = { in: 1_016_000, mm: 40_000 };

/** A file's number in `unit`, read to the nearest tick. */
export function ticksFrom(value: number, unit: Unit): Ticks {
  const ticks = Math.round(value * TICKS_PER[unit]);
  return ticks === 0 ? 0 : ticks; // never -0
}

/** The number written to a file: the double nearest to ticks / unit, which `ticksFrom` reads back unchanged. */
export function ticksTo(ticks: Ticks, unit: Unit): number {
  return ticks / TICKS_PER[unit];
}
