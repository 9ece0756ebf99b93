import type { Plan } from "./plan.ts";

/** Time, chance and reporting come from outside, so a search can be stopped, repeated and watched. */
export interface Run {
  /** Seeded; the only source of chance. */
  readonly random: Random;
  /** True once the search should wind up with what it has. */
  readonly stop: () => boolean;
  /** Called with each step of progress; must not throw. */
  readonly report: (event: Progress) => void;
  /** Algorithm steps still allowed; null for no limit. Counted by the search, so that a run repeats on any machine. */
  readonly work: number | null;
}

export type Progress =
  | { readonly kind: "step"; readonly done: number; readonly of: number; readonly what: string }
  | { readonly kind: "plan"; readonly plan: Plan };

/** A number in [0, 1). */
export type Random = () => number;

/** Marsaglia's xorshift32 (2003, Journal of Statistical Software 8(14)), seeded with any whole number. */
export function seededRandom(seed: number): Random {
  let state = (Math.imul(seed | 0, 0x9e3779b1) ^ 0x6d2b79f5) | 0 || 1;
  return () => {
    state ^= state << 13;
    state ^= state >>> 17;
    state ^= state << 5;
    return (state >>> 0) / 2 ** 32;
  };
}
