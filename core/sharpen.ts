import type { MirrorGroup } from "./choosing/mirrorGroups.ts";
import { panellingLimits, type WidthChoice } from "./choosing/rollWidths.ts";
import { boundingBox } from "./geometry/box.ts";
import { polygonArea } from "./geometry/polygonArea.ts";
import { countedGap } from "./model/fillFilm.ts";
import type { Film, Instance, LoosePiece } from "./model/instance.ts";
import { printableWidth } from "./model/printableWidth.ts";
import type { GroupRelaxation } from "./model/relaxation.ts";
import { type LowerBound, longestCut, lowerBounds } from "./nesting/lowerBounds.ts";
import { type SharpEffort, sharpBound } from "./nesting/sharpBound.ts";
import { Lessons, type SharpFilm, type SharpQuestion } from "./nesting/sharpQuestion.ts";
import { relaxGroup } from "./panelling/relaxGroup.ts";
import { TICKS_PER, type Ticks } from "./units/ticks.ts";

export interface SharpBoundQuestion {
  readonly choice: WidthChoice;
  readonly nesting: "crosscut" | "free";
  readonly seams: number;
}

const NAME = "shares of lines across the roll, over all splits";

/**
 * Bounds by `sharpBound`, for one job: far closer than `lowerBounds`, and slower by as much.
 *
 * @returns a function from questions to bounds; null where this kind of bound does not apply: widths mixed, or a film of
 *   panels that does not offer the layout's width
 */
export function sharpBounds(
  instance: Instance,
  groups: readonly MirrorGroup[],
): (question: SharpBoundQuestion, effort: SharpEffort) => LowerBound | null {
  const known = new Map<Ticks, Prepared | null>();
  return ({ choice, nesting, seams }, effort) => {
    const { rollWidth } = choice;
    if (rollWidth === null) return null;
    let prepared = known.get(rollWidth);
    if (prepared === undefined) {
      prepared = prepare(instance, groups, choice, rollWidth);
      known.set(rollWidth, prepared);
    }
    return prepared === null ? null : answer(instance, prepared, nesting, seams, effort);
  };
}

interface Prepared {
  readonly rollWidth: Ticks;
  readonly films: readonly Film[];
  readonly groups: readonly GroupRelaxation[];
  /** By nesting: what earlier questions taught. */
  readonly lessons: ReadonlyMap<string, Lessons>;
}

function prepare(
  instance: Instance,
  groups: readonly MirrorGroup[],
  choice: WidthChoice,
  rollWidth: Ticks,
): Prepared | null {
  const films = instance.films.filter(({ id }) => instance.elevations.some(({ film }) => film === id));
  if (films.length === 0 || films.some((film) => !film.rollWidths.includes(rollWidth))) return null;
  const limits = panellingLimits(instance, choice, null);
  const relaxed: GroupRelaxation[] = [];
  for (const { source, mirrors } of groups) {
    const group = relaxGroup(instance, source, mirrors, limits);
    if (group === null) return null;
    relaxed.push(group);
  }
  return {
    rollWidth,
    films,
    groups: relaxed,
    lessons: new Map([
      ["crosscut", new Lessons()],
      ["free", new Lessons()],
    ]),
  };
}

