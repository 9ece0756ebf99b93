import { type ColumnProblem, type Pricing, type Relaxation, relax } from "./columnGeneration.ts";
import { greatestCommonDivisor } from "./exactKnapsack.ts";
import type { Column } from "./patternMaster.ts";

/** A covering of whole demands by columns, as rounding sees it. Costs are whole numbers. */
export interface RoundingProblem {
  readonly demands: readonly number[];
  /** Every cost that a column can have. */
  readonly costs: readonly number[];
  /** A limit that no solution costs less than, whatever the relaxation says. */
  readonly atLeast: number;
  /** The best column of one item alone, at most `most` of it, under the name `row`. */
  readonly single: (item: number, row: number, most: number) => Column;
  /** Columns worth most at the prices of the rows; row r is item `rows[r]`, wanted `most[r]` times, and entries name rows. */
  readonly price: (rows: readonly number[], most: readonly number[], duals: Float64Array) => Pricing;
  /** One good column of what is still wanted, none of it beyond that, never empty. */
  readonly fullest: (wanted: readonly number[]) => Column;
}

export interface RoundedPlan {
  readonly cost: number;
  /** No plan costs less. */
  readonly bound: number;
  readonly patterns: readonly RoundedPattern[];
}

export interface RoundedPattern {
  readonly column: Column;
  readonly times: number;
  /** Of each item; never more than the column holds. */
  readonly counts: readonly number[];
}

/** Columns used this often or more are rounded up together, before one at a time. */
const LIKELY = 0.6;
/** Of so many columns in use, one is rounded up at a time. */
const LIKELY_SHARE = 16;
/** Fixings made in all before the search ends with what it has. */
const MOST_FIXINGS = 100_000;

/**
 * Meets every demand at the least cost: a lower bound by column generation, then rounding down with the rest planned again,
 * looking back where a rounding loses the bound.
 *
 * @param stop true ends the search with the best plan so far
 * @returns a plan that meets every demand exactly; proven when cost equals bound
 *
 * Bound: the relaxation over the columns that pricing knows, or `atLeast` if that asks for more, rounded up to the next
 * multiple of the costs' greatest common divisor. Ties: first found. Cost: each step solves one relaxation; at most 100,000
 * patterns are fixed in all.
 * Source: Wäscher and Gau (1996), OR Spektrum 18(3), 131-144 (rounding of relaxed patterns, residual problems); Harvey and
 * Ginsberg (1995), Proceedings of IJCAI-95, 607-613 (limited discrepancy).
 */
export function roundColumns(problem: RoundingProblem, stop: () => boolean): RoundedPlan {
  return new Cutter(problem, stop).plan();
}

interface State {
  readonly wanted: readonly number[];
  readonly cost: number;
  readonly patterns: readonly RoundedPattern[];
}

class Cutter {
  private readonly problem: RoundingProblem;
  private readonly stop: () => boolean;
  private readonly unit: number;
  private readonly columns = new Map<string, Column>();
  private best: State | null = null;
  private bound = 0;
  private fixings = 0;
  /** Whether the last dive left out a choice for want of departures. */
  private turnedBack = false;

  constructor(problem: RoundingProblem, stop: () => boolean) {
    this.problem = problem;
    this.stop = stop;
    this.unit = problem.costs.reduce(greatestCommonDivisor, 0);
  }

  plan(): RoundedPlan {
    const start: State = { wanted: this.problem.demands, cost: 0, patterns: [] };
    this.complete(start);
    this.bound = this.reachable(Math.max(this.relaxed(start.wanted)?.bound ?? 0, this.problem.atLeast));
    for (let departures = 0; !this.done(); departures++) {
      this.turnedBack = false;
      this.dive(start, departures);
      if (!this.turnedBack) break;
    }
    const { cost, patterns } = this.best as State;
    return { cost, bound: Math.min(this.bound, cost), patterns: merged(patterns) };
  }

  /** The least cost at or above a bound that stock can add up to. */
  private reachable(bound: number): number {
    return Math.max(0, Math.ceil(bound / this.unit - 1e-6)) * this.unit;
  }

  private done(): boolean {
    return (this.best as State).cost <= this.bound || this.fixings >= MOST_FIXINGS || this.stop();
  }

  /**
   * Fixes whole uses of the relaxation, plans the rest again, and looks back where the rest costs more than is left: the
   * k-th choice of a node takes k of the departures allowed.
   */
  private dive(state: State, departures: number): void {
    this.complete(state);
    if (this.done()) return;
    const relaxation = this.relaxed(state.wanted);
    if (relaxation === null || state.cost + this.reachable(relaxation.bound) >= (this.best as State).cost) return;
    const floors = relaxation.uses.filter(({ times }) => times >= 1 - 1e-6);
    if (floors.length > 0) {
      const fixed = floors.reduce((s, { column, times }) => this.fixed(s, column, Math.floor(times + 1e-6)), state);
      return this.dive(fixed, departures);
    }
    for (const [choice, columns] of choices(relaxation).entries()) {
      if (choice > departures) {
        this.turnedBack = true;
        return;
      }
      const next = columns.reduce((s, column) => (this.wholly(s, column) ? this.fixed(s, column, 1) : s), state);
      this.dive(next, departures - choice);
      if (this.done()) return;
    }
  }

