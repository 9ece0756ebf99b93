import type { Axis, Box, Interval, Side } from "../geometry/box.ts";
import type { ProfileSlab, Region } from "../geometry/region.ts";
import type { Bleed, Direction, Elevation, Rules } from "../model/instance.ts";
import { SeamWeights } from "../model/seamWeight.ts";
import type { Ticks } from "../units/ticks.ts";

/**
 * What every split of one section in one direction must at least come to, wherever its seams lie. Lengths in ticks,
 * `reachArea` in square ticks.
 */
export interface SectionNeeds {
  readonly direction: Direction;
  /** Width of the columns in which anything is needed. */
  readonly needed: number;
  /** Integral over those columns of how far a window over the column must reach along the roll. */
  readonly reachArea: number;
  /** Least reach of any such column: no panel is shorter. */
  readonly leastAlong: number;
  /** Widths to be covered across, bleed and border overlap included, columns without need left out; one for each stretch between forced seams. */
  readonly widths: readonly number[];
  /** Places at which two panels may end without a seam, as nothing is needed there over the whole length. */
  readonly gaps: number;
  /** Seams that breaks could hide, at most. */
  readonly hidden: number;
  /** Width across that panels of at least this length along must cover, longest first; lengths above `leastAlong` only. */
  readonly tall: readonly { readonly along: number; readonly across: number }[];
  /** Least needed length on any line a seam could take, at the least weight that any place has. */
  readonly leastSeam: number;
}

/**
 * The needs of a section split in one direction.
 *
 * @param box of the section; ticks
 * @param plain true: only what is needed counts, without bleed, overlaps and forced seams, as when fills might move the borders
 * @returns null when nothing is needed in the box
 *
 * Why the figures hold for every split: a window must reach the farthest needed end in each column of its strip, moved out
 * by bleed or half the least overlap (DESIGN.md rule 6), so no window over a column is shorter than that column's reach;
 * the first and last window reach the outermost needs likewise. All overlaps are at least `rules.overlap`, which for film
 * that meets edge to edge is given as 0, at a forced seam on a gap or moulding at least `rules.trimOverlap`.
 */
export function sectionNeeds(
  elevation: Elevation,
  region: Region,
  rules: Rules,
  box: Box,
  direction: Direction,
  plain: boolean,
): SectionNeeds | null {
  const bleed: Bleed = plain ? { left: 0, right: 0, bottom: 0, top: 0, openings: 0 } : elevation.bleed;
  const half = plain ? 0 : rules.overlap / 2;
  const [low, high]: [Side, Side] = direction === "vertical" ? ["bottom", "top"] : ["left", "right"];
  const columns = columnsOf(region, box, low, high, bleed, half);
  const used = columns.filter(({ length }) => length > 0);
  const [first, last] = [used[0], used.at(-1)];
  if (first === undefined || last === undefined) return null;
  const span = { from: first.from, to: last.to };
  const inside = columns.filter(({ from, to }) => from >= span.from && to <= span.to);
  const [start, end]: [Side, Side] = direction === "vertical" ? ["left", "right"] : ["bottom", "top"];
  const reach = {
    from: Math.min(...region.profile(box, start).map((slab) => farthest(slab, box, start, bleed, half))),
    to: Math.max(...region.profile(box, end).map((slab) => farthest(slab, box, end, bleed, half))),
  };
  const axis: Axis = direction === "vertical" ? "x" : "y";
  const within = axis === "x" ? { from: box.y0, to: box.y1 } : { from: box.x0, to: box.x1 };
  return {
    direction,
    needed: used.reduce((sum, { from, to }) => sum + to - from, 0),
    reachArea: used.reduce((sum, { from, to, length }) => sum + (to - from) * length, 0),
    leastAlong: Math.min(...used.map(({ least }) => least)),
    widths: plain
      ? [used.reduce((sum, { from, to }) => sum + to - from, 0)]
      : widthsBetween(elevation, region, rules, axis, box, within, reach, inside),
    gaps: runsWithout(inside),
    hidden: new Set(
      elevation.breaks
        .filter((line) => line.axis === axis && line.type !== "bodyLine" && isInside(line.at, axis, box))
        .map(({ at }) => at),
    ).size,
    tall: tallParts(used, Math.max(0, span.from - reach.from), Math.max(0, reach.to - span.to)),
    leastSeam: Math.floor(
      Math.min(...used.map(({ from, to }) => leastLine(region, axis, from, to, within))) *
        new SeamWeights(elevation, rules).least,
    ),
  };
}

interface Column {
  readonly from: number;
  readonly to: number;
  /** Mean reach that is surely asked here, and the least; 0 where nothing is needed. */
  readonly length: number;
  readonly least: number;
}

