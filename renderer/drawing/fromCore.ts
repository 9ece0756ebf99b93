/** The few helpers of the core that drawings use, through one door. */
export { formatLength, formatMoney } from "../../core/units/formatLength.ts";
export { TICKS_PER, type Ticks, ticksFrom, type Unit } from "../../core/units/ticks.ts";
