import { type Box, boundingBox } from "../geometry/box.ts";
import { polygonArea } from "../geometry/polygonArea.ts";
import { neededRegion, type Region } from "../geometry/region.ts";
import { countedGap, isOnlyFill, leastRatio } from "../model/fillFilm.ts";
import type { Direction, Elevation, Film, Instance } from "../model/instance.ts";
import { printableWidth } from "../model/printableWidth.ts";
import { TICKS_PER, type Ticks } from "../units/ticks.ts";
import {
  type FilmBound,
  type FilmTask,
  filmBound,
  isPossible,
  type LimitedTask,
  limitedTask,
  type Prices,
  payingSeamPrices,
} from "./filmBound.ts";
import { lengthBound } from "./lengthBound.ts";
import { type SectionNeeds, sectionNeeds } from "./sectionNeeds.ts";
import type { Size } from "./sizes.ts";
import { splitOptions } from "./splitOptions.ts";

export interface BoundQuestion {
  /** As in a layout: the width of the panels of each film that offers it; null: widths may be mixed. */
  readonly rollWidth: Ticks | null;
  readonly nesting: "crosscut" | "free";
  /** Most visible seams, over all copies, borders included. */
  readonly seams: number;
}

export interface LowerBound {
  /** Money in the job's currency. */
  readonly cost: number;
  /** Square units of the job. */
  readonly filmArea: number;
  /** Which argument gave the cost. */
  readonly by: string;
}

/**
 * A cost and a film area that no plan of the job with this roll width and nesting and at most so many visible seams goes
 * under, whatever its seams, directions, fills and rolls. Sees the instance, never a plan.
 *
 * For one question; `lowerBounds` answers many of the same job faster.
 */
export const lowerBound = (instance: Instance, question: BoundQuestion): LowerBound => lowerBounds(instance)(question);

/**
 * Prepares the bounds of one job.
 *
 * @returns a function from questions to bounds
 *
 * The bound is a sum over the films of what each must at least cost; films share nothing but the seam count. For each
 * section and direction `sectionNeeds` holds what every split must meet and `splitOptions` what so many panels come to;
 * `filmBound` turns that into film. The limit on visible seams is priced (Lagrange): for every price p ≥ 0,
 * min(cost) ≥ min(cost + p x visible seams) - p x limit, and the right side falls apart into one minimum for each section.
 * The highest over some prices is taken. Elevations that may have fills take the lower of two bounds: without fills, and
 * with everything within reach of a fill counted only as area in the cheaper film.
 * Time O(sections x panels x prices); the geometry is worked out once.
 */
export function lowerBounds(instance: Instance): (question: BoundQuestion) => LowerBound {
  const shapes = instance.elevations.map((elevation) => elevationNeeds(instance, elevation));
  return (question) => {
    const unit = TICKS_PER[instance.unit];
    const mixed = question.rollWidth === null;
    const films = instance.films.map((film) => ({
      film,
      tasks: tasksOf(instance, film, shapes, question)
        .filter((task) => mixed || isPossible(task))
        .map((task) => limitedTask(task, question.seams)),
    }));
    const highest = (pricesOf: (film: Film) => Prices) =>
      overSeamPrices(
        films.map(({ film, tasks }) => ({ tasks, prices: pricesOf(film) })),
        question.seams,
        mixed,
      );
    const perArea = (film: Film) => ({
      film: (film.pricePerArea + film.laminatePricePerArea) / unit ** 2,
      ink: film.inkPricePerArea / unit ** 2,
    });
    const { panelPrice, seamPricePerLength } = instance.rules;
    const money = highest((film) => ({
      ...perArea(film),
      panel: panelPrice,
      seam: seamPricePerLength / unit,
      ofFill: perArea,
    }));
    const areaAlone = { film: 1 / unit ** 2, ink: 0 };
    const area = highest(() => ({ ...areaAlone, panel: 0, seam: 0, ofFill: () => areaAlone }));
    return { cost: money.value, filmArea: area.value, by: money.by };
  };
}

interface FilmQuestion {
  readonly tasks: readonly LimitedTask[];
  readonly prices: Prices;
}

