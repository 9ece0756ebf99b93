import type { Strip } from "./twoStage.ts";

/** One way to use a stretch of stock: what it costs, and how many of each item it holds. */
export interface Column {
  readonly cost: number;
  /** Items it holds, each once, with a count ≥ 1. */
  readonly entries: readonly ColumnEntry[];
  /** Which stock it is cut from, in the order the problem lists them. */
  readonly stock: number;
  /** How it lies on the stock, where whoever made it must know later; in the problem's own items. Not read here. */
  readonly strips?: readonly Pick<Strip, "depth" | "entries">[];
}

export interface ColumnEntry {
  readonly item: number;
  readonly count: number;
}

/** Reduced costs above this count as none; costs are of the order of one. */
const NONE = 1e-9;
/** Each demand is raised by a different tiny share, so that the simplex method does not stall on ties. */
const PERTURBATION = 1e-4;
/** The inverse is worked out anew after this many pivots, before rounding adds up. */
const PIVOTS_BETWEEN_INVERSIONS = 120;

/**
 * The master of a cutting problem as a linear programme: use columns, in any fraction, so that every demand is met at the
 * least cost. Solved by the revised simplex method with an explicit inverse, over columns that are added as they are found.
 *
 * A column added later enters from the basis as it stands. Memory O(m²) for m demands; a pivot costs O(m² + entries).
 * Source: Gilmore and Gomory (1961), Operations Research 9(6), 849-859; Chvátal (1983), Linear Programming, chapter 13.
 */
export class PatternMaster {
  readonly columns: Column[] = [];
  private readonly demands: readonly number[];
  private readonly size: number;
  /** Column index for each row of the basis; -1 - i for the surplus of item i. */
  private readonly basis: number[];
  private readonly inverse: Float64Array;
  private readonly values: Float64Array;
  private pivots = 0;

  /**
   * @param demands of each item, > 0
   * @param singles for each item a column that holds that item alone
   */
  constructor(demands: readonly number[], singles: readonly Column[]) {
    this.demands = demands.map((demand, i) => demand * (1 + PERTURBATION * (((i * 0.618034) % 1) + 0.1)));
    this.size = demands.length;
    this.basis = singles.map((_, i) => i);
    this.columns.push(...singles);
    this.inverse = new Float64Array(this.size ** 2);
    this.values = new Float64Array(this.size);
    for (let i = 0; i < this.size; i++) {
      const count = singles[i]?.entries[0]?.count ?? 1;
      this.inverse[i * this.size + i] = 1 / count;
      this.values[i] = (this.demands[i] as number) / count;
    }
  }

  add(columns: readonly Column[]): void {
    this.columns.push(...columns);
  }

  /** Pivots until no column on hand lowers the cost; returns the duals, money for one more of each item, all ≥ 0. */
  optimise(): Float64Array {
    let duals = this.duals();
    for (let exact = true; ; ) {
      const entering = this.entering(duals);
      if (entering !== null) {
        exact = this.pivot(entering.column, entering.reduced, duals);
        if (exact) duals = this.duals();
      } else if (exact) {
        return duals.map((dual) => Math.max(0, dual));
      } else {
        duals = this.duals();
        exact = true;
      }
    }
  }

  /** How often each column is used, by its index, unused ones left out. */
  uses(): { readonly column: number; readonly times: number }[] {
    return this.basis
      .map((column, row) => ({ column, times: this.values[row] as number }))
      .filter(({ column, times }) => column >= 0 && times > NONE);
  }

  private duals(): Float64Array {
    const { size, inverse } = this;
    const duals = new Float64Array(size);
    for (let row = 0; row < size; row++) {
      const column = this.basis[row] as number;
      const cost = column < 0 ? 0 : (this.columns[column] as Column).cost;
      if (cost === 0) continue;
      for (let i = 0; i < size; i++) duals[i] = (duals[i] as number) + cost * (inverse[row * size + i] as number);
    }
    return duals;
  }

  private entering(duals: Float64Array): { column: number; reduced: number } | null {
    let least = -NONE;
    let entering: number | null = null;
    for (let item = 0; item < this.size; item++) {
      if ((duals[item] as number) < least) {
        least = duals[item] as number;
        entering = -1 - item;
      }
    }
    for (let index = 0; index < this.columns.length; index++) {
      const reduced = reducedCost(this.columns[index] as Column, duals);
      if (reduced < least) {
        least = reduced;
        entering = index;
      }
    }
    return entering === null ? null : { column: entering, reduced: least };
  }

