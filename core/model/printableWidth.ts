import type { Ticks } from "../units/ticks.ts";
import type { Film } from "./instance.ts";

/** Full roll width less both margins, and no wider than the laminate, ticks. */
export const printableWidth = ({ edgeMargin, laminateWidth }: Film, width: Ticks): Ticks =>
  Math.min(width - 2 * edgeMargin, laminateWidth ?? Infinity);