  /** Whether all that a column holds is still wanted. */
  private wholly({ wanted }: State, { entries }: Column): boolean {
    return entries.every(({ item, count }) => count <= (wanted[item] as number));
  }

  /** Uses a column up to `times` times, as often as its items are wanted; what is not wanted of it is left out. */
  private fixed(state: State, column: Column, times: number): State {
    const { wanted, cost, patterns } = state;
    this.fixings++;
    const left = [...wanted];
    const counts = new Array<number>(wanted.length).fill(0);
    let most = times;
    for (const { item, count } of column.entries) {
      counts[item] = Math.min(count, left[item] as number);
      const enough = Math.floor((left[item] as number) / (counts[item] as number));
      if ((counts[item] as number) > 0) most = Math.min(most, enough);
    }
    if (counts.every((count) => count === 0)) return state;
    for (const [item, count] of counts.entries()) left[item] = (left[item] as number) - most * count;
    return {
      wanted: left,
      cost: cost + most * column.cost,
      patterns: [...patterns, { column, times: most, counts }],
    };
  }

  /** Ends a plan by filling one stock length after another as fully as it will go, longest item first. */
  private complete(state: State): void {
    let rest = state;
    while (rest.wanted.some((count) => count > 0)) {
      if (this.best !== null && rest.cost >= this.best.cost) return;
      const column = this.problem.fullest(rest.wanted);
      this.keep(column);
      rest = this.fixed(rest, column, Infinity);
    }
    if (this.best === null || rest.cost < this.best.cost) this.best = rest;
  }

  private relaxed(wanted: readonly number[]): Relaxation | null {
    const rows = wanted.flatMap((count, item) => (count > 0 ? [item] : []));
    if (rows.length === 0) return null;
    const rowOf = new Map(rows.map((item, row) => [item, row]));
    const relaxation = relax(this.columnProblem(wanted, rows, rowOf), (bound, cost) => {
      return this.stop() || this.reachable(bound) >= this.reachable(cost);
    });
    const inItems = (column: Column): Column => ({
      ...column,
      entries: column.entries.map(({ item, count }) => ({ item: rows[item] as number, count })),
    });
    for (const column of relaxation.columns) this.keep(inItems(column));
    return { ...relaxation, uses: relaxation.uses.map(({ column, times }) => ({ column: inItems(column), times })) };
  }

  private keep(column: Column): void {
    this.columns.set(keyOf(column), column);
  }

  private columnProblem(
    wanted: readonly number[],
    rows: readonly number[],
    rowOf: ReadonlyMap<number, number>,
  ): ColumnProblem {
    const most = rows.map((item) => wanted[item] as number);
    const known = new Map<string, Column>();
    for (const whole of this.columns.values()) {
      const inRows = whole.entries.flatMap(({ item, count }) => {
        const row = rowOf.get(item);
        return row === undefined ? [] : [{ item: row, count: Math.min(count, most[row] as number) }];
      });
      const column = { ...whole, entries: inRows };
      if (inRows.length > 0) known.set(keyOf(column), column);
    }
    return {
      demands: most,
      singles: rows.map((item, row) => this.problem.single(item, row, most[row] as number)),
      known: [...known.values()],
      price: (duals) => this.problem.price(rows, most, duals),
    };
  }
}

/** Ways on from a relaxation without whole uses: one column rounded up, the most used first; of many, first several at once. */
function choices({ uses }: Relaxation): Column[][] {
  const sorted = [...uses].sort((a, b) => b.times - a.times);
  const likely = sorted.filter(({ times }) => times >= LIKELY).slice(0, Math.floor(sorted.length / LIKELY_SHARE));
  const single = sorted.map(({ column }) => [column]);
  return likely.length > 1 ? [likely.map(({ column }) => column), ...single] : single;
}

const keyOf = ({ stock, entries }: Column): string =>
  `${stock}:${entries.map(({ item, count }) => `${item}x${count}`).join(",")}`;

function merged(patterns: readonly RoundedPattern[]): RoundedPattern[] {
  const byCounts = new Map<string, RoundedPattern>();
  for (const pattern of patterns) {
    const key = `${pattern.column.stock}:${pattern.counts.join(",")}`;
    const times = pattern.times + (byCounts.get(key)?.times ?? 0);
    byCounts.set(key, { ...pattern, times });
  }
  return [...byCounts.values()];
}
