import type { Ticks } from "../units/ticks.ts";
import { lengthBound } from "./lengthBound.ts";
import { leastAcross, shortestAlong } from "./sizes.ts";
import type { Strip, StripSize } from "./strip.ts";

/** Sums of lengths are listed up to so many multiples of their greatest common divisor. */
const MOST_SUMS = 2 ** 20;
/** Thresholds tried along the strip. */
const MOST_THRESHOLDS = 48;
/** What rounding may add to a sum of shares. */
const ROUNDING = 1e-9;

/**
 * A lower bound on the length of a strip.
 *
 * @param strip whole numbers
 * @returns whole; the greatest of the following, raised to the next sum that lengths of pieces can make, since the pieces
 *   of some shortest nesting all rest on one another
 *
 * - the longest piece;
 * - pieces of which no two lie side by side, one after another;
 * - the area and its images under dual feasible functions across the strip (see `lengthBound`);
 * - such images across and along at once: a length is too short when the products of a piece's two shares add up to more
 *   than one, Fekete and Schepers (2001), Mathematical Programming 91(1), 11-31. Along, pieces shorter than a threshold
 *   are dropped and those that leave less than it count as the whole length.
 *
 * All with the width that sums of pieces' widths can fill, which is often less than the strip's. A piece that may be
 * turned counts with its cheaper shape. Time O(sizes x (functions x thresholds + sums)).
 */
export function stripBound({ width, sizes }: Strip): Ticks {
  const due = sizes
    .filter(({ count }) => count > 0)
    .map(({ shapes, count }) => ({ shapes: shapes.filter(({ across }) => across <= width), count }));
  if (due.length === 0) return 0;
  const filled = fillable(due, width);
  const pieces = due.map((size) => ({ ...size, due: true }));
  let bound = Math.max(...pieces.map(shortestAlong), oneAfterAnother(due, filled));
  bound = Math.max(bound, roundedUp(lengthBound(pieces, { width: filled, gap: 0 })));
  bound = bothWays(due, filled, bound);
  return nextSum(due, bound);
}

const roundedUp = (length: number): Ticks => Math.ceil(length * (1 - ROUNDING));

/** The widest pieces as far as no two of them lie side by side. */
function oneAfterAnother(sizes: readonly StripSize[], width: Ticks): Ticks {
  const widest = sizes
    .map((size) => ({
      across: leastAcross({ ...size, due: true }),
      along: shortestAlong({ ...size, due: true }),
      size,
    }))
    .sort((a, b) => b.across - a.across);
  let length = 0;
  let last = Infinity;
  for (const { across, along, size } of widest) {
    if (across + last <= width) break;
    if (2 * across > width) length += size.count * along;
    else return length + along;
    last = across;
  }
  return length;
}

/** Raises the bound while shares across times shares along say that it is too short. */
function bothWays(sizes: readonly StripSize[], width: Ticks, start: Ticks): Ticks {
  let bound = start;
  for (const share of functionsAcross(sizes, width)) {
    const shares = sizes.map(({ shapes }) => shapes.map(({ across }) => share(across)));
    for (const threshold of thresholdsAlong(sizes, bound)) {
      const tooShort = (length: Ticks): boolean => {
        let sum = 0;
        for (const [i, { shapes, count }] of sizes.entries()) {
          let least = Infinity;
          for (const [k, { along }] of shapes.entries()) {
            const part = along > length - threshold ? 1 : along < threshold ? 0 : along / length;
            least = Math.min(least, (shares[i]?.[k] as number) * part);
          }
          sum += count * least;
        }
        return sum > 1 + ROUNDING;
      };
      if (!tooShort(bound)) continue;
      // No share grows with the length, so that all lengths under one that is too short are too.
      let more = 1;
      while (tooShort(bound + more)) more *= 2;
      let [short, long] = [bound + Math.floor(more / 2), bound + more];
      while (long - short > 1) {
        const middle = Math.floor((short + long) / 2);
        if (tooShort(middle)) short = middle;
        else long = middle;
      }
      bound = long;
    }
  }
  return bound;
}

