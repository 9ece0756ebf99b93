import { TICKS_PER, ticksFrom, ticksTo, type Unit } from "../../core/index.ts";
import { lengthWithUnit } from "./words.ts";

/** Steps of a tape that a fitter reads: 1/16 in, 1 mm. */
const step = { in: TICKS_PER.in / 16, mm: TICKS_PER.mm } as const;

/** Room to move, rounded down to what a tape shows, so that no more is promised than there is. */
export function roomWords(slack: number, unit: Unit): string {
  const ticks = Math.max(0, ticksFrom(slack, unit));
  if (ticks === 0) return "none";
  const whole = Math.floor(ticks / step[unit]) * step[unit];
  return whole === 0
    ? `under ${lengthWithUnit(ticksTo(step[unit], unit), unit)}`
    : lengthWithUnit(ticksTo(whole, unit), unit);
}

/** How much longer a measure of the body may turn out: "safe to +3/8 in". */
export function safeWords(slack: number, unit: Unit): string {
  const room = roomWords(slack, unit);
  return room === "none" ? "no room at all" : room.startsWith("under") ? `${room} to spare` : `safe to +${room}`;
}
