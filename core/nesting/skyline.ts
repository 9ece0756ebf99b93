import type { Ticks } from "../units/ticks.ts";
import type { Shape, Size } from "./sizes.ts";

/** Like pieces that stand together in an order of filling: all pieces of a size, or some of them. */
export interface Bunch {
  /** Index of the size. */
  readonly size: number;
  readonly count: number;
}

/** A piece laid by `fill`; x and y of its corner nearest the origin, from the lower left corner of the rectangle. */
export interface Laid {
  readonly size: number;
  readonly shape: Shape;
  readonly x: Ticks;
  readonly y: Ticks;
}

/** One way in which a bunch may lie: what an order is made of. */
export interface Lying {
  readonly bunch: number;
  readonly shape: Shape;
}

/** Fills rectangles with the same pieces again and again. */
export interface Filler {
  /** All ways to lie, bunch by bunch; orders are permutations of their indices. */
  readonly lyings: readonly Lying[];
  /** Sum over all pieces, square units. */
  readonly area: number;
  /**
   * Fills a rectangle from below.
   *
   * @param order of the ways to lie: of those that fit equally well the earlier one is laid
   * @param width of the rectangle; at least one shape of each piece is no wider
   * @param height of the rectangle, Infinity for a strip without end
   * @param limit the filling is given up once more area than this is bound to stay outside
   * @param byFit false: fit counts for nothing, the first in the order that a gap takes is laid
   * @returns the area of the pieces left outside, 0 exactly when all lie inside; Infinity when given up
   */
  readonly fill: (order: ArrayLike<number>, width: number, height: number, limit: number, byFit: boolean) => number;
  /** The pieces laid by the last filling, in the order laid. */
  readonly laid: () => Laid[];
  /** The greatest y + along of the last filling. */
  readonly top: () => number;
}

/** How well a piece sits in a gap: these add up. */
const FILLS_WIDTH = 4;
const LEVEL_LEFT = 2;
const LEVEL_RIGHT = 2;
const BEST_FIT = FILLS_WIDTH + LEVEL_LEFT + LEVEL_RIGHT;

/**
 * Best-fit placement along a skyline.
 *
 * @param sizes the pieces by size; whole numbers
 * @param bunches parts of the sizes that an order can tell apart; together they hold what is to be laid
 *
 * The lowest gap of the skyline, of equals the leftmost, is filled next: with the piece that sits best in it (as wide as
 * the gap, level with the walls beside it), of equals the earliest in the order; against the wall that it is level with,
 * else against the taller one. A gap that takes no piece is raised to its lower wall, and the area lost. In an order of
 * falling width this is the placement of Burke, Kendall and Whitwell (2004), Operations Research 52(4), 655-671, but that
 * level walls count too, as in Leung, Zhang and Sim (2011), European Journal of Operational Research 215(1), 57-69.
 *
 * Time O(pieces x (ways to lie + segments of the skyline)) a filling, memory O(pieces); nothing is allocated while filling.
 * Ties: as said, so equal input gives equal output.
 */
