import { engineFor } from "../programme/engineFor.ts";
import type { ProgrammeEngine, ProgrammeRow } from "../programme/programme.ts";
import type { Ticks } from "../units/ticks.ts";
import {
  costsOf,
  type LoadProgramme,
  type LoadQuestion,
  loadProgramme,
  programmeOf,
  type Reel,
  type Wish,
} from "./loadProgramme.ts";

/** Which reel of the question, and which cuts by their place in the question, ascending. */
export interface ChosenLoad {
  readonly reel: number;
  readonly cuts: readonly number[];
}

export type LoadAnswer =
  | {
      readonly status: "packed";
      readonly loads: readonly ChosenLoad[];
      /** True when no way has fewer loads, nor one with as many takes less of bought reels, nor then leaves less scrap. */
      readonly proven: boolean;
    }
  /** Proven: there is no way with so few loads. */
  | { readonly status: "none" }
  /** Too large to ask, or given up. */
  | { readonly status: "unknown" };

/** Sizes beyond which no programme is asked, and the branches after which one gives up: a second or so at worst. */
const MOST_CUTS = 100;
const MOST_FILLINGS = 1_500;
const MOST_NODES = 200;

/** How far above what was reached the next wish may go: rounding must not shut out the very answer found. */
const HAIR = 1e-6;

const WISHES: readonly Wish[] = ["loads", "bought", "scrap"];

/**
 * Chooses the loads that hold all cuts: fewest loads, of equals least length from bought reels, then least scrap.
 *
 * @param fewest proven: no way has fewer loads
 * @param mostLoads no way with more is wanted; below the number of a known way, the answer "none" proves that way
 * @param engine for programmes beyond the embedded engine
 * @returns loads in the order of the reels; or that there is none; or that nobody can say
 *
 * The wishes are asked one after another, each as a programme that keeps what the ones before have reached (see
 * `loadProgramme`); every answer is held against the lengths in ticks. Deterministic: limits count branches, not time.
 */
export function chooseLoads(
  question: LoadQuestion,
  fewest: number,
  mostLoads: number,
  engine?: ProgrammeEngine,
): LoadAnswer {
  if (question.lengths.length > MOST_CUTS || fewest === Infinity) return { status: "unknown" };
  const programme = loadProgramme(question, MOST_FILLINGS);
  if (programme === null) return { status: "unknown" };
  const row = (costs: readonly number[], least: number | null, most: number): ProgrammeRow => ({
    terms: costs.map((coefficient, variable) => ({ variable, coefficient })),
    least,
    most,
  });
  const reached = [row(costsOf(programme, question, "loads") as number[], fewest, mostLoads)];
  let best: ChosenLoad[] | null = null;
  let proven = true;
  for (const wish of WISHES) {
    const costs = costsOf(programme, question, wish);
    if (costs === null) continue;
    const asked = programmeOf(programme, costs, reached);
    const outcome = engineFor(asked, engine)?.(asked, { nodes: MOST_NODES });
    if (outcome?.status === "infeasible" && best === null) return { status: "none" };
    const loads = outcome !== undefined && "values" in outcome ? loadsOf(programme, outcome.values) : null;
    if (outcome === undefined || !("values" in outcome) || loads === null || !holds(question, loads)) {
      return best === null ? { status: "unknown" } : { status: "packed", loads: best, proven: false };
    }
    best = loads;
    proven &&= outcome.status === "optimal";
    reached.push(row(costs, null, outcome.objective + HAIR));
  }
  return best === null ? { status: "unknown" } : { status: "packed", loads: best, proven };
}

/** Answers that one laying may ask for: beyond, what heuristics found stays as it is. */
const MOST_ASKED = 12;

export type LoadChooser = (question: LoadQuestion, fewest: number, mostLoads: number) => LoadAnswer;

/**
 * `chooseLoads` for one laying: the same question is answered once, and only so many are.
 *
 * @param stop true once the search should wind up
 */
export function loadChooser(engine: ProgrammeEngine | undefined, stop: () => boolean): LoadChooser {
  const answers = new Map<string, LoadAnswer>();
  return (question, fewest, mostLoads) => {
    const key = JSON.stringify([question, fewest, mostLoads]);
    const known = answers.get(key);
    if (known !== undefined) return known;
    if (answers.size === MOST_ASKED || stop()) return { status: "unknown" };
    const answer = chooseLoads(question, fewest, mostLoads, engine);
    answers.set(key, answer);
    return answer;
  };
}

/** The loads in use, with the first cuts of each kind on the first of them. */
function loadsOf({ kinds, fillings }: LoadProgramme, values: readonly number[]): ChosenLoad[] {
  const next = kinds.map(() => 0);
  return fillings.flatMap(({ reel, counts }, i) =>
    Array.from({ length: values[i] as number }, () => {
      const cuts = kinds.flatMap((kind, index) => {
        const from = next[index] as number;
        next[index] = from + (counts[index] as number);
        return kind.cuts.slice(from, next[index]);
      });
      return { reel, cuts: cuts.sort((a, b) => a - b) };
    }),
  );
}

/** Whether every cut lies on one load, and every load and reel holds what is on it, to the tick. */
function holds({ lengths, gap, ends, maxRun, reels }: LoadQuestion, loads: readonly ChosenLoad[]): boolean {
  const laid = loads.flatMap(({ cuts }) => cuts);
  if (laid.length !== lengths.length || new Set(laid).size !== lengths.length) return false;
  const uses = reels.map((): Ticks[] => []);
  for (const { reel, cuts } of loads) {
    uses[reel]?.push(cuts.reduce((sum, cut) => sum + (lengths[cut] as number) + gap, ends - gap));
  }
  return reels.every(({ bought, left, count }: Reel, reel) => {
    const own = uses[reel] as Ticks[];
    if (own.some((used) => used > Math.min(left, maxRun))) return false;
    if (bought || left <= maxRun) return own.length <= count;
    return count === 1 && own.reduce((sum, used) => sum + used, 0) <= left;
  });
}
