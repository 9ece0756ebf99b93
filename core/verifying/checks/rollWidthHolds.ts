import type { Violation } from "../../model/violation.ts";
import type { Ticks } from "../../units/ticks.ts";
import { breachOf, type LayoutCheck } from "../check.ts";

const breach = breachOf("rollWidthHolds");

/**
 * The layout's roll width is the one on which every panel and fill of a film that offers it lies; films that don't offer
 * it lie on one width of theirs each. Without a roll width the widths are mixed.
 */
export const rollWidthHolds: LayoutCheck = ({ job: { instance, films, words }, layout, placed }) => {
  const found: Violation[] = [];
  const widths = new Map<string, Set<Ticks>>();
  for (const { panel, load } of placed) {
    if (panel === null) continue;
    const ofFilm = widths.get(load.film) ?? new Set<Ticks>();
    widths.set(load.film, ofFilm.add(load.width));
  }
  const offers = (film: string, width: Ticks): boolean => films.get(film)?.rollWidths.includes(width) ?? false;
  const holds = (film: string, on: ReadonlySet<Ticks>, width: Ticks): boolean =>
    on.size === 1 && (!offers(film, width) || on.has(width));
  if (layout.rollWidth === null) {
    const all = [...new Set([...widths.values()].flatMap((on) => [...on]))];
    const single = all.find(
      (width) =>
        [...widths].some(([film]) => offers(film, width)) && [...widths].every(([film, on]) => holds(film, on, width)),
    );
    return single === undefined
      ? []
      : [
          breach(
            [layout.id],
            `it claims mixed widths, and all panels lie on ${words.length(single)} wherever that is on offer`,
          ),
        ];
  }
  const width = layout.rollWidth;
  const known =
    instance.films.some(({ id }) => offers(id, width)) || instance.stock.some((entry) => entry.width === width);
  if (!known) found.push(breach([layout.id], `no film is ${words.length(width)} wide`));
  for (const [film, on] of widths) {
    if (!holds(film, on, width)) {
      const lies = [...on].map(words.length).join(" and ");
      found.push(
        breach([layout.id, film], `its panels lie on ${lies}; the layout's roll width is ${words.length(width)}`),
      );
    }
  }
  return found;
};
