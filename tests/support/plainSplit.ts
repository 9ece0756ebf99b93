import type { JobDocument } from "../../shared/jobFile.ts";
import { tinyGrid } from "./tinyJob.ts";

/**
 * Splits a tiny job on its grid by looking at cells, with none of the program's own geometry: what the engine is held
 * against. Only for the jobs of `tinySquareJob`: one section over the whole box, split upright, edges upright or level,
 * one bleed for all sides, breaks and colour edges over the full height.
 *
 * Lengths here are whole numbers of grid cells. On such a job every constraint on a seam has its limits on the grid (half
 * overlaps are whole cells), so a split exists if and only if one exists on the grid.
 */
type Points = readonly (readonly [number, number])[];

interface TinyCells {
  readonly columns: number;
  /** By column from the left: which cells, from the bottom, need film. */
  readonly needed: readonly (readonly boolean[])[];
}

const cells = (length: number): number => Math.round(length / tinyGrid);

/** Even-odd test of a point that lies on no edge. */
function contains(outline: Points, x: number, y: number): boolean {
  let inside = false;
  for (const [index, [x1, y1]] of outline.entries()) {
    const [x0, y0] = outline.at(index - 1) as readonly [number, number];
    if (y0 > y !== y1 > y && x < x0 + ((y - y0) / (y1 - y0)) * (x1 - x0)) inside = !inside;
  }
  return inside;
}

function rasterOf(job: JobDocument): TinyCells {
  const elevation = job.elevations?.[0];
  const outline = (elevation?.outline ?? []) as Points;
  const openings = (elevation?.openings ?? []).map((opening) => opening.outline as Points);
  const columns = cells(Math.max(...outline.map(([x]) => x)));
  const rows = cells(Math.max(...outline.map(([, y]) => y)));
  const middle = (index: number): number => (index + 0.5) * tinyGrid;
  const needed = Array.from({ length: columns }, (_, column) =>
    Array.from({ length: rows }, (_unused, row) => {
      const [x, y] = [middle(column), middle(row)];
      return contains(outline, x, y) && !openings.some((opening) => contains(opening, x, y));
    }),
  );
  return { columns, needed };
}

/** Lowest and highest needed point of some columns, or null where they need nothing. */
function heightOver({ needed }: TinyCells, from: number, to: number): readonly [number, number] | null {
  let [low, high] = [Infinity, -Infinity];
  for (let column = Math.max(from, 0); column < Math.min(to, needed.length); column++) {
    const column_ = needed[column] ?? [];
    const first = column_.indexOf(true);
    if (first < 0) continue;
    low = Math.min(low, first);
    high = Math.max(high, column_.lastIndexOf(true) + 1);
  }
  return low < high ? [low, high] : null;
}

interface PossibleSeam {
  readonly half: number;
  readonly open: boolean;
  readonly visible: boolean;
  readonly allowed: boolean;
}

/** The answer, or null where the wording leaves room: a demanded seam with film on one side, a zone met on a line alone. */
export type PlainAnswer = { readonly fewestVisible: number | null } | null;

/**
 * The fewest visible seams over all splits of a tiny job on the grid, `fewestVisible: null` when there is no split.
 *
 * Tries every panel between every two places in turn, keeping for each place and each number of open seams so far the
 * fewest visible ones: at most 40 places and as many open seams, so a few thousand steps.
 */
