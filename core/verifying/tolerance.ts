import type { Ticks } from "../units/ticks.ts";

/**
 * Lengths are exact, with this one allowance: where a place lies on a sloped edge it is no whole tick, and rounding it
 * outward once, or once more as half an overlap, may differ by this much between two right answers.
 */
export const SLOPE_TICKS: Ticks = 2;

/** Areas and money are sums of doubles beyond their exact range: they agree within this share, or this amount near zero. */
export const SHARE = 1e-6;

/** Costs nearer than this are equal: the contract's own figure. */
export const EQUAL_COST = 0.005;

/** True where a place lies on a whole tick but for the error of a division. */
export const isWhole = (place: number): boolean => Math.abs(place - Math.round(place)) < 1e-4;

/** How much a stated length may be off a place worked out. */
export const allowance = (place: number): Ticks => (isWhole(place) ? 1e-4 : SLOPE_TICKS);

/** Equal but for the error of sums. */
export const agree = (stated: number, due: number): boolean =>
  Math.abs(stated - due) <= SHARE * Math.max(1, Math.abs(due));