function answer(
  instance: Instance,
  { rollWidth, films, groups, lessons }: Prepared,
  nesting: "crosscut" | "free",
  seams: number,
  effort: SharpEffort,
): LowerBound {
  const { rules, pieces } = instance;
  const unit = TICKS_PER[instance.unit];
  const withPieces = pieces.some(({ film }) => films.some(({ id }) => id === film));
  // Outlines may lie in the corners that the gaps round panels leave.
  const gap = nesting === "free" && withPieces ? 0 : countedGap(rules);
  const taught = lessons.get(nesting) as Lessons;
  const sheet = (film: Film) => (film.pricePerArea + film.laminatePricePerArea) / unit ** 2;
  const filmOf = (film: Film, rate: number, ink: number): SharpFilm => {
    const strip = printableWidth(film, rollWidth) + gap;
    return {
      id: film.id,
      rate: rate * rollWidth,
      ink,
      strip,
      loose: pieces
        .filter((piece) => piece.film === film.id)
        .map((piece) => {
          const other = rate * elsewhere(instance, film, piece, rollWidth, gap, nesting);
          const shapes = shapesOf(piece, film).filter(({ across }) => across + gap <= strip);
          // Outlines lie in one another's corners: only their area counts, and only on a width that takes them.
          if (nesting === "free") {
            const area = shapes.length > 0 ? { area: polygonArea(piece.outline) } : {};
            return { count: piece.count, shapes: [], ...area, elsewhere: other };
          }
          return { count: piece.count, shapes, elsewhere: other };
        }),
    };
  };
  const plain = { groups, gap, seams };
  const area: SharpQuestion = {
    ...plain,
    films: films.map((film) => filmOf(film, 1, 0)),
    panel: 0,
    visibleLength: 0,
    penalty: 0,
    fills: "area",
  };
  const money: SharpQuestion = {
    ...plain,
    films: films.map((film) => filmOf(film, sheet(film), film.inkPricePerArea / unit ** 2)),
    panel: rules.panelPrice,
    visibleLength: rules.seamPricePerLength / unit,
    penalty: rules.avoidPenalty,
    fills: "money",
  };
  const leastMoney = sharpBound(money, taught, effort);
  const leastArea = sharpBound(area, taught, { ...effort, rounds: Math.ceil(effort.rounds / 4) });

  const loads = films.map((film) => loadsOf(instance, film, rollWidth, gap, films, area, leastArea));
  const ends = rules.leader + rules.trailer - gap;
  const endsArea = loads.reduce((sum, count) => sum + count * ends * rollWidth, 0);
  const endsMoney = loads.reduce((sum, count, f) => sum + count * ends * rollWidth * sheet(films[f] as Film), 0);
  const ink = pieces.reduce((sum, piece) => {
    const film = films.find(({ id }) => id === piece.film);
    return film === undefined
      ? sum
      : sum + (piece.count * polygonArea(piece.outline) * film.inkPricePerArea) / unit ** 2;
  }, 0);
  const others = lowerBounds({
    ...instance,
    elevations: [],
    pieces: pieces.filter(({ film }) => films.every(({ id }) => id !== film)),
  })({ rollWidth, nesting, seams: 0 });
  return {
    cost: leastMoney + endsMoney + ink + others.cost,
    filmArea: (leastArea + endsArea) / unit ** 2 + others.filmArea,
    by: NAME,
  };
}

function shapesOf({ outline, turn }: LoosePiece, { lay }: Film): { across: Ticks; along: Ticks }[] {
  const { x0, y0, x1, y1 } = boundingBox(outline);
  const [wide, high] = [x1 - x0, y1 - y0];
  const upright = { across: wide, along: high };
  return lay === "any" && turn === "quarter" ? [upright, { across: high, along: wide }] : [upright];
}

/** Least film that a loose piece takes on any other width, square ticks: its box with the gap, margins with it. */
function elsewhere(
  instance: Instance,
  film: Film,
  piece: LoosePiece,
  rollWidth: Ticks,
  gap: Ticks,
  nesting: "crosscut" | "free",
): number {
  const stocked = instance.stock.filter((entry) => entry.film === film.id).map(({ width }) => width);
  const widths = new Set([...stocked, ...(film.newRolls === 0 ? [] : film.rollWidths)]);
  widths.delete(rollWidth);
  let least = Infinity;
  for (const width of widths) {
    const printable = printableWidth(film, width);
    for (const { across, along } of shapesOf(piece, film)) {
      if (across > printable) continue;
      const taken = nesting === "free" ? polygonArea(piece.outline) : (across + gap) * (along + gap);
      least = Math.min(least, (taken * width) / (printable + gap));
    }
  }
  return least;
}

/** Loads that the panels of a film take at least: one, or as many as the least length of all asks for. */
function loadsOf(
  instance: Instance,
  film: Film,
  rollWidth: Ticks,
  gap: Ticks,
  films: readonly Film[],
  { films: asked, groups }: SharpQuestion,
  leastArea: number,
): number {
  const longest = longestCut(instance, film, rollWidth) + gap;
  if (films.length > 1 || !Number.isFinite(longest) || longest <= 0) return 1;
  const inFills = groups.reduce((sum, { ways }) => sum + Math.max(0, ...ways.map(({ fixed }) => fixed.fillArea)), 0);
  const away = (asked[0] as SharpFilm).loose.reduce(
    (sum, { count, elsewhere: area }) => sum + (Number.isFinite(area) ? count * area : 0),
    0,
  );
  const length = (leastArea - inFills - away) / rollWidth;
  return Math.max(1, Math.ceil(length / longest - 1e-9));
}