/** The highest bound over prices for a visible seam: 0, and those at which one seam more would pay somewhere. */
function overSeamPrices(films: readonly FilmQuestion[], seams: number, mixed: boolean): FilmBound {
  let best: FilmBound = { value: 0, by: "" };
  for (const seamPrice of seamPrices(films)) {
    const parts = films.map(({ tasks, prices }) => filmBound(tasks, prices, seamPrice, mixed));
    const value = parts.reduce((sum, part) => sum + part.value, 0) - seamPrice * seams;
    if (value <= best.value) continue;
    best = { value, by: [...new Set(parts.map(({ by }) => by).filter((by) => by !== ""))].join("; ") };
  }
  return best;
}

/** At most this many prices are tried. */
const MOST_PRICES = 24;

function seamPrices(films: readonly FilmQuestion[]): number[] {
  const found = new Set<number>();
  for (const { tasks, prices } of films) for (const price of payingSeamPrices(tasks, prices)) found.add(price);
  const sorted = [...found].sort((a, b) => a - b);
  if (sorted.length < MOST_PRICES) return [0, ...sorted];
  const last = sorted.length - 1;
  return [
    0,
    ...Array.from({ length: MOST_PRICES }, (_, i) => sorted[Math.round((i * last) / (MOST_PRICES - 1))] as number),
  ];
}

/** Geometry of one elevation that no question changes. */
interface ElevationNeeds {
  readonly elevation: Elevation;
  /** The elevation that it repeats, at the end of the chain, or itself. */
  readonly source: string;
  /** By section: the needs in each direction allowed, and how wide its panels may be. */
  readonly sections: readonly SectionChoices[];
  /** The same when fills are used, for the part that no fill reaches; null when the elevation has no fills to choose. */
  readonly withFills: {
    readonly sections: readonly SectionChoices[];
    /** Needed area within reach of a fill, square ticks. */
    readonly strip: number;
    readonly films: readonly Film[];
  } | null;
}

interface SectionChoices {
  readonly id: string;
  readonly maxAcross: Ticks | null;
  readonly needs: readonly SectionNeeds[];
}

function elevationNeeds(instance: Instance, elevation: Elevation): ElevationNeeds {
  const region = neededRegion(
    elevation.outline,
    elevation.openings.map(({ outline }) => outline),
  );
  const core = withoutFills(elevation);
  const whole = region.area(elevation.box);
  return {
    elevation,
    source: sourceOf(instance, elevation),
    sections: sectionsIn(instance, elevation, region, elevation.box, false),
    withFills:
      elevation.fill.length === 0
        ? null
        : {
            sections: core === null ? [] : sectionsIn(instance, elevation, region, core, true),
            strip: core === null ? whole : Math.max(0, whole - region.area(core)),
            films: instance.films.filter(({ id }) => elevation.fill.some(({ film }) => film === id)),
          },
  };
}

function sourceOf({ elevations }: Instance, elevation: Elevation): string {
  let here: Elevation | undefined = elevation;
  let id = elevation.id;
  while (here !== undefined && here.mirrorOf !== null && here.mirror === "exact") {
    id = here.mirrorOf;
    here = elevations.find((other) => other.id === id);
  }
  return id;
}

/** The elevation's box less the greatest depth of every fill; null when nothing is left. */
function withoutFills({ box, fill }: Elevation): Box | null {
  let { x0, y0, x1, y1 } = box;
  for (const { edge, maxDepth } of fill) {
    if (edge === "left") x0 = Math.max(x0, box.x0 + maxDepth);
    if (edge === "right") x1 = Math.min(x1, box.x1 - maxDepth);
    if (edge === "bottom") y0 = Math.max(y0, box.y0 + maxDepth);
    if (edge === "top") y1 = Math.min(y1, box.y1 - maxDepth);
  }
  return x0 < x1 && y0 < y1 ? { x0, y0, x1, y1 } : null;
}

/** What neighbouring panels of a film share at least where no break cuts it. */
const leastOverlap = ({ rules }: Instance, film: Film | undefined): Ticks =>
  film?.joint === "butted" ? 0 : rules.overlap;

