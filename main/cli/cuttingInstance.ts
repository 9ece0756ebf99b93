import type { CuttingStock } from "../../core/index.ts";
import type { Problem } from "../../shared/problem.ts";
import type { NamedInstance } from "./instanceAtDoor.ts";
import { decimals, MOST_DECIMALS, scaleOf } from "./kinds/wholeNumbers.ts";

/** A published question of cutting in one dimension, in whole numbers. */
export interface CuttingInstance {
  readonly problem: CuttingStock;
  /** The problem's costs are the instance's times this power of ten. */
  readonly costScale: number;
}

export const cuttingKinds = ["cutting-stock-1d", "cutting-stock-1d-variable-stock"] as const;
export type CuttingKind = (typeof cuttingKinds)[number];

/** Whole lengths and sums of costs stay exact in a double below this. */
const LARGEST = 2 ** 40;
const MOST_PIECES = 1_000_000;
const MOST_ITEMS = 5_000;

type Fields = Readonly<Record<string, unknown>>;
type Pair = readonly [at: string, value: number];

/**
 * Reads `stock` or `stocks: [{ length, cost }]`, and `items: [[length, count], ...]`.
 *
 * @returns the question scaled to whole lengths and whole costs, or every problem found in it
 */
export function cuttingInstance(
  kind: CuttingKind,
  { path, fields }: NamedInstance,
): { instance: CuttingInstance } | { problems: Problem[] } {
  const problems: Problem[] = [];
  const wrong = (at: string, value: unknown, why: string, mend: string): void => {
    problems.push({ path: `${path}${at}`, value: value ?? null, why, mend });
  };
  const positive = (at: string, value: unknown, what: string): number => {
    const fits = typeof value === "number" && value > 0 && value < LARGEST && decimals(value) <= MOST_DECIMALS;
    if (!fits) wrong(at, value, `This is no ${what}`, `Give a number above 0, with at most ${MOST_DECIMALS} decimals`);
    return fits ? value : 1;
  };
  const stocks = kind === "cutting-stock-1d" ? [oneStock(fields, positive)] : severalStocks(fields, positive, wrong);
  const items = readItems(fields, positive, wrong);
  if (problems.length > 0) return { problems };

  const lengths: Pair[] = [
    ...stocks.map(({ length, at }): Pair => [`.${at}`, length]),
    ...items.map(({ length }, i): Pair => [`.items[${i}][0]`, length]),
  ];
  const costs: Pair[] = stocks.map(({ cost, at }) => [`.${at}.cost`, cost]);
  const values = (pairs: readonly Pair[]): number[] => pairs.map(([, value]) => value);
  const [lengthScale, costScale] = [scaleOf(values(lengths)), scaleOf(values(costs))];
  for (const [at, length] of lengths) {
    if (length * lengthScale >= LARGEST) wrong(at, length, "This length is too large beside the smallest", "Round it");
  }
  for (const [at, cost] of costs) {
    if (cost * costScale >= LARGEST / MOST_PIECES)
      wrong(at, cost, "This cost is too large to add up exactly", "Round it");
  }
  if (problems.length > 0) return { problems };
  const problem = {
    stocks: stocks.map(({ length, cost }) => ({
      length: Math.round(length * lengthScale),
      cost: Math.round(cost * costScale),
    })),
    items: items.map(({ length, count }) => ({ length: Math.round(length * lengthScale), count })),
  };
  return { instance: { problem, costScale } };
}

type Positive = (at: string, value: unknown, what: string) => number;
type Wrong = (at: string, value: unknown, why: string, mend: string) => void;
interface ReadStock {
  readonly at: string;
  readonly length: number;
  readonly cost: number;
}

function oneStock(fields: Fields, positive: Positive): ReadStock {
  return { at: "stock", length: positive(".stock", fields.stock, "stock length"), cost: 1 };
}

function severalStocks({ stocks }: Fields, positive: Positive, wrong: Wrong): ReadStock[] {
  if (!Array.isArray(stocks) || stocks.length === 0) {
    wrong(".stocks", stocks, "There is no list of stock lengths", "Give [{ length, cost }, ...]");
    return [];
  }
  return stocks.map((stock: unknown, i) => {
    const { length, cost } = (typeof stock === "object" && stock !== null ? stock : {}) as Fields;
    const at = `stocks[${i}]`;
    return {
      at,
      length: positive(`.${at}.length`, length, "stock length"),
      cost: positive(`.${at}.cost`, cost, "cost"),
    };
  });
}

function readItems({ items }: Fields, positive: Positive, wrong: Wrong): { length: number; count: number }[] {
  if (!Array.isArray(items) || items.length > MOST_ITEMS) {
    const mend = `Give [[length, count], ...], at most ${MOST_ITEMS}`;
    wrong(".items", Array.isArray(items) ? items.length : items, "This is no list of items", mend);
    return [];
  }
  let pieces = 0;
  const read = items.map((item: unknown, i) => {
    const [length, count, ...more] = (Array.isArray(item) ? item : []) as unknown[];
    if (more.length > 0) wrong(`.items[${i}]`, item, "This has more than a length and a count", "Give [length, count]");
    const counted = typeof count === "number" && Number.isInteger(count) && count >= 0 && count <= MOST_PIECES;
    if (!counted) wrong(`.items[${i}][1]`, count, "This is no count", `Give a whole number from 0 to ${MOST_PIECES}`);
    pieces += counted ? count : 0;
    return { length: positive(`.items[${i}][0]`, length, "length"), count: counted ? count : 0 };
  });
  if (pieces > MOST_PIECES) wrong(".items", pieces, `These are more than ${MOST_PIECES} pieces`, "Give fewer");
  return read;
}
