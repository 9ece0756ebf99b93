import { bestStrips } from "./bestStrips.ts";
import type { Pricing } from "./columnGeneration.ts";
import type { Column } from "./patternMaster.ts";
import { type RoundedPattern, roundColumns } from "./roundedColumns.ts";
import {
  type FirstCut,
  inStrips,
  placeStrips,
  type Rectangle,
  type SheetPlacement,
  type StripEntry,
  type StripItem,
} from "./twoStage.ts";
import { twoStageKnapsack } from "./twoStageKnapsack.ts";

/** Rectangles to be cut from sheets of several sizes, each without limit. Lengths and costs are whole numbers ≥ 1. */
export interface SheetCutting {
  readonly bins: readonly (Rectangle & { readonly cost: number })[];
  readonly items: readonly (Rectangle & { readonly count: number })[];
}

export interface SheetPlan {
  readonly cost: number;
  /** No plan with these first cuts costs less. */
  readonly bound: number;
  /** Every sheet by itself, equal ones one after another. */
  readonly sheets: readonly CutSheet[];
}

export interface CutSheet {
  readonly bin: number;
  readonly firstCut: FirstCut;
  /** Depths of the strips that the first cuts make, from the low corner. */
  readonly cuts: readonly number[];
  readonly placements: readonly SheetPlacement[];
}

/** One way to begin cutting one bin. */
interface Stock {
  readonly bin: number;
  readonly firstCut: FirstCut;
  readonly length: number;
  readonly depth: number;
  readonly cost: number;
}

/** Columns asked for in one round from each stock: the best, and what is best without its items. */
const COLUMNS_A_ROUND = 3;
/** Strips tried, and rounds of pricing, where the demand binds inside a sheet: beyond that the looser answer will do. */
const STEPS_WHERE_DEMAND_BINDS = 200;
/** How much more than its area the largest item counts when a sheet is filled greedily, so that it is not left over. */
const LARGEST_COUNTS = 4;

/**
 * Cuts rectangles from sheets at the least cost, every sheet in two guillotine stages (strips from edge to edge, then
 * items side by side, lower ones trimmed), nothing turned.
 *
 * @param firstCuts the ways in which a sheet may be begun; with both, each sheet takes its better one
 * @param stop true ends the search with the best plan so far
 * @returns a plan that makes every item exactly as often as wanted; proven when cost equals bound
 * @throws RangeError naming the first item that no bin takes
 *
 * Bound: the relaxation over patterns by column generation; a pattern is priced by a knapsack along each strip and one over
 * strips (Gilmore and Gomory 1965, Operations Research 13(1), 94-120), in which the demand limits each strip, and the whole
 * sheet where a search over strips ends in time. The rest as for one dimension. The least cost itself may be missed.
 * Ties: first found. Class after Wäscher, Haußner and Schumann (2007): cutting stock problem.
 */
export function solveSheetCutting(
  problem: SheetCutting,
  firstCuts: readonly FirstCut[],
  stop: () => boolean,
): SheetPlan {
  const { bins, items } = problem;
  const misfit = items.findIndex(
    ({ width, height, count }) => count > 0 && !bins.some((bin) => bin.width >= width && bin.height >= height),
  );
  if (misfit >= 0) {
    const { width, height } = items[misfit] as Rectangle;
    throw new RangeError(`item ${misfit} of ${width} x ${height} fits no bin`);
  }
  const stocks = bins.flatMap((bin, index) =>
    firstCuts.map((firstCut): Stock => {
      const { along, depth } = inStrips(bin, firstCut);
      return { bin: index, firstCut, length: along, depth, cost: bin.cost };
    }),
  );
  const { cost, bound, patterns } = roundColumns(
    {
      demands: items.map(({ count }) => count),
      costs: stocks.map((stock) => stock.cost),
      atLeast: areaCost(problem),
      single: (item, row, most) => cheapestSingle(stocks, items[item] as Rectangle, item, row, most),
      price: (rows, most, duals) => priced(stocks, items, rows, most, duals),
      fullest: (wanted) => fullest(stocks, items, wanted),
    },
    stop,
  );
  return { cost, bound, sheets: sheetsOf(patterns, stocks, items) };
}

