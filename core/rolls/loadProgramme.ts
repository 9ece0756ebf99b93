import type { Programme, ProgrammeRow } from "../programme/programme.ts";
import type { Ticks } from "../units/ticks.ts";

/** Rolls alike that may be loaded. */
export interface Reel {
  readonly bought: boolean;
  /** Length still on each; Infinity where it does not end. */
  readonly left: Ticks;
  /** How many there are; Infinity without a limit. */
  readonly count: number;
}

export interface LoadQuestion {
  /** Of the cuts, each > 0; equal ones are counted, not told apart. */
  readonly lengths: readonly Ticks[];
  readonly gap: Ticks;
  /** Leader and trailer together, lost with every load. */
  readonly ends: Ticks;
  /** Longest load, ends included; Infinity without a limit. */
  readonly maxRun: Ticks;
  readonly reels: readonly Reel[];
  /** What is left on a reel once it is opened is scrap when shorter; null when nobody asks. */
  readonly keepLength: Ticks | null;
}

/** Cuts of one length, by their place in the question. */
export interface CutKind {
  readonly length: Ticks;
  readonly cuts: readonly number[];
}

/** One way to fill a load: a column, whose value is how many loads are filled so. */
export interface Filling {
  readonly reel: number;
  /** Cuts of each kind. */
  readonly counts: readonly number[];
  /** Leader, cuts with the gaps between, trailer. */
  readonly used: Ticks;
}

/** What is to be kept small. */
export type Wish = "loads" | "bought" | "scrap";

/** Every way to fill a load, and the rows that any choice among them keeps. */
export interface LoadProgramme {
  /** Longest first. */
  readonly kinds: readonly CutKind[];
  readonly fillings: readonly Filling[];
  readonly rows: readonly ProgrammeRow[];
}

/**
 * The choice of loads as a programme over every way to fill one (Gilmore and Gomory 1961, Operations Research 9(6),
 * 849-859, with all patterns written out): whole numbers of loads, each cut once, no more reels than there are. Unlike
 * an assignment of cuts to loads it knows no names for loads alike, and its relaxation is hardly ever a load short.
 *
 * @param mostFillings number of ways beyond which it is not made: those of few cuts a load are few, and the others are the
 * ones that heuristics fill
 * @returns null when there are more
 */
export function loadProgramme(question: LoadQuestion, mostFillings: number): LoadProgramme | null {
  const { lengths, maxRun, reels } = question;
  const kinds = kindsOf(lengths);
  const fillings: Filling[] = [];
  for (const reel of reels.keys()) {
    if (!addFillings(question, kinds, reel, fillings, mostFillings)) return null;
  }
  const sum = (amountOf: (filling: Filling) => number, least: number | null, most: number): ProgrammeRow => ({
    terms: fillings.flatMap((filling, variable) => {
      const coefficient = amountOf(filling);
      return coefficient === 0 ? [] : [{ variable, coefficient }];
    }),
    least,
    most,
  });
  return {
    kinds,
    fillings,
    rows: [
      ...kinds.map(({ cuts }, kind) => sum(({ counts }) => counts[kind] as number, cuts.length, cuts.length)),
      ...[...reels.entries()].flatMap(([reel, { bought, left, count }]) => {
        const on = (value: (filling: Filling) => number) => (filling: Filling) =>
          filling.reel === reel ? value(filling) : 0;
        // A bought reel is a load by itself. A stocked one is loaded again only where a run does not hold all of it.
        if (!bought && left > maxRun)
          return [
            sum(
              on(({ used }) => used / left),
              null,
              count,
            ),
          ];
        return count === Infinity
          ? []
          : [
              sum(
                on(() => 1),
                null,
                count,
              ),
            ];
      }),
    ],
  };
}

/** The programme of one wish, with the rows that keep what wishes before it have reached. */
export function programmeOf(
  { fillings, rows }: LoadProgramme,
  costs: readonly number[],
  reached: readonly ProgrammeRow[],
): Programme {
  return {
    variables: fillings.map((_, i) => ({ cost: costs[i] as number, whole: true })),
    rows: [...rows, ...reached],
  };
}

/**
 * What each filling counts for in a wish: one load; the share of all film that it takes of a bought reel; the share that
 * it leaves as scrap. null where nothing can be chosen.
 */
export function costsOf({ fillings }: LoadProgramme, question: LoadQuestion, wish: Wish): number[] | null {
  const { lengths, gap, ends, maxRun, reels, keepLength } = question;
  if (wish === "loads") return fillings.map(() => 1);
  const all = lengths.reduce((sum, length) => sum + length + gap, ends);
  const onBought = fillings.map(({ reel }) => reels[reel]?.bought === true);
  if (wish === "bought") {
    if (onBought.every((bought) => bought === onBought[0])) return null;
    return fillings.map(({ used }, i) => (onBought[i] ? used / all : 0));
  }
  if (keepLength === null) return null;
  const costs = fillings.map(({ reel, used }) => {
    const { bought, left } = reels[reel] as Reel;
    // What several loads of one reel leave is not the sum of what each leaves: not asked.
    if (left === Infinity || (!bought && left > maxRun)) return 0;
    return left - used < keepLength ? (left - used) / all : 0;
  });
  return costs.every((cost) => cost === costs[0]) ? null : costs;
}

function kindsOf(lengths: readonly Ticks[]): CutKind[] {
  const kinds = new Map<Ticks, number[]>();
  for (const [cut, length] of lengths.entries()) {
    const known = kinds.get(length);
    if (known === undefined) kinds.set(length, [cut]);
    else known.push(cut);
  }
  return [...kinds].map(([length, cuts]) => ({ length, cuts })).sort((a, b) => b.length - a.length);
}

/** Adds every filling of one reel; false when there are too many. */
function addFillings(
  { gap, ends, maxRun, reels }: LoadQuestion,
  kinds: readonly CutKind[],
  reel: number,
  fillings: Filling[],
  most: number,
): boolean {
  const { left } = reels[reel] as Reel;
  const longest = Math.min(left, maxRun);
  const counts = kinds.map(() => 0);
  const fill = (kind: number, used: Ticks): boolean => {
    if (kind === kinds.length) {
      if (used > ends - gap) fillings.push({ reel, counts: [...counts], used });
      return fillings.length <= most;
    }
    const { length, cuts } = kinds[kind] as CutKind;
    for (let count = 0; count <= cuts.length && used + count * (length + gap) <= longest; count++) {
      counts[kind] = count;
      if (!fill(kind + 1, used + count * (length + gap))) return false;
    }
    counts[kind] = 0;
    return true;
  };
  return fill(0, ends - gap);
}
