import type { Axis, Box } from "../geometry/box.ts";
import type { Panel, Slack } from "../model/plan.ts";
import { type Trapezoid, trapezoids } from "./geometry/region.ts";
import type { Job } from "./job.ts";
import type { ElevationView } from "./layoutView.ts";
import { leastKept } from "./lines.ts";
import { insidesMeet, lengthOf, otherAxis, rangeOn } from "./ranges.ts";

export const shiftSides = ["left", "right", "down", "up"] as const;
export type ShiftSide = (typeof shiftSides)[number];

/** Below this a bit of film that only one panel covers is the error of a division. Ticks. */
const HARDLY = 1e-4;

/**
 * How far each panel and fill of an elevation may truly be shifted alone, to each side: until a needed point has no window
 * over it, or a seam of the panel shares less with a neighbour than must be kept of it; at most its own size.
 *
 * @returns by panel; places on slopes unrounded
 *
 * What only this panel covers is found by cutting its window up at the edges of all others that meet it. Time: for each
 * panel the region's edges and the windows about it; copies of an elevation make no difference.
 */
export function shiftsOf(job: Job, view: ElevationView): ReadonlyMap<Panel, Slack> {
  const panels = view.sections.flatMap((section) => section.panels);
  const laps = lapsOf(job, view);
  return new Map(
    panels.map((panel) => {
      const others = panels.filter((other) => other !== panel && insidesMeet(other.window, panel.window));
      const own = laps.filter((lap) => lap.panel === panel);
      const x = shiftsOn("x", view, panel, others, own);
      const y = shiftsOn("y", view, panel, others, own);
      return [panel, { left: x.low, right: x.high, down: y.low, up: y.high }];
    }),
  );
}

/** A panel, one that it shares a seam with across an axis, and what the two must still share of it. */
interface Lap {
  readonly panel: Panel;
  readonly other: Panel;
  readonly axis: Axis;
  readonly kept: number;
}

function lapsOf({ instance: { rules } }: Job, view: ElevationView): Lap[] {
  const both = (axis: Axis, low: Panel, high: Panel, kept: number): Lap[] => [
    { panel: low, other: high, axis, kept },
    { panel: high, other: low, axis, kept },
  ];
  return [
    ...view.seams.flatMap(({ seam, low, high, section }) =>
      both(seam.axis, low, high, leastKept(section.butted, rules)),
    ),
    ...view.borders.flatMap(({ axis, facing, facts }) =>
      facing.flatMap(({ low, high }) => both(axis, low, high, leastKept(facts.butted, rules))),
    ),
  ];
}

/** Shifts toward the low and the high end of one axis. */
function shiftsOn(
  axis: Axis,
  view: ElevationView,
  panel: Panel,
  others: readonly Panel[],
  laps: readonly Lap[],
): { low: number; high: number } {
  const own = rangeOn(axis, panel.window);
  const alone = coveredAlone(axis, view, panel.window, others);
  // Shifted up, the panel bares what it leaves at its low end, and the other way round.
  let high = Math.min(lengthOf(own), alone === null ? Infinity : alone.from - own.from);
  let low = Math.min(lengthOf(own), alone === null ? Infinity : own.to - alone.to);
  for (const lap of laps) {
    if (lap.axis !== axis) continue;
    const other = rangeOn(axis, lap.other.window);
    high = Math.min(high, other.to - own.from - lap.kept);
    low = Math.min(low, own.to - other.from - lap.kept);
  }
  return { low: Math.max(0, low), high: Math.max(0, high) };
}

/** From where to where on an axis there is anything needed in a window that no other window covers; null without any. */
function coveredAlone(
  axis: Axis,
  view: ElevationView,
  window: Box,
  others: readonly Panel[],
): { from: number; to: number } | null {
  const marks = others.flatMap((other) => {
    const { from, to } = rangeOn(axis, other.window);
    return [from, to];
  });
  let [from, to] = [Infinity, -Infinity];
  for (const piece of trapezoids(view.job.needed, axis, window, marks)) {
    const middle = (piece.from + piece.to) / 2;
    const across = others.flatMap((other) => {
      const along = rangeOn(axis, other.window);
      return along.from <= middle && middle <= along.to ? [rangeOn(otherAxis(axis), other.window)] : [];
    });
    across.sort((a, b) => a.from - b.from);
    let reached = -Infinity;
    for (const { from: next, to: end } of [...across, { from: Infinity, to: Infinity }]) {
      const bare = next > reached ? within(piece, reached, next) : null;
      if (bare !== null) [from, to] = [Math.min(from, bare.from), Math.max(to, bare.to)];
      reached = Math.max(reached, end);
    }
  }
  return from < to ? { from, to } : null;
}

/** From where to where a piece has anything between two levels; null where it has nothing. */
function within(piece: Trapezoid, above: number, below: number): { from: number; to: number } | null {
  const [a, b] = [part(piece, piece.high, (level) => level - above), part(piece, piece.low, (level) => below - level)];
  if (a === null || b === null) return null;
  const [from, to] = [Math.max(a.from, b.from), Math.min(a.to, b.to)];
  return to - from > HARDLY ? { from, to } : null;
}

/** Where along a piece a level that runs straight from end to end gives more than nothing. */
function part(
  { from, to }: Trapezoid,
  [start, end]: readonly [number, number],
  over: (level: number) => number,
): { from: number; to: number } | null {
  const [a, b] = [over(start), over(end)];
  if (a <= HARDLY && b <= HARDLY) return null;
  if (a > 0 && b > 0) return { from, to };
  if (a === Infinity || b === Infinity) return { from, to };
  const crossing = from + ((to - from) * a) / (a - b);
  return a > 0 ? { from, to: crossing } : { from: crossing, to };
}