/** What the items cost at the price of the bin that is cheapest for its area, without any waste. */
function areaCost({ bins, items }: SheetCutting): number {
  const all = items.reduce((sum, { width, height, count }) => sum + width * height * count, 0);
  return Math.min(...bins.map(({ width, height, cost }) => (all * cost) / (width * height)));
}

function stripItems(
  { firstCut }: Stock,
  items: readonly Rectangle[],
  rows: readonly number[],
  most: readonly number[],
  values: ArrayLike<number>,
): StripItem[] {
  return rows.map((item, row) => ({
    ...inStrips(items[item] as Rectangle, firstCut),
    most: most[row] as number,
    value: values[row] as number,
  }));
}

function priced(
  stocks: readonly Stock[],
  items: readonly Rectangle[],
  rows: readonly number[],
  most: readonly number[],
  duals: ArrayLike<number>,
): Pricing {
  const columns: Column[] = [];
  let mostPerCost = 0;
  for (const [index, stock] of stocks.entries()) {
    const values = Float64Array.from(duals);
    for (let round = 0; round < COLUMNS_A_ROUND; round++) {
      const { upperBound, strips } = bestSheet(stripItems(stock, items, rows, most, values), stock);
      if (round === 0) mostPerCost = Math.max(mostPerCost, upperBound / stock.cost);
      if (strips.length === 0) break;
      const column = columnOf(strips, stock.cost, index, rows, most);
      columns.push(column);
      for (const { item } of column.entries) values[item] = 0;
    }
  }
  return { columns, mostPerCost };
}

type Layers = readonly { readonly depth: number; readonly entries: readonly StripEntry[] }[];

/** The sheet worth most: strips limited by the demand each, and all of them together where that binds and ends in time. */
function bestSheet(items: readonly StripItem[], { length, depth }: Stock): { upperBound: number; strips: Layers } {
  const stacked = stackedStrips(items, length, depth);
  const used = items.map(() => 0);
  for (const { entries } of stacked.strips) {
    for (const { item, count } of entries) used[item] = (used[item] as number) + count;
  }
  if (used.every((count, i) => count <= (items[i] as StripItem).most)) return stacked;
  let steps = 0;
  const exact = twoStageKnapsack(items, length, depth, () => ++steps > STEPS_WHERE_DEMAND_BINDS);
  return { upperBound: Math.min(stacked.upperBound, exact.upperBound), strips: exact.strips };
}

/** The strips worth most in all, the demand limiting each by itself: a limit on what any sheet is worth. */
function stackedStrips(
  items: readonly StripItem[],
  length: number,
  depth: number,
): { upperBound: number; strips: Layers } {
  const kinds = bestStrips(
    items,
    items.map(({ value }) => value),
    length,
  ).filter((strip) => strip.depth <= depth);
  const best = new Float64Array(depth + 1);
  const last = new Int32Array(depth + 1).fill(-1);
  for (let d = 1; d <= depth; d++) {
    best[d] = best[d - 1] as number;
    for (const [k, kind] of kinds.entries()) {
      if (kind.depth > d) break;
      const candidate = (best[d - kind.depth] as number) + kind.worth;
      if (candidate <= (best[d] as number)) continue;
      best[d] = candidate;
      last[d] = k;
    }
  }
  const strips: Layers[number][] = [];
  for (let d = depth; d > 0; ) {
    const k = last[d] as number;
    if (k < 0) d--;
    else {
      const kind = kinds[k] as Layers[number];
      strips.push(kind);
      d -= kind.depth;
    }
  }
  return { upperBound: best[depth] as number, strips };
}

