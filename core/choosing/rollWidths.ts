import type { PanellingLimits } from "../model/covering.ts";
import type { Direction, Film, Instance } from "../model/instance.ts";
import { printableWidth } from "../model/printableWidth.ts";
import type { Problem } from "../model/problem.ts";
import { type Ticks, ticksTo, type Unit } from "../units/ticks.ts";

/** A full roll width on which every panel of a film that offers it is to lie, and the widths that go with it. */
export interface WidthChoice {
  /** null when nothing but loose pieces is to be made. */
  readonly rollWidth: Ticks | null;
  readonly widthByFilm: ReadonlyMap<string, Ticks>;
}

/**
 * The roll widths to plan on: each width that the film of an elevation comes in, narrowest first. A film that does not
 * offer the width of the layout, such as one for fills alone, takes its own widest that can be had.
 */
export function widthChoices(instance: Instance): WidthChoice[] {
  const filmsOf = (ids: readonly string[]) => instance.films.filter(({ id }) => ids.includes(id));
  const ofPanels = instance.elevations.map(({ film }) => film);
  const ofFills = instance.elevations.flatMap(({ fill }) => fill.map(({ film }) => film));
  const widths = [...new Set(filmsOf(ofPanels).flatMap((film) => film.rollWidths))].sort((a, b) => a - b);
  if (widths.length === 0) return [{ rollWidth: null, widthByFilm: new Map() }];
  return widths.map((rollWidth) => ({
    rollWidth,
    widthByFilm: new Map(
      filmsOf([...ofPanels, ...ofFills]).map((film) => [film.id, widthOn(instance, film, rollWidth)]),
    ),
  }));
}

function widthOn(instance: Instance, film: Film, rollWidth: Ticks): Ticks {
  if (film.rollWidths.includes(rollWidth)) return rollWidth;
  const toBeHad = film.rollWidths.filter((width) => longestLoad(instance, film, width) > 0);
  return (toBeHad.at(-1) ?? film.rollWidths.at(-1)) as Ticks;
}

/**
 * Length between leader and trailer of the longest load of a film on rolls of one width, ticks: Infinity when new rolls
 * of unlimited length may be bought, 0 when there is no such film to be had.
 */
export function longestLoad(instance: Instance, film: Film, width: Ticks): Ticks {
  const { leader, trailer } = instance.rules;
  const bought = film.newRolls === 0 || !film.rollWidths.includes(width) ? 0 : (film.rollLength ?? Infinity);
  const stock = instance.stock.filter((entry) => entry.film === film.id && entry.width === width);
  const longest = Math.max(bought, ...stock.map(({ length }) => length));
  return Math.max(0, Math.min(longest, film.maxRun ?? Infinity) - leader - trailer);
}

/** What a choice of width leaves to panelling. */
export function panellingLimits(
  instance: Instance,
  { widthByFilm }: WidthChoice,
  preferred: Direction | null,
): PanellingLimits {
  const films = instance.films.filter(({ id }) => widthByFilm.has(id));
  const by = (value: (film: Film, width: Ticks) => Ticks) =>
    new Map(films.map((film) => [film.id, value(film, widthByFilm.get(film.id) as Ticks)]));
  return {
    widthByFilm,
    acrossByFilm: by(printableWidth),
    alongByFilm: by((film, width) => longestLoad(instance, film, width)),
    preferred,
  };
}

/** Why a width can't be planned on at all: no film of it in stock, and none may be bought. */
export function withoutFilm(instance: Instance, { widthByFilm }: WidthChoice): Problem[] {
  return instance.elevations.flatMap((elevation, i) => {
    const film = instance.films.find(({ id }) => id === elevation.film);
    const width = film && widthByFilm.get(film.id);
    if (film === undefined || width === undefined || longestLoad(instance, film, width) > 0) return [];
    return [
      {
        path: `elevations[${i}].film`,
        value: film.id,
        why: `Film "${film.id}" is not in stock ${inUnit(width, instance.unit)} wide, and no new roll may be bought`,
        mend: "Add a roll of this width to the stock, or allow new rolls of this film",
      },
    ];
  });
}

const inUnit = (width: Ticks, unit: Unit): string => `${Number(ticksTo(width, unit).toFixed(3))} ${unit}`;