export function skylineFiller(sizes: readonly Pick<Size, "shapes">[], bunches: readonly Bunch[]): Filler {
  const lyings = bunches.flatMap(({ size }, bunch) =>
    (sizes[size] as Size).shapes.map((shape): Lying => ({ bunch, shape })),
  );
  const lyingCount = lyings.length;
  const pieceCount = bunches.reduce((sum, { count }) => sum + count, 0);
  const bunchOf = Int32Array.from(lyings, ({ bunch }) => bunch);
  const across = Float64Array.from(lyings, ({ shape }) => shape.across);
  const along = Float64Array.from(lyings, ({ shape }) => shape.along);
  const counts = Int32Array.from(bunches, ({ count }) => count);
  const pieceArea = Float64Array.from(lyings, ({ shape }) => shape.across * shape.along);
  const area = lyings.reduce((sum, { bunch }, i) => {
    const first = i === 0 || bunchOf[i - 1] !== bunch;
    return first ? sum + (bunches[bunch] as Bunch).count * (pieceArea[i] as number) : sum;
  }, 0);
  const byWidth = Int32Array.from(lyings.keys()).sort((a, b) => (across[a] as number) - (across[b] as number) || a - b);

  // The skyline: segment i lies at height segmentY[i] from segmentX[i] to segmentX[i + 1]; the last one is a stop at the width.
  const segmentX = new Float64Array(pieceCount + 2);
  const segmentY = new Float64Array(pieceCount + 2);
  const left = new Int32Array(bunches.length);
  // The ways to lie by their place in the order, linked while pieces are left; place `lyingCount` is the head.
  const next = new Int32Array(lyingCount + 1);
  const laidAs = new Int32Array(pieceCount);
  const laidX = new Float64Array(pieceCount);
  const laidY = new Float64Array(pieceCount);
  let laidCount = 0;

  function fill(order: ArrayLike<number>, width: number, height: number, limit: number, byFit: boolean): number {
    left.set(counts);
    for (let place = 0; place < lyingCount; place++) next[place] = place + 1;
    next[lyingCount] = 0;
    let narrowest = 0;
    let segments = 1;
    segmentX[0] = 0;
    segmentY[0] = 0;
    segmentX[1] = width;
    laidCount = 0;
    let outside = area;
    // What may be lost before more than `limit` must stay outside.
    let spare = width * height - area + limit;
    while (laidCount < pieceCount) {
      let lowest = 0;
      let y = segmentY[0] as number;
      for (let i = 1; i < segments; i++) {
        if ((segmentY[i] as number) < y) {
          y = segmentY[i] as number;
          lowest = i;
        }
      }
      if (y >= height) break;
      const x = segmentX[lowest] as number;
      const end = segmentX[lowest + 1] as number;
      const gap = end - x;
      const leftWall = (lowest > 0 ? (segmentY[lowest - 1] as number) : height) - y;
      const rightWall = (lowest + 1 < segments ? (segmentY[lowest + 1] as number) : height) - y;
      while (left[bunchOf[byWidth[narrowest] as number] as number] === 0) narrowest++;

      let chosen = -1;
      if (gap >= (across[byWidth[narrowest] as number] as number)) {
        const room = height - y;
        let best = -1;
        let previous = lyingCount;
        for (let place = next[lyingCount] as number; place < lyingCount; place = next[place] as number) {
          const lying = order[place] as number;
          if (left[bunchOf[lying] as number] === 0) {
            next[previous] = next[place] as number;
            continue;
          }
          previous = place;
          const wide = across[lying] as number;
          const long = along[lying] as number;
          if (wide > gap || long > room) continue;
          let fit = wide === gap ? FILLS_WIDTH : 0;
          if (long === leftWall) fit += LEVEL_LEFT;
          if (long === rightWall) fit += LEVEL_RIGHT;
          if (fit <= best) continue;
          best = fit;
          chosen = lying;
          if (!byFit || fit === BEST_FIT) break;
        }
      }

      if (chosen < 0) {
        // Nothing fits: the gap is raised to its lower wall and joined to it.
        const wall = Math.min(leftWall, rightWall);
        spare -= gap * wall;
        if (spare < 0) return Number.POSITIVE_INFINITY;
        segmentY[lowest] = y + wall;
        if (lowest + 1 < segments && rightWall === wall) segments = removed(lowest + 1, segments);
        if (lowest > 0 && leftWall === wall) segments = removed(lowest, segments);
        continue;
      }

      const bunch = bunchOf[chosen] as number;
      const wide = across[chosen] as number;
      const long = along[chosen] as number;
      const atRight = long !== leftWall && (long === rightWall || rightWall > leftWall);
      laidAs[laidCount] = chosen;
      laidX[laidCount] = atRight ? end - wide : x;
      laidY[laidCount] = y;
      laidCount++;
      outside -= pieceArea[chosen] as number;
      left[bunch] = (left[bunch] as number) - 1;
      segments = raised(lowest, segments, wide, y + long, atRight);
    }
    return laidCount === pieceCount ? 0 : outside;
  }

  /** Takes out the start of segment i, so that the one before it reaches on over it. */
  function removed(i: number, segments: number): number {
    for (let k = i; k < segments; k++) {
      segmentX[k] = segmentX[k + 1] as number;
      segmentY[k] = segmentY[k + 1] as number;
    }
    return segments - 1;
  }

  /** Raises a part of segment i, at its left or right end, and joins it to what is level with it. */
  function raised(i: number, segments: number, wide: number, y: number, atRight: boolean): number {
    let count = segments;
    const whole = (segmentX[i + 1] as number) - (segmentX[i] as number) === wide;
    if (whole) {
      segmentY[i] = y;
      if (i + 1 < count && segmentY[i + 1] === y) count = removed(i + 1, count);
      if (i > 0 && segmentY[i - 1] === y) count = removed(i, count);
      return count;
    }
    if (atRight) {
      const start = (segmentX[i + 1] as number) - wide;
      if (i + 1 < count && segmentY[i + 1] === y) {
        segmentX[i + 1] = start;
        return count;
      }
      count = opened(i + 1, count);
      segmentX[i + 1] = start;
      segmentY[i + 1] = y;
      return count;
    }
    if (i > 0 && segmentY[i - 1] === y) {
      segmentX[i] = (segmentX[i] as number) + wide;
      return count;
    }
    count = opened(i, count);
    segmentY[i] = y;
    segmentX[i + 1] = (segmentX[i] as number) + wide;
    return count;
  }

  /** Makes room for a segment before segment i, which keeps its values twice. */
  function opened(i: number, segments: number): number {
    for (let k = segments; k >= i; k--) {
      segmentX[k + 1] = segmentX[k] as number;
      segmentY[k + 1] = segmentY[k] as number;
    }
    return segments + 1;
  }

  function laid(): Laid[] {
    return Array.from({ length: laidCount }, (_, k) => {
      const { bunch, shape } = lyings[laidAs[k] as number] as Lying;
      return { size: (bunches[bunch] as Bunch).size, shape, x: laidX[k] as number, y: laidY[k] as number };
    });
  }

  function top(): number {
    let highest = 0;
    for (let k = 0; k < laidCount; k++) {
      highest = Math.max(highest, (laidY[k] as number) + (along[laidAs[k] as number] as number));
    }
    return highest;
  }

  return { lyings, area, fill, laid, top };
}
