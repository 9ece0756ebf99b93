import type { Elevation, Film, Instance } from "./model/instance.ts";
import { printableWidth } from "./model/printableWidth.ts";
import type { Ticks } from "./units/ticks.ts";

/** Widths and lots of offcuts that are tried for one strip. */
const MOST_POOLS = 4;

/** The job's film and stock with some offcuts set apart as a film of their own, which a strip alone may lie on. */
export interface OffcutSupply {
  readonly films: readonly Film[];
  readonly stock: Instance["stock"];
  /** The film that stands for the offcuts. */
  readonly film: Film;
}

/**
 * Ways to cut a strip from offcuts of other widths than the panels' roll: panels may not lie on them, so that they are
 * set apart as a film of their own that no new roll can be had of.
 *
 * @param least ticks that the offcut's printable width measures at least
 * @returns narrowest first, at most a few; where one lot is asked for, offcuts of one lot with the panels' own stock of
 *   that lot alone, since an offcut of another lot would not match
 */
export function offcutSupplies(
  instance: Instance,
  elevation: Elevation,
  film: Film,
  rollWidth: Ticks,
  least: Ticks,
): OffcutSupply[] {
  const bound = oneLotAsked(instance, elevation);
  const pools = new Map<string, Instance["stock"][number][]>();
  for (const entry of instance.stock) {
    const { kind, width, lot } = entry;
    if (kind !== "offcut" || entry.film !== film.id || width === rollWidth || printableWidth(film, width) < least)
      continue;
    // One without a lot is a lot of its own, which no panel shares.
    if (bound && lot === null) continue;
    const key = JSON.stringify([width, bound ? lot : null]);
    pools.set(key, [...(pools.get(key) ?? []), entry]);
  }
  return [...pools.values()]
    .sort(([a], [b]) => (a?.width ?? 0) - (b?.width ?? 0))
    .slice(0, MOST_POOLS)
    .map((pool) => setApart(instance, film, pool, bound));
}

/** Whether panels and fills of one copy of an elevation must come from one lot. */
const oneLotAsked = ({ rules, sameLot }: Instance, { id }: Elevation): boolean =>
  rules.oneLot !== "none" || sameLot.some(({ elevations }) => elevations.includes(id));

function setApart(instance: Instance, film: Film, pool: Instance["stock"], bound: boolean): OffcutSupply {
  const { width, lot } = pool[0] as Instance["stock"][number];
  let id = `${film.id} offcuts`;
  while (instance.films.some((other) => other.id === id)) id += "'";
  const offcuts: Film = { ...film, id, rollWidths: [width], newRolls: 0 };
  const films = instance.films.map((one) => (bound && one.id === film.id ? { ...one, newRolls: 0 } : one));
  const left = instance.stock.filter(
    (entry) => !pool.includes(entry) && (!bound || entry.film !== film.id || entry.lot === lot),
  );
  return {
    films: [...films, offcuts],
    stock: [...left, ...pool.map((entry) => ({ ...entry, film: id }))],
    film: offcuts,
  };
}
