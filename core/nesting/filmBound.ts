import type { Film } from "../model/instance.ts";
import type { Ticks } from "../units/ticks.ts";
import type { SplitOption } from "./splitOptions.ts";

/** What one film is asked for, with its panels on one width. Lengths in ticks, areas in square ticks. */
export interface FilmTask {
  readonly width: Ticks;
  /** Printable width and one gap. */
  readonly strip: Ticks;
  readonly gap: Ticks;
  /** Longest cut that a load can hold; Infinity without a limit. */
  readonly longest: Ticks;
  /** Leader and trailer less one gap: what a load takes beyond its cuts, each counted with one gap. At least 0. */
  readonly ends: Ticks;
  readonly elevations: readonly ElevationTask[];
  /** Film that the loose pieces take at least, and their outlines' area. */
  readonly looseFilm: number;
  /** The same where nothing else lies on the film. */
  readonly looseAlone: number;
  readonly looseArea: number;
  /** Film for the ends of the loads that hold loose pieces alone, and for the load of the piece that asks most by itself. */
  readonly looseEnds: number;
  readonly loadOfOne: number;
}

export interface ElevationTask {
  readonly copies: number;
  /** Whether it may do without fills. */
  readonly plain: boolean;
  /** By section: the numbers of panels possible, in both directions. */
  readonly sections: readonly (readonly SplitOption[])[];
  readonly withFills: {
    readonly sections: readonly (readonly SplitOption[])[];
    /** Needed area that fills could take over. */
    readonly strip: number;
    readonly films: readonly { readonly film: Film; readonly ratio: number; readonly alone: boolean }[];
  } | null;
}

/** Money for each square tick of film and of print, for each panel and for each tick of visible seam. */
export interface Prices {
  readonly film: number;
  readonly ink: number;
  readonly panel: number;
  readonly seam: number;
  /** The first two for another film, which fills may be of. */
  readonly ofFill: (film: Film) => { readonly film: number; readonly ink: number };
}

export interface FilmBound {
  readonly value: number;
  readonly by: string;
}

/** Rounded up, but for the error of the divisions before it. */
const roundUp = (value: number): number => Math.ceil(value - 1e-9);

/** A task with the least lengths that its panels take when only so many seams may be seen; ticks, each piece with a gap. */
export interface LimitedTask {
  readonly task: FilmTask;
  readonly lengths: { readonly rows: number; readonly byPanels: number; readonly loads: number };
}

/** Works out once what every price of a seam asks for again. */
export function limitedTask(task: FilmTask, seams: number): LimitedTask {
  const { elevations, longest, gap } = task;
  const rows = wholeRows(task, seams);
  const byPanels = Math.max(
    limited(elevations, ({ lengthByWidth }) => lengthByWidth, seams),
    limited(elevations, ({ lengthByHalf }) => lengthByHalf, seams),
  );
  const length = Math.max(rows.length, byPanels);
  const loads = length > 0 ? Math.max(1, rows.loads, roundUp(length / (longest + gap))) : 0;
  return { task, lengths: { rows: rows.length, byPanels, loads } };
}

/**
 * What one film must at least cost, visible seams charged with `seamPrice` each on top.
 *
 * @param tasks one for each width that the panels may lie on and each way to settle directions and fills; the lowest counts
 * @param mixed whether panels of this film may lie on several widths
 *
 * Grown by one gap to the right and forward, the pieces of a load are disjoint in a strip as wide as the printable width
 * and one gap, and as long as its cuts and one gap. Hence, for a load, used = that length + `ends`, and three bounds on
 * the sum of the lengths:
 *
 * 1. Area: the grown areas over the width of the strip, loose pieces included.
 * 2. Wide panels: no line across meets two panels wider than half the strip, so their lengths add up. This is the dual
 *    feasible function of Martello and Toth (1990), Discrete Applied Mathematics 28(1), 59-70, at one half.
 * 3. Whole rows: let every panel of some be at least h long, gap included, and their shares of the width (by width or by
 *    halves) add up to G. Lines across at a distance of h, set so that the last ends with the load, number floor(length /
 *    h) and meet every such panel, and shares on a line add up to at most 1; so the loads together have at least
 *    ceil(G) such lines: their lengths add up to at least h ceil(G), and one load has at most floor(longest / h) of them.
 */
export function filmBound(tasks: readonly LimitedTask[], prices: Prices, seamPrice: number, mixed: boolean): FilmBound {
  const bounds =
    mixed && tasks.length > 1
      ? [
          boundMixed(
            tasks.map(({ task }) => task),
            prices,
            seamPrice,
          ),
        ]
      : tasks.map((task) => boundOn(task, prices, seamPrice));
  return bounds.reduce(
    (least, bound) => (bound.value < least.value ? bound : least),
    bounds[0] ?? { value: 0, by: "" },
  );
}

