import type { Axis, Box } from "../geometry/box.ts";
import { neededRegion, type Region } from "../geometry/region.ts";
import type { PanellingLimits } from "../model/covering.ts";
import type { Elevation, Instance, Section } from "../model/instance.ts";
import { TICKS_PER, type Ticks } from "../units/ticks.ts";
import { CutTable, type Part } from "./cutTable.ts";
import { pricesOf } from "./groupPrices.ts";
import { groupMembers, type Member } from "./members.ts";
import { splitAxis, toBox, toSpan } from "./orientation.ts";
import { type PartingLines, type RectanglePrices, rectangleCosts } from "./rectangleCosts.ts";
import { seamGrid } from "./sectionTask.ts";

/** Most lines an axis along which an elevation is parted. */
export const MOST_LINES = 12;
/** Most ways of parting an elevation that are handed on. */
const MOST_PARTINGS = 5;
/** What an open seam on one copy counts beside its price: nothing, a share of a full panel's film, or more than all else. */
const SHARE_OF_PANEL = 0.3;
const MORE_THAN_ALL = 1e4;

/** One way to part an elevation: sections that tile its box, each with its direction. */
export interface Parting {
  readonly sections: readonly Section[];
}

export interface FoundPartings {
  /** Best first. */
  readonly partings: readonly Parting[];
  /** By axis, how many lines the elevation offers when that is more than MOST_LINES; else null. */
  readonly linesLeftOut: { readonly x: number | null; readonly y: number | null };
}

/**
 * Parts an elevation along its breaks, body lines and colour edges, so that its panels show few seams and take little
 * film: by cuts from side to side (guillotine cuts) along their places, each part with the direction that suits it.
 *
 * @param limits widest and longest panel by film, for one roll width
 * @returns at most five partings that differ from the sections given, best first; none where the elevation has no such
 *   lines or its own sections are as good
 *
 * A dynamic programme over all rectangles between the lines: a rectangle is split into panels one way or the other
 * (`rectangleCosts`), or cut along a line into two. Priced three times, by what an open seam counts beside its price; of
 * each pricing the best is taken, then the best of each first cut. Exact for the prices of `rectangleCosts` over
 * guillotine partings along the lines kept; what the panels really come to is worked out by `coverGroup` afterwards.
 * Parts are disjoint boxes and laps point one way along each axis, so the laps of T-junctions make no circle (see
 * `applyOrder`). Where an axis offers more than MOST_LINES lines, those that hide most needed length are kept.
 * Time for l lines an axis: O(l⁵) for the cuts, which is small beside the prices of the rectangles.
 * Two-dimensional guillotine dynamic programme: Gilmore and Gomory (1965), Operations Research 13(1), 94-120.
 */
export function findPartings(
  instance: Instance,
  source: Elevation,
  mirrors: readonly Elevation[],
  limits: PanellingLimits,
): FoundPartings {
  const members = groupMembers(instance, source, mirrors);
  const region = neededRegion(
    source.outline,
    source.openings.map(({ outline }) => outline),
  );
  const offered = { x: linesOf(source, region, "x"), y: linesOf(source, region, "y") };
  const linesLeftOut = {
    x: offered.x.length > MOST_LINES ? offered.x.length : null,
    y: offered.y.length > MOST_LINES ? offered.y.length : null,
  };
  if (offered.x.length === 0 && offered.y.length === 0) return { partings: [], linesLeftOut };
  const { box } = source;
  const lines: PartingLines = {
    x: [box.x0, ...best(offered.x), box.x1],
    y: [box.y0, ...best(offered.y), box.y1],
  };
  const films = members.map(({ elevation }) => elevation.film);
  const widest = Math.min(...films.map((film) => limits.acrossByFilm.get(film) ?? 0));
  const prices = rectanglePrices(instance, source, members, limits, widest);
  const costs = rectangleCosts(
    {
      source,
      region,
      members,
      rules: instance.rules,
      grid: seamGrid(instance.unit),
      maxAcross: (within) => Math.min(widest, leastAcross(source.sections, within) ?? Infinity),
      maxAlong: Math.min(...films.map((film) => limits.alongByFilm.get(film) ?? 0)),
    },
    lines,
    prices,
  );
  const tables = prices.perOpenSeam.map((_, pricing) => new CutTable(lines, costs, pricing));
  const partings: Parting[] = [];
  const seen = new Set([keyOf(source.sections)]);
  const add = (parts: readonly Part[] | null) => {
    if (parts === null || partings.length >= MOST_PARTINGS) return;
    const sections = sectionsOf(parts, source);
    const key = keyOf(sections);
    if (seen.has(key) || (sections.length === 1 && isWholeAnyWay(source))) return;
    seen.add(key);
    partings.push({ sections });
  };
  // What counts open seams for something first, then for most, then for nothing.
  const order = [1, 2, 0].map((pricing) => tables[pricing] as CutTable);
  for (const table of order) add(table.best());
  for (const table of order) for (const parts of table.byFirstCut()) add(parts);
  return { partings, linesLeftOut };
}

