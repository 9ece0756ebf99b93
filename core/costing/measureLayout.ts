import type { Box, Interval } from "../geometry/box.ts";
import { polygonArea } from "../geometry/polygonArea.ts";
import type { Region } from "../geometry/region.ts";
import type { Elevation, Film, Instance } from "../model/instance.ts";
import type { Cost, Load, Panel, Seam, SeamKind, Totals, WasteBy } from "../model/plan.ts";
import { isWeighted, SeamWeights } from "../model/seamWeight.ts";
import { TICKS_PER, type Ticks, ticksTo } from "../units/ticks.ts";

/** What a layout is made of before anything is claimed of it. */
export interface LayoutParts {
  /** Panels and fills, and seams, of every elevation, listed once per elevation. */
  readonly panels: readonly Panel[];
  readonly seams: readonly Seam[];
  readonly rolls: readonly Load[];
  /** Pairs of a seam and an avoided zone that it meets, all copies. */
  readonly penalties: number;
}

/**
 * Works out the totals of a layout and where its film went.
 *
 * @param regions the needed region of every elevation, by id
 * @returns lengths in ticks; areas in square units of the job, money in its currency and shares in percentage points of
 * the film area, all unrounded
 * @throws Error naming the id when a panel, seam or load names an elevation or film that the instance does not have
 *
 * Time: the slabs of each elevation's region once per panel. Shares add up to `wastePercent` by construction, since gaps
 * and voids are what the other causes leave. A layout without film has no waste.
 */
export function measureLayout(
  instance: Instance,
  regions: ReadonlyMap<string, Region>,
  parts: LayoutParts,
): { totals: Totals; wasteBy: WasteBy } {
  const measured = new Measures(instance, regions, parts);
  return { totals: measured.totals(), wasteBy: measured.wasteBy() };
}

class Measures {
  private readonly elevations: ReadonlyMap<string, Elevation>;
  private readonly films: ReadonlyMap<string, Film>;
  /** Square ticks in one square unit of the job. */
  private readonly square: number;
  private readonly film: FilmUse;
  private readonly windows: WindowUse;
  private readonly neededArea: number;
  private readonly elevationNeeded: number;
  private readonly instance: Instance;
  private readonly regions: ReadonlyMap<string, Region>;
  private readonly parts: LayoutParts;
  /** By elevation, made when first asked. */
  private readonly weights = new Map<string, SeamWeights>();

  constructor(instance: Instance, regions: ReadonlyMap<string, Region>, parts: LayoutParts) {
    this.instance = instance;
    this.regions = regions;
    this.parts = parts;
    this.square = TICKS_PER[instance.unit] ** 2;
    this.elevations = new Map(instance.elevations.map((elevation) => [elevation.id, elevation]));
    this.films = new Map(instance.films.map((film) => [film.id, film]));
    this.film = this.useOfFilm();
    this.windows = this.useOfWindows();
    this.elevationNeeded = sum(
      instance.elevations.map((elevation) => this.region(elevation.id).area(elevation.box) * elevation.count),
    );
    this.neededArea =
      this.elevationNeeded + sum(instance.pieces.map((piece) => polygonArea(piece.outline) * piece.count));
  }

  totals(): Totals {
    const visible = this.parts.seams.filter((seam) => seam.kind !== "break");
    const ofCopies = (length: (seam: Seam) => Ticks) =>
      sum(visible.map((seam) => length(seam) * this.elevation(seam.elevation).count));
    const visibleSeamLength = ofCopies((seam) => this.seamLength(seam));
    const weighted = isWeighted(this.instance)
      ? { weightedSeamLength: ofCopies((seam) => this.weightedLength(seam)) }
      : {};
    const panelCount = sum(this.parts.panels.map((panel) => this.elevation(panel.elevation).count));
    return {
      filmLength: sum(this.parts.rolls.map((load) => load.used)),
      filmArea: this.film.area / this.square,
      neededArea: this.neededArea / this.square,
      wastePercent: this.film.area === 0 ? 0 : 100 * (1 - this.neededArea / this.film.area),
      panelCount,
      openSeams: this.countSeams("open"),
      bodyLineSeams: this.countSeams("bodyLine"),
      colourEdgeSeams: this.countSeams("colourEdge"),
      breakSeams: this.countSeams("break"),
      visibleSeamLength,
      ...weighted,
      cost: this.cost(weighted.weightedSeamLength ?? visibleSeamLength, panelCount),
    };
  }

