import { TICKS_PER, type Ticks, ticksFrom, type Unit } from "../../core/units/ticks.ts";

/** Everything the drawings know about lengths; the only file here that turns ticks into words. */
export { TICKS_PER, type Ticks, ticksFrom, type Unit };

const greatestDivisor = (a: number, b: number): number => (b === 0 ? a : greatestDivisor(b, a % b));

/**
 * A length as a person reads it, without its unit: inches to the nearest 1/64 with the fraction in lowest terms, or in
 * thousandths when it is no 64th; millimetres to a tenth.
 */
export function figure(ticks: Ticks, unit: Unit): string {
  if (unit === "mm") return String(Math.round((ticks / TICKS_PER.mm) * 10) / 10);
  const sign = ticks < 0 ? "-" : "";
  const size = Math.abs(ticks);
  const parts = size / (TICKS_PER.in / 64);
  if (Math.abs(parts - Math.round(parts)) > 1e-9) return sign + String(Math.round((size / TICKS_PER.in) * 1000) / 1000);
  const whole = Math.floor(Math.round(parts) / 64);
  const rest = Math.round(parts) % 64;
  if (rest === 0) return sign + String(whole);
  const divisor = greatestDivisor(64, rest);
  const fraction = `${rest / divisor}/${64 / divisor}`;
  return sign + (whole === 0 ? fraction : `${whole} ${fraction}`);
}

/** The same with its unit: "52 1/2 in". */
export const lengthText = (ticks: Ticks, unit: Unit): string => `${figure(ticks, unit)} ${unit}`;
