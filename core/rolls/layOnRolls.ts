import type { Film, Instance } from "../model/instance.ts";
import type { Load, Panel } from "../model/plan.ts";
import type { Problem } from "../model/problem.ts";
import { type Run, seededRandom } from "../model/run.ts";
import type { ProgrammeEngine } from "../programme/programme.ts";
import type { Ticks } from "../units/ticks.ts";
import { lotGroups } from "./batches.ts";
import { loadChooser } from "./chooseLoads.ts";
import { type Bench, bestDraft, type Draft } from "./draft.ts";
import { finishedLoads } from "./finishedLoads.ts";
import { layFilm } from "./layFilm.ts";
import { layLoose } from "./layLoose.ts";
import { panelsThatFit, piecesThatFit, shortOfFilm } from "./shortage.ts";
import { looseStacks } from "./stacks.ts";
import { stockInstead } from "./stockInstead.ts";
import { supplyOf } from "./supply.ts";
import { layingWarnings } from "./warnings.ts";

/** Rounds of search in one nesting: enough for the usual few dozen cut patterns to settle. */
const ROUNDS = 60;

/**
 * Lays every panel, times the copies of its elevation, and every loose piece, times its count, on rolls in cuts across.
 *
 * @param panels of all elevations, each once
 * @param rollWidth full width for the panels of each film that offers it; null, or a film that does not offer it: the best
 *   of the film's own widths, one for all its panels
 * @param run `work` limits the rounds of search in one nesting; its random numbers seed them all
 * @param engine for programmes beyond the embedded engine; without it large choices among loads stay unproven
 * @param patternSteps of the search by column generation in each nesting; 0, for a first layout that comes soon, leaves it
 *   out
 * @returns loads numbered from "1", film by film in the job's order, lots together, neighbours next to one another; or
 *   every reason why pieces fit no roll
 *
 * Films do not compete for rolls, so each is laid by itself for least film area (see `layFilm`, `layLoose`); of equals the
 * one that spends less of new rolls. Time: cut patterns, not copies, are searched; 10,000 copies take a second or so.
 */
export function layOnRolls(
  instance: Instance,
  panels: readonly Panel[],
  rollWidth: Ticks | null,
  run: Run,
  engine?: ProgrammeEngine,
  patternSteps = 0,
): { rolls: readonly Load[]; warnings: readonly string[] } | { reasons: readonly Problem[] } {
  const seed = Math.floor(run.random() * 2 ** 31);
  const bench: Bench = {
    instance,
    chooseLoads: loadChooser(engine, run.stop),
    effort: () => ({
      rounds: Math.min(run.work ?? ROUNDS, ROUNDS),
      random: seededRandom(seed),
      stop: run.stop,
      ...(patternSteps > 0 ? { patterns: { steps: Math.min(run.work ?? patternSteps, patternSteps), engine } } : {}),
    }),
  };
  const reasons: Problem[] = [];
  const drafts: { film: Film; draft: Draft }[] = [];
  for (const film of instance.films) {
    const own = panels.filter((panel) => panel.film === film.id);
    const laid = layOneFilm(bench, film, own, rollWidth);
    if ("reasons" in laid) reasons.push(...laid.reasons);
    else drafts.push({ film, draft: laid });
  }
  if (reasons.length > 0) return { reasons };
  const rolls = finishedLoads(instance, drafts);
  return { rolls, warnings: layingWarnings(instance, panels, rolls) };
}

function layOneFilm(
  bench: Bench,
  film: Film,
  panels: readonly Panel[],
  rollWidth: Ticks | null,
): Draft | { reasons: readonly Problem[] } {
  const { instance } = bench;
  const supply = supplyOf(instance, film);
  const loose = looseStacks(instance, film);
  const reasons = piecesThatFit(instance, supply, loose);
  if (panels.length === 0) {
    if (reasons.length > 0) return { reasons };
    const draft = layLoose(bench, { loads: [], supply }, loose);
    return draft === null ? { reasons: [shortOfFilm(bench, supply, null, [])] } : stockInstead(draft, []);
  }
  const groups = lotGroups(instance, panels);
  const widths = rollWidth !== null && film.rollWidths.includes(rollWidth) ? [rollWidth] : film.rollWidths;
  const unfit = widths.map((width) => panelsThatFit(instance, supply, width, panels));
  const able = widths.filter((_, i) => unfit[i]?.length === 0);
  // Of several widths the widest says best what would be needed.
  if (able.length === 0) reasons.push(...(unfit.at(-1) ?? []));
  if (reasons.length > 0) return { reasons };
  const draft = bestDraft(able.map((width) => layFilm(bench, supply, width, groups, loose)));
  if (draft === null) return { reasons: [shortOfFilm(bench, supply, able.at(-1) as Ticks, groups)] };
  return stockInstead(draft, groups);
}