function sectionsIn(
  instance: Instance,
  elevation: Elevation,
  region: Region,
  within: Box,
  plain: boolean,
): SectionChoices[] {
  const film = instance.films.find(({ id }) => id === elevation.film);
  const rules = { ...instance.rules, overlap: leastOverlap(instance, film) };
  return elevation.sections.flatMap((section) => {
    const box = {
      x0: Math.max(section.box.x0, within.x0),
      y0: Math.max(section.box.y0, within.y0),
      x1: Math.min(section.box.x1, within.x1),
      y1: Math.min(section.box.y1, within.y1),
    };
    if (box.x0 >= box.x1 || box.y0 >= box.y1) return [];
    const directions: Direction[] = section.direction === "either" ? ["vertical", "horizontal"] : [section.direction];
    const needs = directions.flatMap((direction) => {
      const found = sectionNeeds(elevation, region, rules, box, direction, plain);
      return found === null ? [] : [found];
    });
    return needs.length === 0 ? [] : [{ id: section.id, maxAcross: section.maxAcross, needs }];
  });
}

/** What one film is asked for, once for each width its panels may lie on. */
function tasksOf(
  instance: Instance,
  film: Film,
  shapes: readonly ElevationNeeds[],
  { rollWidth, nesting }: BoundQuestion,
): FilmTask[] {
  const widths = rollWidth !== null && film.rollWidths.includes(rollWidth) ? [rollWidth] : film.rollWidths;
  const { leader, trailer } = instance.rules;
  const overlap = leastOverlap(instance, film);
  const pieces = instance.pieces.filter((piece) => piece.film === film.id);
  // In free nesting a loose outline may lie in the corner that a panel's gap leaves: then no gap is counted at all.
  const gap = nesting === "free" && pieces.length > 0 ? 0 : countedGap(instance.rules);
  const own = shapes.filter(({ elevation }) => elevation.film === film.id);
  // With widths mixed each section takes its own best width, so nothing is settled beforehand.
  const settled = rollWidth === null ? [new Map<string, string>()] : settlings(own);
  return widths.flatMap((width) => settled.map((settling) => taskOn(width, settling)));

  function taskOn(width: Ticks, settling: Settling): FilmTask {
    const limits = { width: printableWidth(film, width), gap, longest: longestCut(instance, film, width) };
    const optionsOf = (source: string, sections: readonly SectionChoices[]) =>
      sections.map(({ id, maxAcross, needs }) =>
        needs.flatMap((need) =>
          (settling.get(`${source}/${id}`) ?? need.direction) !== need.direction
            ? []
            : splitOptions(need, overlap, { ...limits, widest: Math.min(limits.width, maxAcross ?? Infinity) }),
        ),
      );
    return {
      width,
      strip: limits.width + gap,
      gap,
      longest: limits.longest,
      ends: leader + trailer - gap,
      elevations: own.map(({ elevation, source, sections, withFills }) => ({
        copies: elevation.count,
        plain: settling.get(source) !== FILLED,
        sections: optionsOf(source, sections),
        withFills:
          withFills === null || settling.get(source) === PLAIN
            ? null
            : {
                sections: optionsOf(source, withFills.sections),
                strip: withFills.strip,
                films: withFills.films.map((fill) => ({
                  film: fill,
                  ratio: leastRatio(instance, fill, gap),
                  alone: isOnlyFill(instance, fill),
                })),
              },
      })),
      ...looseOn(instance, film, gap, nesting),
    };
  }
}

/** What is settled beforehand: by `source/section` a direction, by `source` whether fills are used. */
type Settling = ReadonlyMap<string, string>;

const PLAIN = "plain";
const FILLED = "filled";

/** At most two to this power ways are told apart; what is not settled is left to each bound's own minimum. */
const MOST_SETTLED = 6;

/**
 * Every way to settle directions and fills of the largest sections. Whole rows and wide panels bound well only once it is
 * known which way panels run. Elevations that mirror one another have the same windows, so they are settled together.
 */
