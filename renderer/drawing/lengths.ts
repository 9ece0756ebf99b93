import { formatLength, TICKS_PER, type Ticks, ticksFrom, type Unit } from "./fromCore.ts";

export { TICKS_PER, type Ticks, ticksFrom, type Unit };

/** Lines on a drawing are no truer than a thousandth of an inch, so it does not say which numbers were rounded to that. */
const unmarked = (text: string): string => text.replace("≈", "");

/** A length as a person reads it, without its unit: "52 1/2". */
export const figure = (ticks: Ticks, unit: Unit): string => unmarked(formatLength(ticks, unit, { withUnit: false }));

/** The same with its unit: "52 1/2 in". */
export const lengthText = (ticks: Ticks, unit: Unit): string => unmarked(formatLength(ticks, unit));