export function plainSplit(job: JobDocument): PlainAnswer {
  const raster = rasterOf(job);
  const { columns } = raster;
  const elevation = job.elevations?.[0];
  const { bleed, overlap, trimOverlap, maxOpenSeams } = job.rules;
  if (overlap === 0) return null; // a band without width: whether it meets a zone is a matter of wording
  const film = job.films?.[0];
  const printable = cells((film?.rollWidths[0] ?? 0) - 2 * (film?.edgeMargin ?? 0));
  const breaks = elevation?.breaks ?? [];
  const filled = Array.from({ length: columns }, (_, column) => heightOver(raster, column, column + 1) !== null);

  /** Whether a band meets a zone of that rule, when the lines at its edges count (closed) and when they do not. */
  const meets = (from: number, to: number, closed: boolean): boolean => {
    const height = heightOver(raster, closed ? from - 1 : from, closed ? to + 1 : to);
    if (height === null) return false;
    return (elevation?.keepClear ?? []).some(({ box: [x0, y0, x1, y1], rule }) => {
      const across = from < to ? from < cells(x1) && to > cells(x0) : from > cells(x0) && from < cells(x1);
      return rule === "never" && across && height[0] < cells(y1) && height[1] > cells(y0);
    });
  };

  let unsure = false;
  const seamAt = (at: number): PossibleSeam => {
    const here = breaks.filter((line) => cells(line.at) === at);
    const isBreak = here.some(({ type }) => type === "gap" || type === "moulding" || type === undefined);
    const half = cells((isBreak ? trimOverlap : overlap) / 2);
    const onColour = (elevation?.colourEdges ?? []).some((edge) => cells(edge.at) === at);
    if (isBreak) {
      // The line itself: needed where film lies on either side.
      const height = heightOver(raster, at - 1, at + 1);
      const clash = (elevation?.keepClear ?? []).some(
        ({ box: [x0, y0, x1, y1], rule }) =>
          rule === "never" &&
          at > cells(x0) &&
          at < cells(x1) &&
          height !== null &&
          height[0] < cells(y1) &&
          height[1] > cells(y0),
      );
      return { half, open: false, visible: false, allowed: !clash };
    }
    const [strict, generous] = [meets(at - half, at + half, false), meets(at - half, at + half, true)];
    if (strict !== generous) unsure = true;
    const bodyLine = here.length > 0;
    return { half, open: !bodyLine && !onColour, visible: true, allowed: !strict };
  };

  const seams = Array.from({ length: columns + 1 }, (_, at) =>
    at > 0 && at < columns && filled[at - 1] && filled[at] ? seamAt(at) : null,
  );
  const demanded = breaks.filter(({ mustSplit }) => mustSplit).map((line) => cells(line.at));
  for (const at of demanded) {
    if (at > 0 && at < columns && filled[at - 1] !== filled[at]) return null;
  }
  if (unsure) return null;

  // Places where a panel may begin or end: seams, and the ends of each stretch of columns that need film.
  const partStart = (at: number): boolean => filled[at] === true && filled[at - 1] !== true;
  const partEnd = (at: number): boolean => filled[at - 1] === true && filled[at] !== true;
  const mostOpen = maxOpenSeams ?? columns;
  /** By place and open seams so far: fewest visible seams of a split of all that lies to the left. */
  const best = Array.from({ length: columns + 1 }, () => new Map<number, number>());
  const first = filled.indexOf(true);
  (best[first] as Map<number, number>).set(0, 0);
  const nextStart = (end: number): number => filled.indexOf(true, end);

  for (let from = first; from < columns; from++) {
    const reached = best[from] as Map<number, number>;
    if (reached.size === 0) continue;
    const left = partStart(from) ? from - cells(bleed) : from - (seams[from]?.half ?? 0);
    for (let to = from + 1; to <= columns; to++) {
      if (demanded.some((at) => at > from && at < to && seams[at])) break;
      const seam = seams[to];
      const ends = partEnd(to);
      if (!ends && !seam?.allowed) continue;
      const right = ends ? to + cells(bleed) : to + (seam?.half ?? 0);
      if (right - left > printable) continue;
      const onward = ends ? nextStart(to) : to;
      const target = best[onward < 0 ? columns : onward] as Map<number, number>;
      for (const [open, visible] of reached) {
        const openThen = open + (!ends && seam?.open ? 1 : 0);
        if (openThen > mostOpen) continue;
        const visibleThen = visible + (!ends && seam?.visible ? 1 : 0);
        target.set(openThen, Math.min(visibleThen, target.get(openThen) ?? Infinity));
      }
    }
  }
  const all = [...(best[columns] as Map<number, number>).values()];
  return { fewestVisible: all.length === 0 ? null : Math.min(...all) };
}