type Worth = (option: SplitOption) => number;

function boundOn({ task, lengths }: LimitedTask, prices: Prices, seamPrice: number): FilmBound {
  const { width, ends, elevations } = task;
  const looseInk = prices.ink * task.looseArea;
  if (elevations.length === 0) {
    if (task.looseArea === 0) return { value: 0, by: "" };
    const film = prices.film * Math.max(task.looseAlone + task.looseEnds, task.loadOfOne);
    return { value: film + looseInk, by: "area of the loose pieces with margins and ends" };
  }
  const others: Worth = (option) =>
    prices.ink * option.windowArea +
    prices.panel * option.panels +
    prices.seam * option.visibleLength +
    seamPrice * option.visible;
  // A fill is one panel at least.
  const stripOnly: StripWorth = (elevation) => stripInk(elevation, prices) + prices.panel;
  const rest = total(elevations, others, stripOnly);

  const { rows, byPanels, loads } = lengths;
  const endsCost = prices.film * width * ends * loads;
  const rate = prices.film * width;

  const candidates: FilmBound[] = [
    {
      value:
        total(
          elevations,
          (option) => others(option) + rate * option.lengthByWidth,
          (elevation) => stripOnly(elevation) + stripFilm(elevation, task, prices),
        ) +
        prices.film * task.looseFilm +
        endsCost,
      by: "area of panels and loose pieces with margins, gaps and ends",
    },
    {
      value: total(elevations, (option) => others(option) + rate * option.lengthByHalf, stripOnly) + endsCost,
      by: "panels wider than half the roll, each in a cut of its own",
    },
    { value: rest + rate * rows + endsCost, by: "whole rows of panels across the roll" },
    { value: rest + rate * byPanels + endsCost, by: "least length of panels with ends" },
    { value: rest + prices.film * task.loadOfOne, by: "the load of one loose piece" },
  ];
  const best = candidates.reduce((a, b) => (b.value > a.value ? b : a));
  return { value: best.value + looseInk, by: best.by };
}

/** With widths mixed only the area counts, each section on the width that is best for it. */
function boundMixed(tasks: readonly FilmTask[], prices: Prices, seamPrice: number): FilmBound {
  const [first] = tasks as readonly [FilmTask, ...FilmTask[]];
  const ends = Math.min(...tasks.map(({ width, ends }) => width * ends));
  const panels = first.elevations.map((_, i) =>
    finite(
      Math.min(
        ...tasks.map((task) =>
          total(
            [task.elevations[i] as ElevationTask],
            (option) =>
              prices.film * task.width * option.lengthByWidth +
              prices.ink * option.windowArea +
              prices.panel * option.panels +
              prices.seam * option.visibleLength +
              seamPrice * option.visible,
            () => 0,
          ),
        ),
      ),
    ),
  );
  const loose = Math.max(
    first.looseFilm + (first.looseArea > 0 ? Math.min(ends, first.looseEnds) : 0),
    first.loadOfOne,
  );
  const sum = panels.reduce((a, b) => a + b, 0);
  const film =
    prices.film * (sum > 0 ? first.looseFilm + (first.looseArea > 0 ? Math.min(ends, first.looseEnds) : ends) : loose);
  return {
    value: sum + film + prices.ink * first.looseArea,
    by: sum > 0 || first.looseArea > 0 ? "area of panels and loose pieces with margins, gaps and ends" : "",
  };
}

/** An elevation that can't be made on any width bounds nothing. */
const finite = (value: number): number => (Number.isFinite(value) ? value : 0);

type StripWorth = (elevation: ElevationTask) => number;

/** Print over what fills could take, in the film where it costs least. */
function stripInk({ withFills }: ElevationTask, prices: Prices): number {
  if (withFills === null) return 0;
  return withFills.strip * Math.min(prices.ink, ...withFills.films.map(({ film }) => prices.ofFill(film).ink));
}

/** Film for it, in the film where it costs least; nothing where it might lie in a gap among other pieces. */
function stripFilm({ withFills }: ElevationTask, { width, strip }: FilmTask, prices: Prices): number {
  if (withFills === null) return 0;
  const inFills = withFills.films.map(({ film, ratio, alone }) => (alone ? prices.ofFill(film).film * ratio : 0));
  return withFills.strip * Math.min(prices.film * (width / strip), ...inFills);
}

