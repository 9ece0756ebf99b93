import { type Ticks, ticksTo, type Unit } from "../units/ticks.ts";

/** Inches to the nearest sixteenth where that is exact, as on a tape measure; else at most three decimals. */
export function lengthIn(length: Ticks, unit: Unit): string {
  const value = ticksTo(length, unit);
  const sixteenths = value * 16;
  if (unit !== "in" || !Number.isInteger(sixteenths) || Number.isInteger(value)) {
    return `${Number(value.toFixed(3))} ${unit}`;
  }
  const sign = value < 0 ? "-" : "";
  const [whole, rest] = [Math.floor(Math.abs(sixteenths) / 16), Math.abs(sixteenths) % 16];
  const divisor = rest % 8 === 0 ? 8 : rest % 4 === 0 ? 4 : rest % 2 === 0 ? 2 : 1;
  return `${sign}${whole > 0 ? `${whole} ` : ""}${rest / divisor}/${16 / divisor} ${unit}`;
}
