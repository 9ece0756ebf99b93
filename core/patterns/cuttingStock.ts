import { boundedKnapsack } from "./boundedKnapsack.ts";
import { type ColumnProblem, type Pricing, type Relaxation, relax } from "./columnGeneration.ts";
import { greatestCommonDivisor } from "./exactKnapsack.ts";
import type { Column } from "./patternMaster.ts";

/** Items of one dimension to be cut from stock lengths, each stock without limit. Lengths and costs are whole numbers. */
export interface CuttingStock {
  readonly stocks: readonly { readonly length: number; readonly cost: number }[];
  readonly items: readonly { readonly length: number; readonly count: number }[];
}

export interface CuttingPlan {
  readonly cost: number;
  /** No plan costs less. */
  readonly bound: number;
  readonly patterns: readonly CuttingPattern[];
}

export interface CuttingPattern {
  readonly stock: number;
  readonly times: number;
  /** Of each item, in the order of the items. */
  readonly counts: readonly number[];
}

/** Columns asked for in one round: the best, and what is best without its items. */
const COLUMNS_A_ROUND = 6;
/** Columns used this often or more are rounded up together, before one at a time. */
const LIKELY = 0.6;
/** Of so many columns in use, one is rounded up at a time. */
const LIKELY_SHARE = 16;
/** Fixings made in all before the search ends with what it has. */
const MOST_FIXINGS = 100_000;

/**
 * Cuts items from stock at the least cost: a lower bound by column generation, then rounding down with the rest planned
 * again, looking back where a rounding loses the bound.
 *
 * @param stop true ends the search with the best plan so far
 * @returns a plan that meets every demand exactly; proven when cost equals bound
 * @throws RangeError naming the first item that is longer than every stock
 *
 * Bound: the relaxation over proper patterns, or the length of all items if that asks for more, rounded up to the next
 * multiple of the costs' greatest common divisor. Ties: first found; the same for the same input as long as `stop` stays
 * false. Guarantee: the bound holds; the least cost itself may be missed, more easily with several stock lengths.
 * Cost: each step solves one relaxation; at most 100,000 patterns are fixed in all, which large problems reach after hours.
 * Source of the method: Wäscher and Gau (1996), OR Spektrum 18(3), 131-144 (rounding of relaxed patterns, residual
 * problems); Harvey and Ginsberg (1995), Proceedings of IJCAI-95, 607-613 (limited discrepancy); class after Wäscher,
 * Haußner and Schumann (2007): cutting stock problem.
 */
export function solveCuttingStock(problem: CuttingStock, stop: () => boolean): CuttingPlan {
  const longest = Math.max(...problem.stocks.map(({ length }) => length));
  const misfit = problem.items.findIndex(({ length, count }) => count > 0 && length > longest);
  if (misfit >= 0) {
    throw new RangeError(`item ${misfit} is ${problem.items[misfit]?.length} long, the longest stock ${longest}`);
  }
  return new Cutter(problem, stop).plan();
}

interface State {
  readonly wanted: readonly number[];
  readonly cost: number;
  readonly patterns: readonly CuttingPattern[];
}

class Cutter {
  private readonly problem: CuttingStock;
  private readonly stop: () => boolean;
  private readonly unit: number;
  private readonly columns = new Map<string, Column>();
  private best: State | null = null;
  private bound = 0;
  private fixings = 0;
  /** Whether the last dive left out a choice for want of departures. */
  private turnedBack = false;

  constructor(problem: CuttingStock, stop: () => boolean) {
    this.problem = problem;
    this.stop = stop;
    this.unit = problem.stocks.reduce((divisor, { cost }) => greatestCommonDivisor(divisor, cost), 0);
  }

  plan(): CuttingPlan {
    const start: State = { wanted: this.problem.items.map(({ count }) => count), cost: 0, patterns: [] };
    this.complete(start);
    this.bound = this.reachable(Math.max(this.relaxed(start.wanted)?.bound ?? 0, this.filled()));
    for (let departures = 0; !this.done(); departures++) {
      this.turnedBack = false;
      this.dive(start, departures);
      if (!this.turnedBack) break;
    }
    const { cost, patterns } = this.best as State;
    return { cost, bound: Math.min(this.bound, cost), patterns: merged(patterns) };
  }

