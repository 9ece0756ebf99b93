import { boundedKnapsack } from "./boundedKnapsack.ts";
import type { Pricing } from "./columnGeneration.ts";
import type { Column } from "./patternMaster.ts";
import { roundColumns } from "./roundedColumns.ts";

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
  const { stocks, items } = problem;
  const lengths = items.map(({ length }) => length);
  const rounded = roundColumns(
    {
      demands: items.map(({ count }) => count),
      costs: stocks.map(({ cost }) => cost),
      atLeast: filled(problem),
      single: (item, row, most) => cheapestSingle(stocks, lengths[item] as number, row, most),
      price: (rows, most, duals) =>
        priced(
          stocks,
          rows.map((item) => lengths[item] as number),
          most,
          duals,
        ),
      fullest: (wanted) => fullest(problem, wanted),
    },
    stop,
  );
  const patterns = rounded.patterns.map(({ column, times, counts }) => ({ stock: column.stock, times, counts }));
  return { cost: rounded.cost, bound: rounded.bound, patterns };
}

/** What the items cost at the price of the stock that is cheapest for its length, without any waste. */
function filled({ stocks, items }: CuttingStock): number {
  const all = items.reduce((sum, { length, count }) => sum + length * count, 0);
  return Math.min(...stocks.map(({ length, cost }) => (all * cost) / length));
}

/** A pattern with the longest item wanted, of the stock that then costs least for each unit of length filled. */
function fullest({ stocks, items }: CuttingStock, wanted: readonly number[]): Column {
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
