import type { Ticks } from "../units/ticks.ts";
import type { Film, Instance, Rules } from "./instance.ts";
import { printableWidth } from "./printableWidth.ts";

/**
 * The gap that bounds count with each piece: a gap longer than leader and trailer together would make loads seem to give
 * film back, and a shorter one is asked too.
 */
export const countedGap = ({ cutGap, leader, trailer }: Rules): Ticks => Math.min(cutGap, leader + trailer);

/** Full width for each part of the width and gap that pieces may take, on the width that is best for it. */
export function leastRatio({ stock }: Instance, film: Film, gap: Ticks): number {
  const stocked = stock.filter((entry) => entry.film === film.id).map(({ width }) => width);
  return Math.min(...[...film.rollWidths, ...stocked].map((width) => width / (printableWidth(film, width) + gap)));
}

/** Whether nothing but fills lies on a film, so that no gap among other pieces could take them for nothing. */
export const isOnlyFill = ({ elevations, pieces }: Instance, { id }: Film): boolean =>
  elevations.every(({ film }) => film !== id) && pieces.every(({ film }) => film !== id);