  /** What the items cost at the price of the stock that is cheapest for its length, without any waste. */
  private filled(): number {
    const { stocks, items } = this.problem;
    const all = items.reduce((sum, { length, count }) => sum + length * count, 0);
    return Math.min(...stocks.map(({ length, cost }) => (all * cost) / length));
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
      patterns: [...patterns, { stock: column.stock, times: most, counts }],
    };
  }

  /** Ends a plan by filling one stock length after another as fully as it will go, longest item first. */
  private complete(state: State): void {
    let rest = state;
    while (rest.wanted.some((count) => count > 0)) {
      if (this.best !== null && rest.cost >= this.best.cost) return;
      const column = this.fullest(rest.wanted);
      this.keep(column);
      rest = this.fixed(rest, column, Infinity);
    }
    if (this.best === null || rest.cost < this.best.cost) this.best = rest;
  }

  /** A pattern with the longest item wanted, of the stock that then costs least for each unit of length filled. */
  private fullest(wanted: readonly number[]): Column {
    const { stocks, items } = this.problem;
    const first = items.reduce((best, { length }, i) => {
      if ((wanted[i] as number) === 0) return best;
      return best < 0 || length > (items[best] as { length: number }).length ? i : best;
    }, -1);
    const need = (items[first] as { length: number }).length;
    const fillings = stocks.flatMap(({ length, cost }, stock) => {
      if (length < need) return [];
      const left = items.map((item, i) => ({
        size: item.length,
        value: item.length,
        most: (wanted[i] as number) - (i === first ? 1 : 0),
      }));
      const { value, counts } = boundedKnapsack(left, length - need);
      const full = counts.map((count, i) => count + (i === first ? 1 : 0));
      return [{ filled: value + need, column: columnOf(full, cost, stock) }];
    });
    return fillings.reduce((a, b) => (b.column.cost * a.filled < a.column.cost * b.filled ? b : a)).column;
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
    const { stocks, items } = this.problem;
    const most = rows.map((item) => wanted[item] as number);
    const sizes = rows.map((item) => (items[item] as { length: number }).length);
    const known = new Map<string, Column>();
    for (const { cost, stock, entries } of this.columns.values()) {
      const inRows = entries.flatMap(({ item, count }) => {
        const row = rowOf.get(item);
        return row === undefined ? [] : [{ item: row, count: Math.min(count, most[row] as number) }];
      });
      const column = { cost, stock, entries: inRows };
      if (inRows.length > 0) known.set(keyOf(column), column);
    }
    return {
      demands: most,
      singles: sizes.map((size, row) => cheapestSingle(stocks, size, row, most[row] as number)),
      known: [...known.values()],
      price: (duals) => priced(stocks, sizes, most, duals),
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

function priced(
  stocks: CuttingStock["stocks"],
  sizes: readonly number[],
  most: readonly number[],
  duals: Float64Array,
): Pricing {
  const columns: Column[] = [];
  let mostPerCost = 0;
  for (const [stock, { length, cost }] of stocks.entries()) {
    const values = [...duals];
    for (let round = 0; round < COLUMNS_A_ROUND; round++) {
      const items = sizes.map((size, i) => ({ size, value: values[i] as number, most: most[i] as number }));
      const { value, most: atMost, counts } = boundedKnapsack(items, length);
      if (round === 0) mostPerCost = Math.max(mostPerCost, atMost / cost);
      if (value <= 0) break;
      columns.push(columnOf(counts, cost, stock));
      for (const [i, count] of counts.entries()) if (count > 0) values[i] = 0;
    }
  }
  return { columns, mostPerCost };
}

function cheapestSingle(stocks: CuttingStock["stocks"], size: number, item: number, most: number): Column {
  const singles = stocks.flatMap(({ length, cost }, stock) => {
    const count = Math.min(most, Math.floor(length / size));
    return count > 0 ? [{ cost, stock, entries: [{ item, count }] }] : [];
  });
  return singles.reduce((a, b) => {
    const each = (column: Column) => column.cost / (column.entries[0]?.count ?? 1);
    return each(b) < each(a) ? b : a;
  });
}

function columnOf(counts: readonly number[], cost: number, stock: number): Column {
  return { cost, stock, entries: counts.flatMap((count, item) => (count > 0 ? [{ item, count }] : [])) };
}

const keyOf = ({ stock, entries }: Column): string =>
  `${stock}:${entries.map(({ item, count }) => `${item}x${count}`).join(",")}`;

function merged(patterns: readonly CuttingPattern[]): CuttingPattern[] {
  const byCounts = new Map<string, CuttingPattern>();
  for (const pattern of patterns) {
    const key = `${pattern.stock}:${pattern.counts.join(",")}`;
    const times = pattern.times + (byCounts.get(key)?.times ?? 0);
    byCounts.set(key, { ...pattern, times });
  }
  return [...byCounts.values()];
}