  wasteBy(): WasteBy {
    const share = (area: number) => (this.film.area === 0 ? 0 : (100 * area) / this.film.area);
    const { bleed, openings, needed } = this.windows;
    const overlap = needed - this.elevationNeeded;
    const { edgeMargin, leaderTrailer, area } = this.film;
    const rest = area - this.neededArea - edgeMargin - leaderTrailer - overlap - bleed - openings;
    return {
      edgeMargin: share(edgeMargin),
      leaderTrailer: share(leaderTrailer),
      overlap: share(overlap),
      bleed: share(bleed),
      openings: share(openings),
      gapsAndVoids: share(rest),
    };
  }

  private cost(countedSeamLength: Ticks, panelCount: number): Cost {
    const { rules, unit } = this.instance;
    const film = this.film.price / this.square;
    const laminate = this.film.laminatePrice / this.square;
    const ink = this.windows.ink / this.square;
    const seams =
      rules.seamPricePerLength * ticksTo(countedSeamLength, unit) + rules.avoidPenalty * this.parts.penalties;
    const panels = rules.panelPrice * panelCount;
    return { film, laminate, ink, seams, panels, total: film + laminate + ink + seams + panels };
  }

  private useOfFilm(): FilmUse {
    const { leader, trailer } = this.instance.rules;
    const use = { area: 0, price: 0, laminatePrice: 0, edgeMargin: 0, leaderTrailer: 0 };
    for (const load of this.parts.rolls) {
      const film = this.filmOf(load.film);
      const area = load.width * load.used;
      use.area += area;
      use.price += area * film.pricePerArea;
      use.laminatePrice += area * film.laminatePricePerArea;
      use.edgeMargin += 2 * film.edgeMargin * (load.used - leader - trailer);
      use.leaderTrailer += load.width * (leader + trailer);
    }
    return use;
  }

  private useOfWindows(): WindowUse {
    const use = { ink: 0, bleed: 0, openings: 0, needed: 0 };
    for (const panel of this.parts.panels) {
      const { count } = this.elevation(panel.elevation);
      const region = this.region(panel.elevation);
      const window = areaOf(panel.window);
      const inOutline = region.outlineArea(panel.window);
      const needed = region.area(panel.window);
      use.ink += window * this.filmOf(panel.film).inkPricePerArea * count;
      use.bleed += (window - inOutline) * count;
      use.openings += (inOutline - needed) * count;
      use.needed += needed * count;
    }
    for (const piece of this.instance.pieces) {
      use.ink += polygonArea(piece.outline) * this.filmOf(piece.film).inkPricePerArea * piece.count;
    }
    return use;
  }

  private countSeams(kind: SeamKind): number {
    const ofKind = this.parts.seams.filter((seam) => seam.kind === kind);
    return sum(ofKind.map((seam) => this.elevation(seam.elevation).count));
  }

  private seamLength(seam: Seam): Ticks {
    return sum(this.neededOn(seam).map((stretch) => stretch.to - stretch.from));
  }

  private weightedLength(seam: Seam): Ticks {
    let weights = this.weights.get(seam.elevation);
    if (weights === undefined) {
      weights = new SeamWeights(this.elevation(seam.elevation), this.instance.rules);
      this.weights.set(seam.elevation, weights);
    }
    return weights.lengthOn(seam.axis, seam.at, this.neededOn(seam));
  }

  private neededOn({ elevation, axis, at, from, to }: Seam): Interval[] {
    return this.region(elevation).line(axis, at, { from, to });
  }

  private elevation(id: string): Elevation {
    return known(this.elevations, id, "elevation");
  }

  private filmOf(id: string): Film {
    return known(this.films, id, "film");
  }

  private region(id: string): Region {
    return known(this.regions, id, "region of elevation");
  }
}

/** Square ticks, and money times square ticks. */
interface FilmUse {
  readonly area: number;
  readonly price: number;
  readonly laminatePrice: number;
  readonly edgeMargin: number;
  readonly leaderTrailer: number;
}

interface WindowUse {
  readonly ink: number;
  /** Film beyond the outline, film over openings inside it, and film over the needed region, every layer. */
  readonly bleed: number;
  readonly openings: number;
  readonly needed: number;
}

function known<T>(map: ReadonlyMap<string, T>, id: string, what: string): T {
  const found = map.get(id);
  if (found === undefined) throw new Error(`no ${what} "${id}" in this job`);
  return found;
}

const sum = (values: readonly number[]): number => values.reduce((total, value) => total + value, 0);

const areaOf = ({ x0, y0, x1, y1 }: Box): number => (x1 - x0) * (y1 - y0);