const isWholeAnyWay = ({ sections }: Elevation): boolean =>
  sections.length === 1 && sections[0]?.direction === "either";

/** The least `maxAcross` of the sections that a box overlaps; null where none limits it. */
export function leastAcross(sections: readonly Section[], box: Box): Ticks | null {
  const own = sections.flatMap(({ box: b, maxAcross }) =>
    maxAcross !== null && b.x0 < box.x1 && box.x0 < b.x1 && b.y0 < box.y1 && box.y0 < b.y1 ? [maxAcross] : [],
  );
  return own.length === 0 ? null : Math.min(...own);
}

interface Line {
  readonly at: Ticks;
  /** Needed length on it that features hide, those that hide better counting for more. */
  readonly worth: number;
}

const worthOf = { gap: 1, moulding: 1, bodyLine: 0.5 } as const;
const COLOUR_EDGE_WORTH = 0.4;

/** Every place of an axis inside the box that a break or a colour edge runs along, ascending. */
function linesOf({ box, breaks, colourEdges }: Elevation, region: Region, axis: Axis): Line[] {
  const features = [
    ...breaks.map((line) => ({ line, worth: worthOf[line.type] })),
    ...colourEdges.map((line) => ({ line, worth: COLOUR_EDGE_WORTH })),
  ].filter(({ line }) => line.axis === axis);
  const [low, high] = axis === "x" ? [box.x0, box.x1] : [box.y0, box.y1];
  const worthAt = new Map<Ticks, number>();
  for (const { line, worth } of features) {
    if (line.at <= low || line.at >= high) continue;
    const hidden = region
      .line(axis, line.at, { from: line.from, to: line.to })
      .reduce((sum, { from, to }) => sum + to - from, 0);
    if (hidden > 0) worthAt.set(line.at, (worthAt.get(line.at) ?? 0) + worth * hidden);
  }
  return [...worthAt].map(([at, worth]) => ({ at, worth })).sort((a, b) => a.at - b.at);
}

/** The places of the lines that are worth most, ascending. */
function best(lines: readonly Line[]): Ticks[] {
  return [...lines]
    .sort((a, b) => b.worth - a.worth || a.at - b.at)
    .slice(0, MOST_LINES)
    .map(({ at }) => at)
    .sort((a, b) => a - b);
}

function rectanglePrices(
  instance: Instance,
  { box: { x0, y0, x1, y1 } }: Elevation,
  members: readonly Member[],
  limits: PanellingLimits,
  widest: Ticks,
): RectanglePrices {
  const { copies, perArea: priced, perPanel, perSeamLength } = pricesOf(instance, members, null, limits);
  // Where film is free its area still counts, so that there is a best at all.
  const perArea = priced === 0 ? copies / TICKS_PER[instance.unit] ** 2 : priced;
  const panel = (perArea / copies) * widest * Math.min(x1 - x0, y1 - y0);
  return {
    perArea,
    perPanel,
    perSeamLength,
    perPenalty: instance.rules.avoidPenalty,
    perOpenSeam: [0, SHARE_OF_PANEL * panel, MORE_THAN_ALL * panel],
  };
}

/**
 * Parts side by side that run the same way are one: their border is a seam that the section has anyway, or could leave
 * out. Not so where the panels of one may be wider than those of the other.
 */
function merged(parts: readonly Part[], source: Elevation): Part[] {
  const list = [...parts];
  const across = ({ box }: Part) => leastAcross(source.sections, box);
  for (let i = 0; i < list.length; i++) {
    for (let j = 0; j < list.length; j++) {
      const [a, b] = [list[i] as Part, list[j] as Part];
      if (i === j || a.direction !== b.direction || across(a) !== across(b)) continue;
      const axis = splitAxis(a.direction);
      const [p, q] = [toSpan(a.box, axis), toSpan(b.box, axis)];
      if (p.u1 !== q.u0 || p.v0 !== q.v0 || p.v1 !== q.v1) continue;
      list[i] = { ...a, box: toBox({ ...p, u1: q.u1 }, axis) };
      list.splice(j, 1);
      return merged(list, source);
    }
  }
  return list;
}

/** Sections named by their place, lowest row first, then from the left. */
function sectionsOf(parts: readonly Part[], source: Elevation): Section[] {
  const given = new Set(source.sections.map(({ id }) => id));
  const prefix = [...given].some((id) => id.startsWith("part-")) ? "found-part-" : "part-";
  return merged(parts, source)
    .sort((a, b) => a.box.y0 - b.box.y0 || a.box.x0 - b.box.x0)
    .map(({ box, direction }, i) => ({
      id: `${prefix}${i + 1}`,
      box,
      direction,
      maxAcross: leastAcross(source.sections, box),
      heads: source.heads,
    }));
}

const keyOf = (sections: readonly Section[]): string =>
  sections
    .map(({ box: { x0, y0, x1, y1 }, direction }) => [x0, y0, x1, y1, direction].join(" "))
    .sort()
    .join(", ");