/** Whether every section can be split at all; where one can't, no plan is left to bound. */
export function isPossible({ elevations }: FilmTask): boolean {
  const all = (sections: ElevationTask["sections"]) => sections.every((options) => options.length > 0);
  return elevations.every(
    ({ plain, sections, withFills }) => (plain && all(sections)) || (withFills !== null && all(withFills.sections)),
  );
}

/** Sum over all copies of the least worth: section by section, without fills or, where there are any, with them. */
function total(elevations: readonly ElevationTask[], worth: Worth, strip: StripWorth): number {
  let sum = 0;
  for (const elevation of elevations) {
    const plain = elevation.plain ? leastOf(elevation.sections, worth) : Infinity;
    const filled =
      elevation.withFills === null ? Infinity : leastOf(elevation.withFills.sections, worth) + strip(elevation);
    const least = Math.min(plain, filled);
    sum += elevation.copies * least;
  }
  return sum;
}

function leastOf(sections: readonly (readonly SplitOption[])[], worth: Worth): number {
  return sections.reduce((sum, options) => sum + Math.min(...options.map(worth)), 0);
}

/** The least sum of a measure with at most so many visible seams: the highest of some prices for a seam. */
function limited(elevations: readonly ElevationTask[], measure: Worth, seams: number): number {
  let best = 0;
  for (const price of [0, ...slopes(elevations, measure)]) {
    const least =
      total(
        elevations,
        (option) => measure(option) + price * option.visible,
        () => 0,
      ) -
      price * seams;
    best = Math.max(best, least);
  }
  return best;
}

/** At most this many lengths of panels are tried as the distance between lines. */
const MOST_ROWS = 40;

/** Third bound: length and number of loads by whole rows. */
function wholeRows({ elevations, gap, longest }: FilmTask, seams: number): { length: number; loads: number } {
  const lengths = new Set<number>();
  for (const elevation of elevations) {
    for (const options of [...elevation.sections, ...(elevation.withFills?.sections ?? [])]) {
      for (const { along, tall } of options) {
        lengths.add(along);
        for (const part of tall) lengths.add(part.along);
      }
    }
  }
  let [length, loads] = [0, 0];
  for (const least of evenly([...lengths], MOST_ROWS)) {
    const byWidth = limited(elevations, (option) => shareFrom(option, least), seams);
    const byHalf = limited(elevations, ({ along, shareByHalf }) => (along >= least ? shareByHalf : 0), seams);
    const rows = roundUp(Math.max(byWidth, byHalf));
    length = Math.max(length, rows * (least + gap));
    // A hair more room keeps the error of a division from taking a row away.
    const inLoad = Number.isFinite(longest) ? Math.floor((longest + gap) / (least + gap) + 1e-9) : Infinity;
    if (rows > 0) loads = Math.max(loads, Number.isFinite(inLoad) ? Math.ceil(rows / Math.max(1, inLoad)) : 1);
  }
  return { length, loads };
}

/** Share of the width that panels at least so long take. */
function shareFrom({ along, shareByWidth, tall }: SplitOption, least: number): number {
  if (along >= least) return shareByWidth;
  return tall.findLast((part) => part.along >= least)?.share ?? 0;
}

function evenly(numbers: readonly number[], most: number): number[] {
  const sorted = [...numbers].sort((a, b) => a - b);
  if (sorted.length <= most) return sorted;
  return Array.from({ length: most }, (_, i) => sorted[Math.round((i * (sorted.length - 1)) / (most - 1))] as number);
}

const MOST_SLOPES = 12;

/** Prices of a seam at which another number of panels becomes as good. */
function slopes(elevations: readonly ElevationTask[], measure: Worth): number[] {
  const found = new Set<number>();
  for (const { sections, withFills } of elevations) {
    for (const options of [...sections, ...(withFills?.sections ?? [])]) {
      for (const a of options) {
        for (const b of options) {
          if (b.visible <= a.visible) continue;
          const slope = (measure(a) - measure(b)) / (b.visible - a.visible);
          if (slope > 0) found.add(slope);
        }
      }
    }
  }
  return evenly([...found], MOST_SLOPES);
}

/** Prices of a seam at which a section would rather have one more panel, by what wide panels take of the roll. */
export function payingSeamPrices(tasks: readonly LimitedTask[], prices: Prices): number[] {
  return tasks.flatMap(({ task: { elevations, width } }) =>
    slopes(
      elevations,
      (option) =>
        prices.film * width * option.lengthByHalf +
        prices.ink * option.windowArea +
        prices.panel * option.panels +
        prices.seam * option.visibleLength,
    ),
  );
}
