import type { PanellingLimits } from "../model/covering.ts";
import type { Film, Instance } from "../model/instance.ts";
import { TICKS_PER, type Ticks } from "../units/ticks.ts";
import type { Combination } from "./combineSections.ts";
import type { Member } from "./members.ts";
import type { SectionPrices } from "./sectionOptions.ts";
import type { Border } from "./sections.ts";

/** What the windows of a section cost on all copies of all members, on a fill's film or each member's own (null). */
export function pricesOf(
  { rules, films, unit }: Instance,
  members: readonly Member[],
  fillFilm: string | null,
  { acrossByFilm, widthByFilm }: PanellingLimits,
): SectionPrices {
  const perUnit = TICKS_PER[unit];
  let [aloneAcross, copies, perArea] = [0, 0, 0];
  for (const { elevation } of members) {
    const { count } = elevation;
    const id = fillFilm ?? elevation.film;
    const film = films.find((candidate) => candidate.id === id) as Film;
    const across = acrossByFilm.get(id) ?? 0;
    const width = widthByFilm.get(id) ?? across;
    const sheet = film.pricePerArea + film.laminatePricePerArea;
    copies += count;
    aloneAcross += count * across;
    if (across > 0) perArea += (count * (sheet * (width / across) + film.inkPricePerArea)) / perUnit ** 2;
  }
  return {
    aloneAcross,
    copies,
    perArea,
    perPanel: copies * rules.panelPrice,
    perSeamLength: rules.seamPricePerLength / perUnit,
  };
}

/** What borders come to before any section is split. */
export function borderSums(
  { rules, unit }: Instance,
  members: readonly Member[],
  borders: readonly Border[],
): Omit<Combination, "picks"> {
  let [visible, visibleLength] = [0, 0];
  const open = members.map(() => 0);
  for (const { kinds, lengths } of borders) {
    for (const [m, { elevation }] of members.entries()) {
      if (kinds[m] === "open") open[m] = (open[m] as number) + 1;
      if (kinds[m] === "break") continue;
      visible += elevation.count;
      visibleLength += elevation.count * (lengths[m] as Ticks);
    }
  }
  const cost = (visibleLength * rules.seamPricePerLength) / TICKS_PER[unit];
  return {
    windowArea: 0,
    aloneArea: 0,
    cost,
    visible,
    visibleLength,
    penalties: 0,
    panels: 0,
    apart: 0,
    handles: 0,
    open,
  };
}
