import { type Ticks, ticksTo, type Unit } from "../units/ticks.ts";

/** A length for messages, in the job's unit, at most three decimals. */
export const inWords = (length: Ticks, unit: Unit): string => `${Number(ticksTo(length, unit).toFixed(3))} ${unit}`;

/** "1, 2 and 3", and how many more when there are many. */
export function listed(items: readonly (string | number)[], most = 8): string {
  if (items.length > most) return `${items.slice(0, most).join(", ")} and ${items.length - most} more`;
  if (items.length < 2) return items.join("");
  return `${items.slice(0, -1).join(", ")} and ${items.at(-1)}`;
}
