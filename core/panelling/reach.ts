import type { Axis, Box, Interval, Side } from "../geometry/box.ts";
import type { Region } from "../geometry/region.ts";
import { tickAbove, tickBelow } from "../geometry/region.ts";
import type { Bleed } from "../model/instance.ts";
import type { Ticks } from "../units/ticks.ts";

/**
 * How far windows must reach toward one side over a stretch of it, linear between its two ends. Values count outward:
 * positions toward the top and the right, negated ones toward the bottom and the left, so that farther is always more.
 */
export interface ReachPiece {
  readonly from: number;
  readonly to: number;
  readonly atFrom: number;
  readonly atTo: number;
}

/** A border on one side of a section: the stretch that it runs over and what windows carry past it. */
export interface SideBorder {
  readonly stretch: Interval;
  readonly half: Ticks;
}

export const outward = (side: Side): 1 | -1 => (side === "top" || side === "right" ? 1 : -1);

const edgeOf = (box: Box, side: Side): Ticks =>
  side === "left" ? box.x0 : side === "right" ? box.x1 : side === "bottom" ? box.y0 : box.y1;

/**
 * What windows of a section must reach toward `side`, by place along that side.
 *
 * Every needed stretch counts: one that ends at the outline by the bleed of that side, one that ends at an opening by the
 * openings' bleed, one that goes on past the section by half the overlap of the border there.
 *
 * @returns pieces in order of `from`; several may lie over the same place, and the farthest counts
 */
export function reachToward(
  region: Region,
  box: Box,
  side: Side,
  bleed: Bleed,
  borders: readonly SideBorder[],
): ReachPiece[] {
  const sign = outward(side);
  const pieces: ReachPiece[] = [];
  for (const { outline, opening, beyond, ...slab } of region.profile(box, side)) {
    const [from, to] = [onTick(slab.from), onTick(slab.to)];
    if (outline !== null) {
      pieces.push({ from, to, atFrom: sign * outline[0] + bleed[side], atTo: sign * outline[1] + bleed[side] });
    }
    if (opening !== null) {
      pieces.push({ from, to, atFrom: sign * opening[0] + bleed.openings, atTo: sign * opening[1] + bleed.openings });
    }
    if (!beyond) continue;
    for (const { stretch, half } of borders) {
      const [low, high] = [Math.max(from, stretch.from), Math.min(to, stretch.to)];
      const value = sign * edgeOf(box, side) + half;
      if (low < high) pieces.push({ from: low, to: high, atFrom: value, atTo: value });
    }
  }
  return pieces;
}

/** A crossing of edges that lies on a tick but for the error of its division: strips that end there must touch it. */
const onTick = (place: number): number => (tickBelow(place) === tickAbove(place) ? tickBelow(place) : place);

/** The farthest of the pieces over a closed stretch, rounded outward to a tick; -Infinity where there is none. */
export function farthest(pieces: readonly ReachPiece[], from: number, to: number): Ticks {
  let most = -Infinity;
  for (const piece of pieces) most = Math.max(most, mostOn(piece, from, to));
  return tickAbove(most);
}

/** The most of one piece over a closed stretch, unrounded. */
export function mostOn(piece: ReachPiece, from: number, to: number): number {
  if (piece.to < from || piece.from > to) return -Infinity;
  return Math.max(valueOn(piece, Math.max(from, piece.from)), valueOn(piece, Math.min(to, piece.to)));
}

function valueOn({ from, to, atFrom, atTo }: ReachPiece, at: number): number {
  if (atFrom === atTo || at <= from) return atFrom;
  if (at >= to) return atTo;
  return atFrom + ((at - from) / (to - from)) * (atTo - atFrom);
}

/** The borders on one side of a section, as `reachToward` takes them. */
export function bordersOnSide(
  borders: readonly { axis: Axis; low: number; high: number; stretch: Interval; half: Ticks }[],
  section: number,
  side: Side,
): SideBorder[] {
  const axis: Axis = side === "left" || side === "right" ? "x" : "y";
  const atHigh = outward(side) > 0;
  return borders.filter((border) => border.axis === axis && (atHigh ? border.low : border.high) === section);
}
