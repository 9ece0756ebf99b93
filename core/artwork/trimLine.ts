import type { Axis, Box, Point } from "../geometry/box.ts";
import type { SeamMap } from "../model/instance.ts";
import type { Ticks } from "../units/ticks.ts";

/** Where two panels lap: the seam runs along the box, upright for `axis` x, level for y. */
export interface TrimBand {
  readonly axis: Axis;
  /** What both panels cover, of positive length along the seam. */
  readonly box: Box;
  /** Place of the seam on its axis: of lines equally little seen, the one nearest to it is taken. */
  readonly near: Ticks;
}

/** Length of a step straight on and of one that also leads sideways: Borgefors (1986), CVGIP 34(3), 344–371. */
const STRAIGHT = 5;
const SLANTED = 7;

/**
 * The line of least visibility through an overlap, from one of its ends to the other: where both films may be trimmed so
 * that the cut is seen least.
 *
 * From cell to cell the line goes one on along the seam and at most one sideways. A step costs its length (5 straight, 7
 * slanted) times the sum of its two cells, each its value in the map (for upright seams or level ones) plus 1, so that on
 * flat ground the straight line is best. Found by dynamic programming over the cells, as cuts between overlapping patches
 * are: Efros and Freeman (2001), SIGGRAPH, 341–346.
 *
 * @param visibility a map over the band, or over part of it; 0 outside
 * @param band its box at least as wide as a cell somewhere, else the line is the straight one
 * @returns corners of the line in ticks, from the low end of the band to the high one, none of them on a straight
 *   stretch; at least two. Never outside the band.
 *
 * Time and memory O(cells of the band). Ties: least distance from `near`, summed over the cells, then left or low.
 * Guarantee: no line of such steps costs less.
 */
export function trimLine(visibility: SeamMap, band: TrimBand): Point[] {
  const { cell } = visibility;
  const upright = band.axis === "x";
  const along = upright ? { from: band.box.y0, to: band.box.y1 } : { from: band.box.x0, to: band.box.x1 };
  const beside = upright ? { from: band.box.x0, to: band.box.x1 } : { from: band.box.y0, to: band.box.y1 };
  const [alongOrigin, besideOrigin] = upright ? [visibility.y0, visibility.x0] : [visibility.x0, visibility.y0];
  const point = (place: number, side: number): Point =>
    upright ? { x: Math.round(side), y: Math.round(place) } : { x: Math.round(place), y: Math.round(side) };

  const stages = middlesWithin(along, alongOrigin, cell);
  const lanes = middlesWithin(beside, besideOrigin, cell);
  if (stages.count === 0 || lanes.count === 0) {
    const side = Math.min(Math.max(band.near, beside.from), beside.to);
    return [point(along.from, side), point(along.to, side)];
  }
  const middleOf = (index: number, origin: number): number => origin + (index + 0.5) * cell;
  const price = (stage: number, lane: number): number =>
    1 + valueAt(visibility, band.axis, stages.first + stage, lanes.first + lane);
  const drift = Array.from({ length: lanes.count }, (_, lane) =>
    Math.abs(middleOf(lanes.first + lane, besideOrigin) - band.near),
  );

  let best = drift.map((away, lane): Standing => ({ cost: stages.count === 1 ? price(0, lane) : 0, away }));
  const cameFrom: Int8Array[] = [];
  for (let stage = 1; stage < stages.count; stage++) {
    const next: Standing[] = [];
    const turns = new Int8Array(lanes.count);
    for (let lane = 0; lane < lanes.count; lane++) {
      let reached: Standing | null = null;
      // Straight on first, so that it stays where another is only as good.
      for (const turn of [0, -1, 1] as const) {
        const before = best[lane + turn];
        if (before === undefined) continue;
        const length = turn === 0 ? STRAIGHT : SLANTED;
        const cost = before.cost + length * (price(stage - 1, lane + turn) + price(stage, lane));
        const standing = { cost, away: before.away + (drift[lane] as number) };
        if (reached !== null && !isLess(standing, reached)) continue;
        reached = standing;
        turns[lane] = turn;
      }
      next.push(reached as Standing);
    }
    cameFrom.push(turns);
    best = next;
  }

  let lane = best.reduce((least, standing, here) => (isLess(standing, best[least] as Standing) ? here : least), 0);
  const taken = [lane];
  for (const turns of cameFrom.reverse()) {
    lane += turns[lane] as number;
    taken.push(lane);
  }
  taken.reverse();
  const sideOf = (taken: number): number => middleOf(lanes.first + taken, besideOrigin);
  const corners = taken.map((at, stage) => point(middleOf(stages.first + stage, alongOrigin), sideOf(at)));
  return withoutStraight(
    [
      point(along.from, sideOf(taken[0] as number)),
      ...corners,
      point(along.to, sideOf(taken[taken.length - 1] as number)),
    ],
    upright,
  );
}

interface Standing {
  readonly cost: number;
  readonly away: number;
}

const isLess = (a: Standing, b: Standing): boolean => a.cost < b.cost || (a.cost === b.cost && a.away < b.away);

/** The cells whose middles lie within from..to: the first one's index and how many. */
function middlesWithin(
  { from, to }: { readonly from: number; readonly to: number },
  origin: number,
  cell: number,
): { readonly first: number; readonly count: number } {
  const first = Math.ceil((from - origin) / cell - 0.5);
  const last = Math.floor((to - origin) / cell - 0.5);
  return { first, count: Math.max(0, last - first + 1) };
}

function valueAt(map: SeamMap, axis: Axis, along: number, beside: number): number {
  const [column, row] = axis === "x" ? [beside, along] : [along, beside];
  if (column < 0 || row < 0 || column >= map.columns || row >= map.rows) return 0;
  return (axis === "x" ? map.upright : map.level)[row * map.columns + column] as number;
}

/** Leaves out corners at which the line goes straight on. Rounding to ticks bends no line by more than half a tick. */
function withoutStraight(points: readonly Point[], upright: boolean): Point[] {
  const slope = (a: Point, b: Point): number => {
    const [along, beside] = upright ? [b.y - a.y, b.x - a.x] : [b.x - a.x, b.y - a.y];
    return along === 0 ? 0 : Math.round((beside / along) * 1000) / 1000;
  };
  const kept: Point[] = [];
  for (const [at, point] of points.entries()) {
    const before = kept.at(-1);
    if (before !== undefined && point.x === before.x && point.y === before.y) continue;
    const next = points[at + 1];
    if (before === undefined || next === undefined || slope(before, point) !== slope(point, next)) kept.push(point);
  }
  return kept;
}