/** Both profiles come from the same slabs, so they pair up. */
function columnsOf(region: Region, box: Box, low: Side, high: Side, bleed: Bleed, half: number): Column[] {
  const tops = region.profile(box, high);
  return region.profile(box, low).map((bottom, i) => {
    const top = tops[i] as ProfileSlab;
    const lower = endsOf(bottom, box, low, bleed, half);
    const upper = endsOf(top, box, high, bleed, half);
    if (lower.length === 0 || upper.length === 0) return { from: bottom.from, to: bottom.to, length: 0, least: 0 };
    // The farthest of several lines reaches at least as far, on the mean and at the least, as each of them.
    const pairs = upper.flatMap((u) => lower.map((l) => [u[0] - l[0], u[1] - l[1]] as const));
    return {
      from: bottom.from,
      to: bottom.to,
      length: Math.max(...pairs.map(([a, b]) => (a + b) / 2)),
      least: Math.max(...pairs.map(([a, b]) => Math.min(a, b))),
    };
  });
}

/** Every end of need toward a side, moved out: at both ends of the slab and linear in between. */
function endsOf(slab: ProfileSlab, box: Box, side: Side, bleed: Bleed, half: number): (readonly [number, number])[] {
  const out = side === "top" || side === "right" ? 1 : -1;
  const ends: (readonly [number, number])[] = [];
  if (slab.outline !== null) ends.push([slab.outline[0] + out * bleed[side], slab.outline[1] + out * bleed[side]]);
  if (slab.opening !== null)
    ends.push([slab.opening[0] + out * bleed.openings, slab.opening[1] + out * bleed.openings]);
  if (slab.beyond) ends.push([sideOf(box, side) + out * half, sideOf(box, side) + out * half]);
  return ends;
}

const sideOf = (box: Box, side: Side): Ticks => ({ left: box.x0, right: box.x1, bottom: box.y0, top: box.y1 })[side];

function farthest(slab: ProfileSlab, box: Box, side: Side, bleed: Bleed, half: number): number {
  const ends = endsOf(slab, box, side, bleed, half).flat();
  return side === "top" || side === "right" ? Math.max(-Infinity, ...ends) : Math.min(Infinity, ...ends);
}

/** At most this many lengths are told apart. */
const MOST_LENGTHS = 24;

/** The panel over an outermost column also carries what is asked beyond it. */
function tallParts(used: readonly Column[], before: number, after: number): { along: number; across: number }[] {
  const parts = used.map(({ from, to, least }, i) => ({
    along: least,
    across: to - from + (i === 0 ? before : 0) + (i === used.length - 1 ? after : 0),
  }));
  parts.sort((a, b) => b.along - a.along);
  const shortest = parts.at(-1)?.along ?? 0;
  const steps: { along: number; across: number }[] = [];
  let across = 0;
  for (const [i, part] of parts.entries()) {
    across += part.across;
    if (part.along > shortest && part.along !== parts[i + 1]?.along) steps.push({ along: part.along, across });
  }
  if (steps.length <= MOST_LENGTHS) return steps;
  const last = steps.length - 1;
  return Array.from(
    { length: MOST_LENGTHS },
    (_, i) => steps[Math.round((i * last) / (MOST_LENGTHS - 1))] as { along: number; across: number },
  );
}

function runsWithout(columns: readonly Column[]): number {
  return columns.filter(({ length }, i) => length === 0 && (columns[i - 1]?.length ?? 0) > 0).length;
}

/** Widths to cover between forced seams, columns without need taken off. */
function widthsBetween(
  elevation: Elevation,
  region: Region,
  rules: Rules,
  axis: Axis,
  box: Box,
  within: Interval,
  reach: { from: number; to: number },
  columns: readonly Column[],
): number[] {
  const forced = elevation.breaks
    .filter((line) => line.axis === axis && line.mustSplit && isInside(line.at, axis, box))
    .filter((line) => {
      const stretches = region.line(axis, line.at, within);
      const [first, last] = [stretches[0], stretches.at(-1)];
      return first !== undefined && last !== undefined && line.from <= first.from && line.to >= last.to;
    });
  const halfAt = new Map<Ticks, number>();
  for (const { at, type } of forced) {
    const overlap = type === "bodyLine" ? rules.overlap : rules.trimOverlap;
    halfAt.set(at, Math.max(halfAt.get(at) ?? 0, overlap / 2));
  }
  const lines = [...halfAt].sort(([a], [b]) => a - b).filter(([at]) => at > reach.from && at < reach.to);
  const empty = columns.filter(({ length }) => length === 0);
  const widths: number[] = [];
  let [from, lead] = [reach.from, 0];
  for (const [at, half] of [...lines, [reach.to, 0] as const]) {
    const without = empty.reduce((sum, gap) => sum + Math.max(0, Math.min(gap.to, at) - Math.max(gap.from, from)), 0);
    widths.push(at + half - (from - lead) - without);
    [from, lead] = [at, half];
  }
  return widths;
}

const isInside = (at: Ticks, axis: Axis, box: Box): boolean =>
  axis === "x" ? at > box.x0 && at < box.x1 : at > box.y0 && at < box.y1;

/** Needed length is linear between the ends of a slab, so it is least at one of them; less what rounding added. */
function leastLine(region: Region, axis: Axis, from: number, to: number, within: Interval): number {
  const lengths = [region.beside(axis, from, within, 1), region.beside(axis, to, within, -1)].map((stretches) =>
    stretches.reduce((sum, stretch) => sum + stretch.to - stretch.from - 2, 0),
  );
  return Math.max(0, Math.min(...lengths));
}
