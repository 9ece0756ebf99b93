import { type ColumnProblem, type Pricing, type Relaxation, relax } from "../patterns/columnGeneration.ts";
import { type Column, reducedCost } from "../patterns/patternMaster.ts";
import type { ProgrammeEngine } from "../programme/programme.ts";
import { cutsRoundPieces, lengthOf, type PricedCut, priceCuts } from "./cutPricing.ts";
import { fillCuts, straight } from "./fillCuts.ts";
import { type CutPattern, type Place, type Room, type Size, totalLength } from "./sizes.ts";

/** How hard a search by patterns may try. */
export interface PatternEffort {
  /** Times that prices are asked for better cuts; what the search costs, counted so that it repeats on any machine. */
  readonly steps: number;
  /** For the choice among the cuts found; left out, rounding alone makes them whole. */
  readonly engine?: ProgrammeEngine | undefined;
  readonly stop: () => boolean;
}

export interface PatternNesting {
  readonly patterns: readonly CutPattern[];
  /**
   * No nesting in guillotine cuts of three stages takes less length, each cut counted with one gap; 0 when the search
   * ended before anything was proven. No bound for all nestings: the pieces of a cut need not come apart by straight cuts.
   */
  readonly relaxed: number;
}

/** Cuts that the choice among cuts may look at, and the branches it may take. */
const MOST_CHOICES = 400;
const MOST_BRANCHES = 2_000;
/** Times that the rounding may leave the most likely cut for the next. */
const MOST_DEPARTURES = 2;
/** Cuts used this often or more are rounded up together where there are many. */
const LIKELY = 0.6;
const LIKELY_SHARE = 12;
/** Of the steps the first relaxation may take so much; the rest is for rounding. */
const ROOT_SHARE = 0.6;
/** Lengths within this share of each other are equal. */
const SAME = 1e-7;

/**
 * Nests counted pieces by column generation: which cuts to use how often is a linear programme, its prices find better
 * cuts, and what it uses in part is made whole by rounding down and planning the rest again.
 *
 * @param sizes those that are not due are left out of it
 * @param start a nesting of all due pieces; its cuts are known from the start, and the answer is never longer
 * @returns cuts that hold every due piece once, and the value of the relaxation
 *
 * The cuts priced are those of `priceCuts` and `cutsRoundPieces`. Where rounding, with a limited number of departures
 * from the most used cut, stays above the relaxation, an integer programme over the cuts found is asked, if an engine is
 * at hand. Of equal lengths the nesting with fewer cuts. Equal input gives equal output.
 * Source of the method: Gilmore and Gomory (1965), Operations Research 13(1), 94-120; Wäscher and Gau (1996), OR Spektrum
 * 18(3), 131-144 (rounding and residual problems).
 */
export function nestByPatterns(
  sizes: readonly Size[],
  room: Room,
  start: readonly CutPattern[],
  effort: PatternEffort,
): PatternNesting {
  return new PatternSearch(sizes, room, start, effort).nesting();
}

interface State {
  /** By size. */
  readonly wanted: readonly number[];
  readonly length: number;
  readonly patterns: readonly CutPattern[];
}

class PatternSearch {
  private readonly sizes: readonly Size[];
  private readonly room: Room;
  private readonly effort: PatternEffort;
  /** Costs are lengths in this unit, so that they are of the order of one. */
  private readonly unit: number;
  /** A column names its cut by its place here. */
  private readonly cuts: PricedCut[] = [];
  private readonly cutAt = new Map<string, number>();
  private best: readonly CutPattern[];
  private bestLength: number;
  private target = 0;
  private steps = 0;
  /** Whether every pricing so far found the very best. */
  private exact = true;

  constructor(sizes: readonly Size[], room: Room, start: readonly CutPattern[], effort: PatternEffort) {
    this.sizes = sizes;
    this.room = room;
    this.effort = effort;
    this.best = start.flatMap((pattern) => {
      const places = pattern.places.filter(({ size }) => sizes[size]?.due);
      return places.length === 0 ? [] : [{ length: lengthOf(places), places, times: pattern.times }];
    });
    this.bestLength = totalLength(this.best, room.gap);
    this.unit = Math.max(...sizes.flatMap(({ shapes }) => shapes.map(({ along }) => along + room.gap)));
    for (const { places } of this.best) this.know(places);
  }

  nesting(): PatternNesting {
    const wanted = this.sizes.map(({ count, due }) => (due ? count : 0));
    const root = this.relaxed(wanted, Math.ceil(ROOT_SHARE * this.effort.steps));
    if (root === null) return { patterns: this.best, relaxed: 0 };
    this.target = root.bound * this.unit;
    const relaxed = this.exact ? this.target : 0;
    const start: State = { wanted, length: 0, patterns: [] };
    for (let departures = 0; departures <= MOST_DEPARTURES && !this.done(); departures++) {
      this.dive(start, root, departures);
    }
    if (!this.done()) this.choose(wanted, root);
    return { patterns: this.best, relaxed };
  }