  /** Exchanges one column of the basis and brings the duals along; true when the inverse was worked out anew. */
  private pivot(entering: number, reduced: number, duals: Float64Array): boolean {
    const { size, inverse, values } = this;
    const direction = this.times(entering);
    let leaving = -1;
    let step = Infinity;
    for (let row = 0; row < size; row++) {
      const rate = direction[row] as number;
      if (rate <= NONE) continue;
      const limit = Math.max(0, values[row] as number) / rate;
      if (limit < step) {
        step = limit;
        leaving = row;
      }
    }
    if (leaving < 0) throw new Error("a column of a cutting master lowers the cost without end");
    const pivot = direction[leaving] as number;
    for (let i = 0; i < size; i++) {
      inverse[leaving * size + i] = (inverse[leaving * size + i] as number) / pivot;
    }
    for (let row = 0; row < size; row++) {
      const rate = direction[row] as number;
      if (row === leaving || rate === 0) continue;
      values[row] = (values[row] as number) - rate * step;
      const [to, from] = [row * size, leaving * size];
      for (let i = 0; i < size; i++)
        inverse[to + i] = (inverse[to + i] as number) - rate * (inverse[from + i] as number);
    }
    values[leaving] = step;
    for (let i = 0; i < size; i++) {
      duals[i] = (duals[i] as number) + reduced * (inverse[leaving * size + i] as number);
    }
    this.basis[leaving] = entering;
    this.pivots++;
    if (this.pivots % PIVOTS_BETWEEN_INVERSIONS !== 0) return false;
    this.invert();
    return true;
  }

  /** The inverse times one column. */
  private times(column: number): Float64Array {
    const { size, inverse } = this;
    const result = new Float64Array(size);
    for (const { item, count } of entriesOf(this.columns, column)) {
      for (let row = 0; row < size; row++) {
        result[row] = (result[row] as number) + count * (inverse[row * size + item] as number);
      }
    }
    return result;
  }

  /** Works out the inverse of the basis and the values anew, by elimination with row exchange. */
  private invert(): void {
    const { size, inverse, values } = this;
    const matrix = new Float64Array(size ** 2);
    for (const [position, column] of this.basis.entries()) {
      for (const { item, count } of entriesOf(this.columns, column)) matrix[item * size + position] = count;
    }
    inverse.fill(0);
    for (let i = 0; i < size; i++) inverse[i * size + i] = 1;
    for (let column = 0; column < size; column++) {
      let best = column;
      for (let row = column + 1; row < size; row++) {
        if (Math.abs(matrix[row * size + column] as number) > Math.abs(matrix[best * size + column] as number))
          best = row;
      }
      if (best !== column) {
        exchangeRows(matrix, size, best, column);
        exchangeRows(inverse, size, best, column);
      }
      const pivot = matrix[column * size + column] as number;
      scaleRow(matrix, size, column, 1 / pivot);
      scaleRow(inverse, size, column, 1 / pivot);
      for (let row = 0; row < size; row++) {
        const factor = matrix[row * size + column] as number;
        if (row === column || factor === 0) continue;
        subtractRow(matrix, size, row, column, factor);
        subtractRow(inverse, size, row, column, factor);
      }
    }
    for (let row = 0; row < size; row++) {
      let value = 0;
      for (let i = 0; i < size; i++) value += (inverse[row * size + i] as number) * (this.demands[i] as number);
      values[row] = value;
    }
  }
}

/** Cost of a column less what its items are worth. */
export function reducedCost({ cost, entries }: Column, duals: ArrayLike<number>): number {
  let reduced = cost;
  for (let i = 0; i < entries.length; i++) {
    const { item, count } = entries[i] as ColumnEntry;
    reduced -= count * (duals[item] as number);
  }
  return reduced;
}

function entriesOf(columns: readonly Column[], column: number): readonly ColumnEntry[] {
  return column < 0 ? [{ item: -1 - column, count: -1 }] : (columns[column] as Column).entries;
}

function exchangeRows(matrix: Float64Array, size: number, a: number, b: number): void {
  for (let i = 0; i < size; i++) {
    const held = matrix[a * size + i] as number;
    matrix[a * size + i] = matrix[b * size + i] as number;
    matrix[b * size + i] = held;
  }
}

function scaleRow(matrix: Float64Array, size: number, row: number, factor: number): void {
  for (let i = 0; i < size; i++) matrix[row * size + i] = (matrix[row * size + i] as number) * factor;
}

function subtractRow(matrix: Float64Array, size: number, row: number, other: number, factor: number): void {
  for (let i = 0; i < size; i++) {
    matrix[row * size + i] = (matrix[row * size + i] as number) - factor * (matrix[other * size + i] as number);
  }
}
