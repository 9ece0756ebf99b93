import type { Film, Instance, StockEntry } from "../model/instance.ts";
import type { Ticks } from "../units/ticks.ts";

/** What is left of one film while loads are taken from it. Never changed in place. */
export interface Supply {
  readonly film: Film;
  /** Stock entries of the film with what is left of each, in the job's order. */
  readonly stock: readonly { readonly entry: StockEntry; readonly left: Ticks }[];
  /** New rolls that may still be bought; Infinity without a limit. */
  readonly newRolls: number;
}

export function supplyOf({ stock }: Instance, film: Film): Supply {
  return {
    film,
    stock: stock.filter((entry) => entry.film === film.id).map((entry) => ({ entry, left: entry.length })),
    newRolls: film.newRolls ?? Infinity,
  };
}

/** The supply after one load of `used` length; `stock` null for a new roll. */
export function afterLoad(supply: Supply, stock: StockEntry | null, used: Ticks): Supply {
  if (stock === null) return { ...supply, newRolls: supply.newRolls - 1 };
  return {
    ...supply,
    stock: supply.stock.map((item) => (item.entry === stock ? { ...item, left: item.left - used } : item)),
  };
}

/** Length that the cuts of one load may take, gaps between them included; a load of `length` at hand. */
export const roomInLoad = ({ rules }: Instance, film: Film, length: Ticks): Ticks =>
  Math.min(length, film.maxRun ?? Infinity) - rules.leader - rules.trailer;

/** Rolls of one lot match in colour. New rolls count as one lot; stock without a lot is a lot of its own. */
export const lotOf = (stock: StockEntry | null): string =>
  stock === null ? "new" : stock.lot === null ? `entry ${stock.id}` : `lot ${stock.lot}`;

/** Every width the film can be had in, narrowest first: those it is sold in and those in stock. */
export function widthsToBeHad({ film, stock, newRolls }: Supply): Ticks[] {
  const widths = new Set(stock.map(({ entry }) => entry.width));
  if (newRolls > 0) for (const width of film.rollWidths) widths.add(width);
  return [...widths].sort((a, b) => a - b);
}
