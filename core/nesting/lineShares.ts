/**
 * Shares of a line across the roll that pieces take, as functions of their width: whatever lies side by side on one line
 * has shares that add up to at most one. Such a function turns widths and lengths into a bound on length.
 *
 * A mixture of ready-made dual feasible functions and of steps: a share that rises at chosen widths. Widths are counted in
 * whole quanta with their gap, rounded down, so that a share holds for every width of its quantum.
 */
export interface LineShares {
  /** By ready-made function, its part in the mixture, ≥ 0. */
  readonly parts: readonly number[];
  /** By width in quanta: how much the share rises there, ≥ 0. */
  readonly steps: ReadonlyMap<number, number>;
  /** By loose piece and shape: a share of its own on top of the ready-made functions, ≥ 0. */
  readonly own: readonly (readonly number[])[];
}

/** Pieces known beforehand: no line meets more of one than there are copies. Widths in quanta, gap included. */
export interface KnownPiece {
  readonly count: number;
  readonly widths: readonly number[];
}

/** What fills one line: how often each step width and each shape of a known piece lies on it. */
export interface LinePattern {
  readonly steps: ReadonlyMap<number, number>;
  readonly own: readonly { readonly piece: number; readonly shape: number; readonly times: number }[];
}

const THRESHOLDS = [1 / 16, 1 / 10, 1 / 6, 1 / 4, 1 / 3, 1 / 2];

/**
 * The ready-made functions at every width of a strip of `quanta`: the plain share, and those that give the whole line to
 * what leaves less than a threshold and nothing to what is under it (Martello and Toth 1990, Discrete Applied Mathematics
 * 28(1), 59-70).
 */
export function readyMade(quanta: number): Float64Array[] {
  const plain = Float64Array.from({ length: quanta + 1 }, (_, width) => width / quanta);
  return [plain, ...THRESHOLDS.map((threshold) => plain.map((x) => (x > 1 - threshold ? 1 : x < threshold ? 0 : x)))];
}

/** The share of each width from 0 to the whole strip; never falling. */
export function shareTable({ parts, steps }: LineShares, ready: readonly Float64Array[]): Float64Array {
  const table = new Float64Array((ready[0] as Float64Array).length);
  for (const [k, part] of parts.entries()) {
    if (part === 0) continue;
    const values = ready[k] as Float64Array;
    for (let width = 0; width < table.length; width++) {
      table[width] = (table[width] as number) + part * (values[width] as number);
    }
  }
  let risen = 0;
  for (let width = 0; width < table.length; width++) {
    risen += steps.get(width) ?? 0;
    table[width] = (table[width] as number) + risen;
  }
  return table;
}

/** Patterns worth more than this above a full line are too full. */
const FULL = 1e-7;
/** At most so many patterns are told at a time. */
const MOST_TOLD = 12;

/**
 * The most that a line's steps and own shares can add up to, and patterns that reach more than `room`.
 *
 * A bounded knapsack over the strip: step widths without limit, known pieces up to their count. Exact.
 * Time O(quanta x (steps + sum of log counts)).
 */
export function fullestLines(
  { steps, own }: LineShares,
  pieces: readonly KnownPiece[],
  quanta: number,
  room: number,
): { most: number; patterns: LinePattern[] } {
  const items = lineItems(steps, own, pieces);
  const best = new Float64Array(quanta + 1);
  const takes = items.map(() => new Uint8Array(quanta + 1));
  for (const [i, { width, value, endless }] of items.entries()) {
    const take = takes[i] as Uint8Array;
    if (endless) {
      for (let at = width; at <= quanta; at++) {
        const filled = (best[at - width] as number) + value;
        if (filled > (best[at] as number)) [best[at], take[at]] = [filled, 1];
      }
    } else {
      for (let at = quanta; at >= width; at--) {
        const filled = (best[at - width] as number) + value;
        if (filled > (best[at] as number)) [best[at], take[at]] = [filled, 1];
      }
    }
  }
  const most = best[quanta] as number;
  const patterns = new Map<string, LinePattern>();
  const tell = (forced: number | null) => {
    const pattern = patternOf(items, takes, quanta, forced);
    patterns.set(JSON.stringify([[...pattern.steps], pattern.own]), pattern);
  };
  if (most > room + FULL) tell(null);
  for (const [i, { width, value, endless }] of items.entries()) {
    if (patterns.size >= MOST_TOLD || !endless || width > quanta) continue;
    // What goes round one more of a step width that a line may hold without limit.
    if ((best[quanta - width] as number) + value > room + FULL) tell(i);
  }
  return { most, patterns: [...patterns.values()] };
}

interface LineItem {
  readonly width: number;
  readonly value: number;
  readonly endless: boolean;
  readonly times: number;
  /** Piece and shape; null for a step width. */
  readonly known: readonly [number, number] | null;
}

/** Endless ones last: a walk back through the takes then meets them first. */
function lineItems(steps: LineShares["steps"], own: LineShares["own"], pieces: readonly KnownPiece[]): LineItem[] {
  const items: LineItem[] = [];
  for (const [piece, { count, widths }] of pieces.entries()) {
    for (const [shape, width] of widths.entries()) {
      const value = own[piece]?.[shape] ?? 0;
      if (value <= 0) continue;
      for (let left = count, times = 1; left > 0; times *= 2) {
        const taken = Math.min(times, left);
        left -= taken;
        items.push({ width: width * taken, value: value * taken, endless: false, times: taken, known: [piece, shape] });
      }
    }
  }
  let risen = 0;
  for (const [width, rise] of [...steps].sort(([a], [b]) => a - b)) {
    if (rise <= 0) continue;
    risen += rise;
    items.push({ width, value: risen, endless: true, times: 1, known: null });
  }
  return items;
}

function patternOf(
  items: readonly LineItem[],
  takes: readonly Uint8Array[],
  quanta: number,
  forced: number | null,
): LinePattern {
  const steps = new Map<number, number>();
  const own = new Map<string, { piece: number; shape: number; times: number }>();
  const add = ({ width, known, times }: LineItem) => {
    if (known === null) steps.set(width, (steps.get(width) ?? 0) + 1);
    else {
      const key = known.join(" ");
      own.set(key, { piece: known[0], shape: known[1], times: (own.get(key)?.times ?? 0) + times });
    }
  };
  let at = quanta;
  if (forced !== null) {
    const item = items[forced] as LineItem;
    add(item);
    at -= item.width;
  }
  for (let i = items.length - 1; i >= 0; ) {
    const item = items[i] as LineItem;
    if ((takes[i] as Uint8Array)[at] === 0) {
      i--;
      continue;
    }
    add(item);
    at -= item.width;
    if (!item.endless) i--;
  }
  return { steps, own: [...own.values()] };
}
