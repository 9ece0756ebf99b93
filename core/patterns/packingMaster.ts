/** A column of a packing programme: what it is worth, and what it takes of each row. */
export interface PackingColumn {
  readonly value: number;
  /** Rows it takes from, each once, with an amount above 0. */
  readonly entries: readonly { readonly row: number; readonly amount: number }[];
}

const NONE = 1e-9;
const PIVOTS_BEFORE_LEAST_INDEX = 20_000;
/** Pivots for each row that one `optimise` may take. */
const MOST_PIVOTS = 500;

/**
 * A packing programme: use columns, in any fraction, so that no row gives more than it has, for the most value. The
 * revised simplex method from the basis of slacks, over columns that are added as they are found.
 *
 * Memory O(m²) for m rows; a pivot costs O(m² + entries). Stalling is broken by the least index rule after 20,000 pivots
 * (Bland 1977, Mathematics of Operations Research 2(2), 103-107).
 */
export class PackingMaster {
  readonly columns: PackingColumn[] = [];
  private readonly size: number;
  /** Column index for each row of the basis; -1 - i for the slack of row i. */
  private readonly basis: number[];
  private readonly inverse: Float64Array;
  private readonly values: Float64Array;
  private pivots = 0;
  /** Whether the last `optimise` ended before its time. */
  stuck = false;

  /** @param amounts what each row has, ≥ 0 */
  constructor(amounts: readonly number[]) {
    this.size = amounts.length;
    this.basis = amounts.map((_, row) => -1 - row);
    this.inverse = new Float64Array(this.size ** 2);
    for (let row = 0; row < this.size; row++) this.inverse[row * this.size + row] = 1;
    this.values = Float64Array.from(amounts);
  }

  add(columns: readonly PackingColumn[]): void {
    this.columns.push(...columns);
  }

  /**
   * Pivots until no column on hand raises the value; returns the duals, worth of one more of each row, all ≥ 0.
   *
   * Rounding of the inverse can make that end never come: after very many pivots the duals are those reached, and `stuck`
   * says so. Any duals ≥ 0 price what a packing may take, so a bound made of them holds all the same.
   */
  optimise(): Float64Array {
    const most = this.pivots + MOST_PIVOTS * this.size;
    for (;;) {
      const duals = this.duals();
      const entering = this.entering(duals);
      this.stuck = entering !== null && this.pivots >= most;
      if (entering === null || this.stuck) return duals.map((dual) => Math.max(0, dual));
      this.pivot(entering);
    }
  }

  private duals(): Float64Array {
    const { size, inverse } = this;
    const duals = new Float64Array(size);
    for (let row = 0; row < size; row++) {
      const column = this.basis[row] as number;
      if (column < 0) continue;
      const { value } = this.columns[column] as PackingColumn;
      for (let i = 0; i < size; i++) duals[i] = (duals[i] as number) + value * (inverse[row * size + i] as number);
    }
    return duals;
  }

  private entering(duals: Float64Array): number | null {
    const leastIndex = this.pivots > PIVOTS_BEFORE_LEAST_INDEX;
    let most = NONE;
    let entering: number | null = null;
    for (let row = 0; row < this.size; row++) {
      if (-(duals[row] as number) <= most) continue;
      most = -(duals[row] as number);
      entering = -1 - row;
      if (leastIndex) return entering;
    }
    for (const [index, column] of this.columns.entries()) {
      const gain = gainOf(column, duals);
      if (gain <= most * (1 + NONE)) continue;
      most = gain;
      entering = index;
      if (leastIndex) return entering;
    }
    return entering;
  }

  private pivot(entering: number): void {
    const { size, inverse, values } = this;
    const direction = new Float64Array(size);
    const entries =
      entering < 0 ? [{ row: -1 - entering, amount: 1 }] : (this.columns[entering] as PackingColumn).entries;
    for (const { row: from, amount } of entries) {
      for (let row = 0; row < size; row++) {
        direction[row] = (direction[row] as number) + amount * (inverse[row * size + from] as number);
      }
    }
    let leaving = -1;
    let step = Infinity;
    for (let row = 0; row < size; row++) {
      const rate = direction[row] as number;
      if (rate <= NONE) continue;
      const limit = Math.max(0, values[row] as number) / rate;
      const tie = leaving >= 0 && limit === step && (this.basis[row] as number) < (this.basis[leaving] as number);
      if (limit < step || tie) {
        step = limit;
        leaving = row;
      }
    }
    if (leaving < 0) throw new Error("a column of a packing master raises the value without end");
    const pivot = direction[leaving] as number;
    for (let i = 0; i < size; i++) {
      inverse[leaving * size + i] = (inverse[leaving * size + i] as number) / pivot;
    }
    for (let row = 0; row < size; row++) {
      const rate = direction[row] as number;
      if (row === leaving || rate === 0) continue;
      values[row] = (values[row] as number) - rate * step;
      for (let i = 0; i < size; i++) {
        const here = row * size + i;
        inverse[here] = (inverse[here] as number) - rate * (inverse[leaving * size + i] as number);
      }
    }
    values[leaving] = step;
    this.basis[leaving] = entering;
    this.pivots++;
  }

  /** How often each column is used, by its index, unused ones left out. */
  uses(): { readonly column: number; readonly times: number }[] {
    return this.basis
      .map((column, row) => ({ column, times: this.values[row] as number }))
      .filter(({ column, times }) => column >= 0 && times > NONE);
  }
}

/** What a column is worth above what it takes. */
export function gainOf({ value, entries }: PackingColumn, duals: ArrayLike<number>): number {
  let gain = value;
  for (const { row, amount } of entries) gain -= amount * (duals[row] as number);
  return gain;
}
