import type { Film } from "../../model/instance.ts";
import type { Shortfall, ShortfallChoice } from "../../model/plan.ts";
import { breachOf, type PlanCheck } from "../check.ts";
import { fullPanelsIn } from "../fullPanels.ts";
import type { Job } from "../job.ts";
import { bareView } from "../layoutView.ts";
import { SLOPE_TICKS } from "../tolerance.ts";

const breach = breachOf("shortfallsRight");

/**
 * Where full panels are said to fall short they do, by as much as is said, and each way to make up for it is told once and
 * in its own terms. What a way comes to was planned apart; of that only what can't be so at all is refused.
 */
export const shortfallsRight: PlanCheck = (job, plan) => {
  const seen = new Set<string>();
  return (plan.shortfalls ?? []).flatMap((shortfall) => {
    const { elevation, section, rollWidth, direction } = shortfall;
    const at = [elevation, section];
    const key = JSON.stringify([elevation, section, rollWidth, direction]);
    const again = seen.has(key) ? [breach(at, "the same shortfall is told twice")] : [];
    seen.add(key);
    const own = job.elevations.get(elevation);
    const film = job.films.get(own?.elevation.film ?? "");
    if (own === undefined || film === undefined) {
      return [...again, breach(at, `the job has no elevation ${elevation} to fall short on`)];
    }
    return [
      ...again,
      ...restFaults(job, shortfall, film).map((says) => breach(at, says)),
      ...shortfall.choices.flatMap((choice, i) =>
        choiceFaults(job, shortfall, choice, film, i).map((says) => breach([...at, choice.way], says)),
      ),
    ];
  });
};

const ways: readonly string[] = [
  "onePanelMore",
  "widerRoll",
  "otherDirection",
  "fillSameFilm",
  "fillOtherFilm",
] satisfies readonly ShortfallChoice["way"][];

function restFaults(job: Job, shortfall: Shortfall, film: Film): string[] {
  const { rollWidth, direction } = shortfall;
  const { words, instance } = job;
  const own = job.elevations.get(shortfall.elevation);
  if (own === undefined) return [];
  const view = bareView(job, own);
  const section = view.sections.find(({ id }) => id === shortfall.section);
  if (section === undefined) return [`elevation ${shortfall.elevation} has no section ${shortfall.section}`];
  if (!film.rollWidths.includes(rollWidth)) return [`film ${film.id} does not come ${words.length(rollWidth)} wide`];
  if (direction !== "vertical" && direction !== "horizontal") return [`no panels run ${JSON.stringify(direction)}`];
  if (section.direction !== "either" && section.direction !== direction) {
    return [`panels of ${section.id} may not run ${direction}`];
  }
  const printable = rollWidth - 2 * film.edgeMargin;
  const across = Math.min(printable, film.laminateWidth ?? Infinity, section.maxAcross ?? Infinity);
  // Each side of a seam has half the overlap, rounded up.
  const overlap = section.butted ? 0 : instance.rules.overlap;
  const shared = 2 * Math.ceil(overlap / 2);
  const due = fullPanelsIn(view, section, direction === "vertical" ? "x" : "y", across, shared);
  if (due === null || due.panels === 0) return ["full panels don't fall short here"];
  const off = Math.abs(shortfall.short - due.short);
  const allowed = (due.rounded ? SLOPE_TICKS : 0) + due.panels * (shared - overlap);
  if (shortfall.panels === due.panels && shortfall.short > 0 && off <= allowed) return [];
  const stated = `${shortfall.panels} full panels are said to leave ${words.length(shortfall.short)} bare`;
  return [`${stated}; it is ${due.panels} that leave ${words.length(due.short)}`];
}

function choiceFaults(
  { films, words }: Job,
  { rollWidth, choices }: Shortfall,
  choice: ShortfallChoice,
  film: Film,
  index: number,
): string[] {
  const faults: string[] = [];
  const { way } = choice;
  if (!ways.includes(way)) return [`${JSON.stringify(way)} is none of ${ways.join(", ")}`];
  if (choices.findIndex((other) => other.way === way) !== index) faults.push("this way is told twice");
  if (choice.says.trim() === "") faults.push("nothing is said of it");
  const filmDue =
    way === "fillSameFilm"
      ? choice.film === film.id
      : way === "fillOtherFilm"
        ? choice.film !== null && choice.film !== film.id && films.has(choice.film)
        : choice.film === null;
  if (!filmDue) faults.push(`its strip is said to be of film ${choice.film}`);
  const widthDue =
    way === "widerRoll"
      ? choice.rollWidth > rollWidth && film.rollWidths.includes(choice.rollWidth)
      : choice.rollWidth === rollWidth;
  if (!widthDue) faults.push(`it is said to lie on ${words.length(choice.rollWidth)}`);
  if (choice.panels < 1) faults.push(`it is said to take ${choice.panels} panels`);
  for (const name of ["seamLength", "filmArea", "cost"] as const) {
    if (choice[name] < 0) faults.push(`its ${name} is less than nothing`);
  }
  if (choice.wastePercent > 100) faults.push("more than all film is said to be wasted");
  return faults;
}