  private done(): boolean {
    return this.bestLength <= this.target * (1 + SAME) || this.steps >= this.effort.steps || this.effort.stop();
  }

  /** Fixes whole uses, rounds one use up where there are none, and plans the rest again. */
  private dive(state: State, relaxation: Relaxation, departures: number): void {
    const floors = relaxation.uses.filter(({ times }) => times >= 1 - 1e-6);
    if (floors.length > 0) {
      const fixed = floors.reduce((s, { column, times }) => this.fixed(s, column, Math.floor(times + 1e-6)), state);
      return this.diveOn(fixed, departures);
    }
    for (const [choice, columns] of choices(relaxation).entries()) {
      if (choice > departures || this.done()) return;
      const next = columns.reduce((s, column) => this.fixed(s, column, 1), state);
      this.diveOn(next, departures - choice);
    }
  }

  private diveOn(state: State, departures: number): void {
    this.complete(state);
    if (this.done()) return;
    const relaxation = this.relaxed(state.wanted);
    if (relaxation === null || state.length + relaxation.bound * this.unit >= this.bestLength * (1 - SAME)) return;
    this.dive(state, relaxation, departures);
  }

  /** Uses a cut as often as all it holds is wanted, at most `times`; what is no longer wanted of it is left out. */
  private fixed(state: State, column: Column, times: number): State {
    const places = this.trimmed(this.cuts[column.stock] as PricedCut, state.wanted);
    if (places.length === 0) return state;
    const left = [...state.wanted];
    const held = countsOf(places);
    let most = times;
    for (const [size, count] of held) most = Math.min(most, Math.floor((left[size] as number) / count));
    for (const [size, count] of held) left[size] = (left[size] as number) - most * count;
    const length = lengthOf(places);
    return {
      wanted: left,
      length: state.length + most * (length + this.room.gap),
      patterns: [...state.patterns, { length, places, times: most }],
    };
  }

  /** Ends a nesting by first fit, and keeps it when it is shorter than the best, or as short with fewer cuts. */
  private complete({ wanted, patterns }: State): void {
    const rest = wanted.some((count) => count > 0) ? fillCuts(this.sizes, wanted, this.room, straight) : [];
    this.offer([...patterns, ...rest]);
    for (const { places } of rest) this.know(places);
  }

  private offer(patterns: readonly CutPattern[]): void {
    const length = totalLength(patterns, this.room.gap);
    if (length > this.bestLength || (length === this.bestLength && cutCount(patterns) >= cutCount(this.best))) return;
    this.best = patterns;
    this.bestLength = length;
  }

  /** The relaxation for what is wanted; null when nothing is. Its columns hold rows of the sizes wanted. */
  private relaxed(wanted: readonly number[], mostSteps = this.effort.steps): Relaxation | null {
    const rows = wanted.flatMap((count, size) => (count > 0 ? [size] : []));
    if (rows.length === 0) return null;
    const rowOf = new Map(rows.map((size, row) => [size, row]));
    const column = (index: number): Column => this.columnOf(index, wanted, rowOf);
    const known = [...this.cuts.keys()].map(column).filter(({ entries }) => entries.length > 0);
    const problem: ColumnProblem = {
      demands: rows.map((size) => wanted[size] as number),
      singles: rows.map((size) => column(this.single(size, wanted[size] as number))),
      known,
      price: (duals) => this.priced(wanted, rows, duals, column),
    };
    return relax(problem, (bound, cost) => this.steps >= mostSteps || this.effort.stop() || bound >= cost * (1 - SAME));
  }

  private priced(
    wanted: readonly number[],
    rows: readonly number[],
    duals: Float64Array,
    column: (index: number) => Column,
  ): Pricing {
    this.steps++;
    const price = new Float64Array(wanted.length);
    for (const [row, size] of rows.entries()) price[size] = (duals[row] as number) * this.unit;
    const question = { sizes: this.sizes, counts: wanted };
    const { cuts, mostPerLength, exact } = priceCuts(question, price, this.room);
    this.exact &&= exact;
    const helpful = (offered: readonly PricedCut[]) =>
      offered.map(({ places }) => column(this.know(places))).filter((each) => reducedCost(each, duals) < -SAME);
    const columns = helpful(cuts);
    // Where few are wanted of each size the best cuts repeat pieces too often, and what is left of them helps no more.
    if (columns.length === 0) columns.push(...helpful(cutsRoundPieces(question, price, this.room)));
    return { columns, mostPerCost: mostPerLength };
  }

