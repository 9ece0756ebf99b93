/** The few functions of the core that drawings use, through one door. */
export { formatLength, formatMoney, TICKS_PER, type Ticks, ticksFrom, type Unit } from "../../core/index.ts";