/** Strips as a column: counts no higher than the demand, in rows; the strips themselves in the problem's items. */
function columnOf(
  strips: Layers,
  cost: number,
  stock: number,
  rows: readonly number[],
  most: readonly number[],
): Column {
  const counts = new Map<number, number>();
  for (const { entries } of strips) {
    for (const { item, count } of entries) counts.set(item, (counts.get(item) ?? 0) + count);
  }
  return {
    cost,
    stock,
    entries: [...counts]
      .map(([item, count]) => ({ item, count: Math.min(count, most[item] as number) }))
      .sort((a, b) => a.item - b.item),
    strips: strips.map(({ depth, entries }) => ({
      depth,
      entries: entries.map(({ item, count }) => ({ item: rows[item] as number, count })),
    })),
  };
}

function cheapestSingle(stocks: readonly Stock[], size: Rectangle, item: number, row: number, most: number): Column {
  const singles = stocks.flatMap(({ firstCut, length, depth: room, cost }, stock): Column[] => {
    const { along, depth } = inStrips(size, firstCut);
    const [inStrip, layers] = [Math.floor(length / along), Math.floor(room / depth)];
    const count = Math.min(most, inStrip * layers);
    if (count === 0) return [];
    const strip = { depth, entries: [{ item, count: inStrip }] };
    return [{ cost, stock, entries: [{ item: row, count }], strips: new Array(layers).fill(strip) }];
  });
  return singles.reduce((a, b) => {
    const each = (column: Column) => column.cost / (column.entries[0]?.count ?? 1);
    return each(b) < each(a) ? b : a;
  });
}

/** The sheet that fills most area for its cost with what is wanted, the largest item before others. */
function fullest(stocks: readonly Stock[], items: readonly Rectangle[], wanted: readonly number[]): Column {
  const rows = wanted.flatMap((count, item) => (count > 0 ? [item] : []));
  const most = rows.map((item) => wanted[item] as number);
  const areas = rows.map((item) => {
    const { width, height } = items[item] as Rectangle;
    return width * height;
  });
  const largest = areas.indexOf(Math.max(...areas));
  const values = areas.with(largest, LARGEST_COUNTS * (areas[largest] as number));
  const filled = ({ entries }: Column) =>
    entries.reduce((sum, { item, count }) => sum + count * (values[item] as number), 0);
  const columns = stocks.flatMap((stock, index) => {
    const { strips } = bestSheet(stripItems(stock, items, rows, most, values), stock);
    return strips.length > 0 ? [columnOf(strips, stock.cost, index, rows, most)] : [];
  });
  const best = columns.reduce((a, b) => (filled(b) * a.cost > filled(a) * b.cost ? b : a));
  return { ...best, entries: best.entries.map(({ item, count }) => ({ item: rows[item] as number, count })) };
}

function sheetsOf(
  patterns: readonly RoundedPattern[],
  stocks: readonly Stock[],
  items: readonly Rectangle[],
): CutSheet[] {
  const copies = items.map(() => 0);
  return patterns.flatMap(({ column, times, counts }) => {
    const { bin, firstCut } = stocks[column.stock] as Stock;
    const left = [...counts];
    const strips = (column.strips ?? []).flatMap(({ entries }) => {
      const held = entries.flatMap(({ item, count }) => {
        const kept = Math.min(count, left[item] as number);
        left[item] = (left[item] as number) - kept;
        return kept > 0 ? [{ item, count: kept }] : [];
      });
      const depth = Math.max(...held.map(({ item }) => inStrips(items[item] as Rectangle, firstCut).depth));
      return held.length > 0 ? [{ depth, entries: held }] : [];
    });
    return Array.from({ length: times }, () => ({
      bin,
      firstCut,
      cuts: strips.map(({ depth }) => depth),
      placements: placeStrips(strips, items, firstCut, copies),
    }));
  });
}