  /** The place of a cut in the list, where it is added unless known. */
  private know(places: readonly Place[]): number {
    const key = places.map(({ size, shape, x, y }) => `${size} ${shape.turn} ${x} ${y}`).join(",");
    const known = this.cutAt.get(key);
    if (known !== undefined) return known;
    this.cutAt.set(key, this.cuts.length);
    return this.cuts.push({ length: lengthOf(places), places }) - 1;
  }

  /** A cut of one size alone: as many side by side as are wanted and fit. */
  private single(size: number, wanted: number): number {
    const { shapes } = this.sizes[size] as Size;
    const shape = shapes.reduce((a, b) => (b.along < a.along ? b : a));
    const wide = shape.across + this.room.gap;
    const many = Math.min(wanted, Math.floor((this.room.width + this.room.gap) / wide));
    return this.know(Array.from({ length: many }, (_, i) => ({ size, shape, x: i * wide, y: 0 })));
  }

  /** A cut as a column: its length for the price of what is wanted of it. */
  private columnOf(index: number, wanted: readonly number[], rowOf: ReadonlyMap<number, number>): Column {
    const places = this.trimmed(this.cuts[index] as PricedCut, wanted);
    const entries = [...countsOf(places)].map(([size, count]) => ({ item: rowOf.get(size) as number, count }));
    return { cost: (lengthOf(places) + this.room.gap) / this.unit, stock: index, entries };
  }

  private trimmed({ places }: PricedCut, wanted: readonly number[]): readonly Place[] {
    const taken = new Map<number, number>();
    const kept = places.filter(({ size }) => {
      const count = (taken.get(size) ?? 0) + 1;
      taken.set(size, count);
      return count <= (wanted[size] as number);
    });
    return kept.length === places.length ? places : kept;
  }

  /** Asks for the best whole uses of the cuts found, those first that the relaxation's prices like best. */
  private choose(wanted: readonly number[], root: Relaxation): void {
    const { engine } = this.effort;
    if (engine === undefined) return;
    const rows = wanted.flatMap((count, size) => (count > 0 ? [size] : []));
    const rowOf = new Map(rows.map((size, row) => [size, row]));
    const columns = [...this.cuts.keys()]
      .map((index) => this.columnOf(index, wanted, rowOf))
      .map((column) => ({ column, reduced: reducedCost(column, root.duals) }))
      .sort((a, b) => a.reduced - b.reduced || a.column.stock - b.column.stock)
      .slice(0, MOST_CHOICES)
      .map(({ column }) => column);
    const terms = rows.map((): { variable: number; coefficient: number }[] => []);
    for (const [variable, { entries }] of columns.entries()) {
      for (const { item, count } of entries)
        (terms[item] as (typeof terms)[number]).push({ variable, coefficient: count });
    }
    const answer = engine(
      {
        variables: columns.map(({ cost }) => ({ cost, whole: true })),
        rows: rows.map((size, row) => ({
          terms: terms[row] as (typeof terms)[number],
          least: wanted[size] as number,
          most: null,
        })),
      },
      { nodes: MOST_BRANCHES },
    );
    if (answer.status !== "optimal" && answer.status !== "feasible") return;
    let state: State = { wanted, length: 0, patterns: [] };
    for (const [variable, times] of answer.values.entries()) {
      // Beyond what is wanted a cut is used again with what is left out: so it may take several steps.
      for (let uses = times; uses > 0; ) {
        const before = state.patterns.length;
        state = this.fixed(state, columns[variable] as Column, uses);
        if (state.patterns.length === before) break;
        uses -= (state.patterns.at(-1) as CutPattern).times;
      }
    }
    this.complete(state);
  }
}

function countsOf(places: readonly Place[]): Map<number, number> {
  const counts = new Map<number, number>();
  for (const { size } of places) counts.set(size, (counts.get(size) ?? 0) + 1);
  return counts;
}

const cutCount = (patterns: readonly CutPattern[]): number => patterns.reduce((sum, { times }) => sum + times, 0);

/** Ways on from a relaxation without whole uses: one cut rounded up, the most used first; of many, first several at once. */
function choices({ uses }: Relaxation): Column[][] {
  const sorted = [...uses].sort((a, b) => b.times - a.times);
  const likely = sorted.filter(({ times }) => times >= LIKELY).slice(0, Math.floor(sorted.length / LIKELY_SHARE));
  const single = sorted.map(({ column }) => [column]);
  return likely.length > 1 ? [likely.map(({ column }) => column), ...single] : single;
}
