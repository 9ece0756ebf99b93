import { formatLength, TICKS_PER, type Ticks, ticksFrom, type Unit } from "./fromCore.ts";

export { TICKS_PER, type Ticks, ticksFrom, type Unit };

/** A length as a person reads it, without its unit: "52 1/2". */
export const figure = (ticks: Ticks, unit: Unit): string => formatLength(ticks, unit, { withUnit: false });

/** The same with its unit: "52 1/2 in". */
export const lengthText = (ticks: Ticks, unit: Unit): string => formatLength(ticks, unit);
