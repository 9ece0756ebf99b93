import type { Violation } from "../../model/violation.ts";
import { breachOf, type LayoutCheck } from "../check.ts";
import { copyGroups } from "../lots.ts";

const breach = breachOf("warningsGiven");

/**
 * Warns where the contract asks for it: one elevation in two directions on one-way film (rule 18), and one copy on
 * several new rolls (rule 23). A warning counts when it names the elevation, the subject or the film by id or name. That
 * a roll width has no plan at all can't be seen in a plan.
 */
export const warningsGiven: LayoutCheck = (view) => {
  const { job, layout } = view;
  const found: Violation[] = [];
  const warned = (ids: readonly string[]): boolean =>
    layout.warnings.some((warning) => ids.some((id) => id !== "" && warning.includes(id)));
  const filmWords = (film: string): string[] => [film, job.films.get(film)?.name ?? ""];
  for (const { elevation } of job.elevations.values()) {
    for (const film of job.instance.films.filter(({ lay }) => lay === "one-way")) {
      const panels = layout.panels.filter((panel) => panel.elevation === elevation.id && panel.film === film.id);
      if (new Set(panels.map(({ direction }) => direction)).size < 2) continue;
      if (!warned([elevation.id, elevation.name, ...filmWords(film.id)])) {
        found.push(breach([elevation.id, film.id], "it mixes directions on one-way film, and no warning says so"));
      }
    }
  }
  const told = new Set<string>();
  for (const { name, copy, film, loads, elevations } of copyGroups(view)) {
    const newLoads = [...loads].filter(({ stock }) => stock === null);
    if (newLoads.length < 2 || told.has(`${name}/${film}`)) continue;
    told.add(`${name}/${film}`);
    if (!warned([name, ...elevations, ...filmWords(film)])) {
      found.push(breach([name, film], `copy ${copy} spans ${newLoads.length} new rolls, and no warning says so`));
    }
  }
  return found;
};
