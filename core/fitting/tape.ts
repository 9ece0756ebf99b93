import { formatLength, lengthParts } from "../units/formatLength.ts";
import { TICKS_PER, type Ticks, type Unit } from "../units/ticks.ts";

/** The finest that is read off a tape measure: 1/16 in or 1 mm. */
export const tapeStep = (unit: Unit): Ticks => (unit === "in" ? TICKS_PER.in / 16 : TICKS_PER.mm);

/** A length to the nearest 1/16 in or 1 mm; halves go up. */
export function toTape(length: Ticks, unit: Unit): Ticks {
  const step = tapeStep(unit);
  return Math.round(length / step) * step + 0;
}

/**
 * A length in words as it is read off a tape: exact to 1/64 in or 0.1 mm where it is so ("53 1/2 in", "1346.6 mm"), else
 * "about" and the nearest mark ("about 44 5/16 in").
 */
export function onTape(length: Ticks, unit: Unit): string {
  const { rounded, decimals } = lengthParts(length, unit);
  const isExact = !rounded && (unit === "mm" || decimals === "");
  return isExact ? formatLength(length, unit) : `about ${formatLength(toTape(length, unit), unit)}`;
}
