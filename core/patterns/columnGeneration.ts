import { type Column, PatternMaster, reducedCost } from "./patternMaster.ts";

/** A cutting problem as column generation sees it: demands, a start, and a way to find better columns. */
export interface ColumnProblem {
  /** How many of each item are wanted, > 0. */
  readonly demands: readonly number[];
  /** For each item a column of that item alone. */
  readonly singles: readonly Column[];
  /** Columns known already; they shorten the search and change nothing else. */
  readonly known: readonly Column[];
  /** The columns worth most against their cost at these prices of the items. */
  readonly price: (duals: Float64Array) => Pricing;
}

export interface Pricing {
  readonly columns: readonly Column[];
  /** Most that any column is worth at the prices asked, per money it costs: exact, or an upper limit. */
  readonly mostPerCost: number;
}

export interface Relaxation {
  /** Cost of the best fractional use of columns found. */
  readonly cost: number;
  /** No whole or fractional use of any columns costs less. */
  readonly bound: number;
  readonly uses: readonly { readonly column: Column; readonly times: number }[];
  /** Every column found, for the next problem of the same items. */
  readonly columns: readonly Column[];
  readonly duals: Float64Array;
}

/** Duals handed to pricing are this share of the best seen and the rest the newest. */
const SMOOTHING = 0.5;
const CLOSED = 1e-7;

/**
 * Solves the linear relaxation of a cutting problem by column generation.
 *
 * @param enough called with the bound and the cost after each round: true ends the search early
 * @returns cost and a valid lower bound, which meet when the search ran to its end
 *
 * The bound of each round: prices divided by the most that any column is worth per cost are feasible in the dual, so what
 * they pay for the demands bounds every solution from below, at any round (Farley 1990, Operations Research 38(5),
 * 922-923). Duals are smoothed towards those of the best bound, which keeps the number of rounds small (Wentges 1997,
 * International Transactions in Operational Research 4(2), 151-162); a round whose smoothed prices bring no column that
 * helps is repeated with the true ones.
 */
export function relax(problem: ColumnProblem, enough: (bound: number, cost: number) => boolean): Relaxation {
  const { demands } = problem;
  const master = new PatternMaster(demands, problem.singles);
  master.add(problem.known);
  let duals = master.optimise();
  let centre = duals;
  let bound = 0;
  for (let smooth = true; ; ) {
    const asked = smooth ? mixed(centre, duals) : duals;
    const priced = problem.price(asked);
    const here = paid(demands, asked) / Math.max(priced.mostPerCost, Number.MIN_VALUE);
    if (here > bound) {
      bound = here;
      centre = asked;
    }
    const cost = paid(demands, duals);
    const helpful = priced.columns.filter((column) => reducedCost(column, duals) < -CLOSED * column.cost);
    const closed = bound >= cost * (1 - CLOSED);
    if (closed || enough(bound, cost) || (helpful.length === 0 && !smooth)) {
      return { cost, bound: Math.min(bound, cost), uses: named(master), columns: master.columns, duals };
    }
    smooth = helpful.length > 0;
    if (!smooth) continue;
    master.add(helpful);
    duals = master.optimise();
  }
}

function named(master: PatternMaster): { column: Column; times: number }[] {
  return master.uses().map(({ column, times }) => ({ column: master.columns[column] as Column, times }));
}

const mixed = (centre: Float64Array, duals: Float64Array): Float64Array =>
  duals.map((dual, i) => SMOOTHING * (centre[i] as number) + (1 - SMOOTHING) * dual);

const paid = (demands: readonly number[], duals: Float64Array): number =>
  demands.reduce((total, demand, i) => total + demand * (duals[i] as number), 0);
