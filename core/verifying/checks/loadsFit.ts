import type { Violation } from "../../model/violation.ts";
import { breachOf, type LayoutCheck } from "../check.ts";

const breach = breachOf("loadsFit");

/**
 * Every load comes from what there is: a stock entry of that film, width and lot that holds all its loads together, or a
 * new roll of a width on offer, of which only so many may be bought; none is longer than one run (rules 8, 21 and 22).
 */
export const loadsFit: LayoutCheck = ({ job: { films, stock, instance, words }, layout }) => {
  const found: Violation[] = [];
  const usedOf = new Map<string, number>();
  const bought = new Map<string, number>();
  for (const load of layout.rolls) {
    const film = films.get(load.film);
    const at = [load.id];
    if (film?.maxRun != null && load.used > film.maxRun) {
      found.push(
        breach(at, `it uses ${words.length(load.used)}; one run of ${film.id} is ${words.length(film.maxRun)} at most`),
      );
    }
    if (load.stock === null) {
      bought.set(load.film, (bought.get(load.film) ?? 0) + 1);
      if (load.lot !== null) found.push(breach(at, `nobody knows yet that a new roll is of lot ${load.lot}`));
      if (film === undefined) continue;
      if (!film.rollWidths.includes(load.width)) {
        found.push(breach(at, `${film.id} is not sold ${words.length(load.width)} wide`));
      }
      if (film.rollLength !== null && load.used > film.rollLength) {
        found.push(breach(at, `it uses ${words.length(load.used)}; a roll holds ${words.length(film.rollLength)}`));
      }
      continue;
    }
    const entry = stock.get(load.stock);
    if (entry === undefined) continue;
    usedOf.set(entry.id, (usedOf.get(entry.id) ?? 0) + load.used);
    if (entry.film !== load.film)
      found.push(breach([load.id, entry.id], `${entry.id} is ${entry.film}, not ${load.film}`));
    if (entry.lot !== load.lot)
      found.push(breach([load.id, entry.id], `${entry.id} is of lot ${entry.lot}, not ${load.lot}`));
    if (entry.width !== load.width) {
      found.push(
        breach(
          [load.id, entry.id],
          `${entry.id} is ${words.length(entry.width)} wide, not ${words.length(load.width)}`,
        ),
      );
    }
  }
  for (const entry of instance.stock) {
    const used = usedOf.get(entry.id) ?? 0;
    if (used > entry.length) {
      found.push(breach([entry.id], `its loads use ${words.length(used)}; it holds ${words.length(entry.length)}`));
    }
  }
  for (const { id, newRolls } of instance.films) {
    const count = bought.get(id) ?? 0;
    if (newRolls !== null && count > newRolls)
      found.push(breach([id], `${count} new rolls are used; ${newRolls} may be bought`));
  }
  return found;
};
