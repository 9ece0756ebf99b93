import { longestLoad } from "./choosing/rollWidths.ts";
import type { Direction, Film, Instance, Section } from "./model/instance.ts";
import type { Plan, Shortfall } from "./model/plan.ts";
import { printableWidth } from "./model/printableWidth.ts";
import type { Run } from "./model/run.ts";
import { seamGrid } from "./panelling/sectionTask.ts";
import { shortfallChoices } from "./shortfallChoices.ts";
import { VariantPlanner } from "./shortfallPlans.ts";
import { restOf } from "./shortfallRests.ts";
import type { Ticks } from "./units/ticks.ts";

/** At most so many are told: the plan is read by people. */
const MOST_TOLD = 40;
/** Effort (see `VariantPlanner`) after which no further shortfall is looked at: a second or two. */
const MOST_EFFORT = 500;
/** A rest is worth a word when it is less than this share of a panel; a third is our own choice. */
const SMALL_REST = 1 / 3;

/**
 * Where full panels leave a small rest of a section bare, and what the ways to make up for it come to: one panel more, a
 * wider roll, the other direction, a strip of the same print along the short edge, a strip of other film there. Each is
 * planned for real, for one copy of the elevation alone with all the job's film and stock, and told where it has a plan.
 *
 * @param plan the plan made of the job: the roll width it chose is looked at first
 * @param run `stop` ends the look-out with what was found
 * @returns by elevation (those that mirror none) and section in the job's order, the chosen roll width first, then
 *   narrowest first, vertical panels before horizontal ones; choices in the order named above
 * @throws Error when a plan made here breaks a rule of the contract: a fault of this program, never of the job
 *
 * Without chance or clock: same job, same answer, unless it is stopped. Time: milliseconds for a bare wall, some tenths of
 * a second for a vehicle's flank full of windows and lettering; counted effort keeps the whole to a second or two.
 */
export function shortfalls(instance: Instance, plan: Pick<Plan, "layouts" | "chosen">, run: Run): Shortfall[] {
  const chosen = plan.layouts.find(({ id }) => id === plan.chosen)?.rollWidth ?? null;
  const grid = seamGrid(instance.unit);
  const found: Shortfall[] = [];
  let effort = 0;
  for (const elevation of instance.elevations) {
    if (elevation.mirrorOf !== null) continue;
    const film = instance.films.find(({ id }) => id === elevation.film) as Film;
    const planner = new VariantPlanner(instance, elevation, run);
    for (const { section, rollWidth, direction } of placesIn(instance, elevation.sections, film, chosen)) {
      if (run.stop() || found.length >= MOST_TOLD || effort + planner.effort >= MOST_EFFORT) return found;
      const across = Math.min(printableWidth(film, rollWidth), section.maxAcross ?? Infinity);
      const rest = restOf(instance, elevation, section, direction, across);
      if (rest === null || !(rest.short < across * SMALL_REST)) continue;
      const deepest = Math.floor((across * SMALL_REST) / grid) * grid;
      const place = { elevation, film, section, rollWidth, direction, deepest };
      const choices = shortfallChoices(instance, place, rest, planner);
      // A search broken off may have missed the better choice.
      if (run.stop()) return found;
      const { panels, short } = rest;
      if (choices.length > 0) {
        found.push({ elevation: elevation.id, section: section.id, rollWidth, direction, panels, short, choices });
      }
    }
    effort += planner.effort;
  }
  return found;
}

/** Every section on every width that its film can be had in, the chosen one first, in every direction open to it. */
function placesIn(
  instance: Instance,
  sections: readonly Section[],
  film: Film,
  chosen: Ticks | null,
): { section: Section; rollWidth: Ticks; direction: Direction }[] {
  const toBeHad = film.rollWidths.filter((width) => longestLoad(instance, film, width) > 0);
  const widths = [...toBeHad.filter((width) => width === chosen), ...toBeHad.filter((width) => width !== chosen)];
  return sections.flatMap((section) =>
    widths.flatMap((rollWidth) => directionsOf(section).map((direction) => ({ section, rollWidth, direction }))),
  );
}

const directionsOf = ({ direction }: Section): readonly Direction[] =>
  direction === "either" ? ["vertical", "horizontal"] : [direction];