function settlings(shapes: readonly ElevationNeeds[]): Settling[] {
  const choices = new Map<string, { values: readonly string[]; area: number }>();
  for (const { elevation, source, sections, withFills } of shapes) {
    if (withFills !== null) choices.set(source, { values: [PLAIN, FILLED], area: Infinity });
    for (const { id, needs } of sections) {
      if (needs.length < 2) continue;
      const area = (needs[0] as SectionNeeds).reachArea * elevation.count;
      choices.set(`${source}/${id}`, { values: needs.map(({ direction }) => direction), area });
    }
  }
  const largest = [...choices].sort(([, a], [, b]) => (a.area === b.area ? 0 : b.area - a.area)).slice(0, MOST_SETTLED);
  let ways: Map<string, string>[] = [new Map()];
  for (const [key, { values }] of largest) {
    ways = ways.flatMap((way) => values.map((value) => new Map(way).set(key, value)));
  }
  return ways;
}

/** The longest cut that any load of this width can hold; 0 when there is none. */
export function longestCut({ stock, rules }: Instance, film: Film, width: Ticks): Ticks {
  const lengths = stock.filter((entry) => entry.film === film.id && entry.width === width).map(({ length }) => length);
  if (film.newRolls !== 0 && film.rollWidths.includes(width)) lengths.push(film.rollLength ?? Infinity);
  const longest = Math.min(Math.max(0, ...lengths), film.maxRun ?? Infinity);
  return Math.max(0, longest - rules.leader - rules.trailer);
}

/**
 * Film that the loose pieces of a film take at least: their area, grown by the gap where boxes count, on the width that
 * wastes least of it; what they take where nothing else lies on the film, with the ends of as many loads as that fills;
 * and the least that the load of any single one takes.
 */
function looseOn(
  instance: Instance,
  film: Film,
  gap: Ticks,
  nesting: BoundQuestion["nesting"],
): Pick<FilmTask, "looseFilm" | "looseAlone" | "looseArea" | "looseEnds" | "loadOfOne"> {
  const { leader, trailer } = instance.rules;
  const stocked = instance.stock.filter((entry) => entry.film === film.id).map(({ width }) => width);
  const widths = [...new Set([...stocked, ...(film.newRolls === 0 ? [] : film.rollWidths)])];
  const widest = Math.max(0, ...widths.map((width) => printableWidth(film, width)));
  let [looseFilm, looseArea, loadOfOne, looseEnds] = [0, 0, 0, Infinity];
  const sizes: Size[] = [];
  for (const { outline, count, turn } of instance.pieces.filter((piece) => piece.film === film.id)) {
    const { x0, y0, x1, y1 } = boundingBox(outline);
    const [wide, high] = [x1 - x0, y1 - y0];
    const area = polygonArea(outline);
    const taken = nesting === "crosscut" ? (wide + gap) * (high + gap) : area;
    const lying =
      film.lay === "any" && turn === "quarter"
        ? [[wide, high] as const, [high, wide] as const]
        : [[wide, high] as const];
    const fitting = widths.flatMap((width) =>
      lying
        .filter(([across]) => across <= printableWidth(film, width))
        .map(([, along]) => ({ width, along, ratio: width / (printableWidth(film, width) + gap) })),
    );
    looseArea += count * area;
    if (fitting.length === 0) continue;
    const shapes = lying.map(([across, along]) => ({ across, along, turn: 0 as const }));
    sizes.push({ shapes: shapes.filter(({ across }) => across <= widest), count, due: true });
    looseEnds = Math.min(looseEnds, ...fitting.map(({ width }) => width * (leader + trailer - gap)));
    looseFilm += count * taken * Math.min(...fitting.map(({ ratio }) => ratio));
    loadOfOne = Math.max(loadOfOne, Math.min(...fitting.map(({ width, along }) => width * (leader + along + trailer))));
  }
  const [only, ...more] = widths;
  const looseAlone =
    nesting === "crosscut" && only !== undefined && more.length === 0
      ? Math.max(looseFilm, only * lengthBound(sizes, { width: widest, gap }))
      : looseFilm;
  const ofLoad = Math.max(0, ...widths.map((width) => width * (longestCut(instance, film, width) + gap)));
  const loads = looseAlone > 0 && Number.isFinite(ofLoad) && ofLoad > 0 ? Math.ceil(looseAlone / ofLoad - 1e-9) : 1;
  const ends = Number.isFinite(looseEnds) ? Math.max(1, loads) * looseEnds : 0;
  return { looseFilm, looseAlone, looseArea, loadOfOne, looseEnds: ends };
}