/** Dual feasible functions of the width across: the identity, thresholds, and steps. */
function functionsAcross(sizes: readonly StripSize[], width: Ticks): ((across: Ticks) => number)[] {
  const all = sizes.flatMap(({ shapes }) => shapes.map(({ across }) => across));
  const thresholds = spread(
    all.map((across) => (2 * across <= width ? across : width - across + 1)).filter((t) => t > 0 && 2 * t <= width),
  );
  return [
    (across) => across / width,
    ...thresholds.map(
      (threshold) =>
        (across: Ticks): number =>
          across > width - threshold ? 1 : across < threshold ? 0 : across / width,
    ),
    ...[1, 2, 3, 4, 5].map((k) => (across: Ticks): number => {
      const whole = Math.floor(((k + 1) * across) / width);
      return (k + 1) * across === whole * width ? across / width : whole / k;
    }),
  ];
}

/** At most half the length, where a threshold is a dual feasible function for it and all greater lengths. */
const thresholdsAlong = (sizes: readonly StripSize[], length: Ticks): Ticks[] =>
  spread(
    sizes
      .flatMap(({ shapes }) => shapes.map(({ along }) => (2 * along <= length ? along : length - along + 1)))
      .filter((t) => t > 0 && 2 * t <= length),
  );

function spread(values: readonly number[]): number[] {
  const sorted = [...new Set(values)].sort((a, b) => a - b);
  if (sorted.length <= MOST_THRESHOLDS) return sorted;
  const last = sorted.length - 1;
  return Array.from(
    { length: MOST_THRESHOLDS },
    (_, i) => sorted[Math.round((i * last) / (MOST_THRESHOLDS - 1))] as number,
  );
}

/** The greatest sum of widths that the strip holds; the strip's width where the sums are too many to list. */
function fillable(sizes: readonly StripSize[], width: Ticks): Ticks {
  const sums = sumsUpTo(
    sizes.map(({ shapes, count }) => ({ values: shapes.map(({ across }) => across), count })),
    width,
  );
  return sums === null ? width : (sums.below(width) ?? width);
}

/** The least sum of lengths that is not under the bound; the bound where the sums are too many to list. */
function nextSum(sizes: readonly StripSize[], bound: Ticks): Ticks {
  const longest = Math.max(...sizes.flatMap(({ shapes }) => shapes.map(({ along }) => along)));
  const sums = sumsUpTo(
    sizes.map(({ shapes, count }) => ({ values: shapes.map(({ along }) => along), count })),
    bound + longest,
  );
  return sums === null ? bound : (sums.from(bound) ?? bound);
}

interface Sums {
  readonly below: (most: number) => number | null;
  readonly from: (least: number) => number | null;
}

/** All sums of values up to a limit, each value as often as its count allows; null when too many. */
function sumsUpTo(terms: readonly { values: readonly number[]; count: number }[], limit: number): Sums | null {
  const unit = terms.flatMap(({ values }) => values).reduce(divisor, 0);
  const cells = Math.floor(limit / unit);
  if (cells > MOST_SUMS || !Number.isFinite(cells)) return null;
  const reached = new Uint8Array(cells + 1);
  reached[0] = 1;
  const uses = new Int32Array(cells + 1);
  for (const { values, count } of terms) {
    for (const value of values) {
      const step = value / unit;
      uses.fill(0);
      for (let sum = step; sum <= cells; sum++) {
        if (reached[sum] === 1 || reached[sum - step] === 0) continue;
        if ((uses[sum - step] as number) >= count) continue;
        reached[sum] = 1;
        uses[sum] = (uses[sum - step] as number) + 1;
      }
    }
  }
  return {
    below: (most) => {
      let sum = Math.min(cells, Math.floor(most / unit));
      while (sum > 0 && reached[sum] === 0) sum--;
      return sum > 0 ? sum * unit : null;
    },
    from: (least) => {
      let sum = Math.ceil(least / unit);
      while (sum <= cells && reached[sum] === 0) sum++;
      return sum <= cells ? sum * unit : null;
    },
  };
}

function divisor(a: number, b: number): number {
  let [p, q] = [a, b];
  while (q > 0) [p, q] = [q, p % q];
  return p;
}
