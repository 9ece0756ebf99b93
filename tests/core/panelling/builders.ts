import type { Box, Polygon } from "../../../core/geometry/box.ts";
import { boundingBox } from "../../../core/geometry/box.ts";
import type { PanellingLimits } from "../../../core/model/covering.ts";
import type { Direction, Elevation, Film, Instance, Rules } from "../../../core/model/instance.ts";
import type { Run } from "../../../core/model/run.ts";
import { TICKS_PER, type Ticks } from "../../../core/units/ticks.ts";

/** Inches in ticks. */
export const inch = (inches: number): Ticks => Math.round(inches * TICKS_PER.in);

export const boxOf = (x0: number, y0: number, x1: number, y1: number): Box => ({
  x0: inch(x0),
  y0: inch(y0),
  x1: inch(x1),
  y1: inch(y1),
});

export const polygonOf = (...points: readonly (readonly [number, number])[]): Polygon =>
  points.map(([x, y]) => ({ x: inch(x), y: inch(y) }));

export const rectangle = (x0: number, y0: number, x1: number, y1: number): Polygon =>
  polygonOf([x0, y0], [x1, y0], [x1, y1], [x0, y1]);

/** Bleed 3 and overlap 1 as in the bus job of the worked examples; prices of one county order. */
export const plainRules: Rules = {
  bleed: inch(3),
  overlap: inch(1),
  colourEdgeOverlap: inch(0.25),
  trimOverlap: inch(4),
  cutGap: inch(1),
  leader: inch(12),
  trailer: 0,
  maxOpenSeams: null,
  seamPricePerLength: 0.02,
  avoidPenalty: 5,
  panelPrice: 4,
  oneLot: "elevation",
  sliverUnder: inch(6),
  keepLength: null,
  heightZones: [],
  artworkWeight: 4,
  leastSlack: 0,
  currency: "USD",
};

export const plainFilm: Film = {
  id: "cast",
  name: "Cast film",
  rollWidths: [inch(54), inch(60)],
  edgeMargin: inch(0.5),
  rollLength: inch(1800),
  maxRun: null,
  newRolls: null,
  laminateWidth: null,
  lengthFactor: 1,
  pricePerArea: 0.012,
  laminatePricePerArea: 0.008,
  inkPricePerArea: 0.003,
  lay: "one-way",
  joint: "lapped" as const,
};

/** An elevation of this outline with one section `whole`; anything else as given. Bleed in inches, on every side. */
export function elevationOf(outline: Polygon, bleed: number, given: Partial<Elevation> = {}): Elevation {
  const box = boundingBox(outline);
  const by = inch(bleed);
  return {
    id: "left",
    name: "Left side",
    count: 1,
    subject: null,
    film: "cast",
    travel: "none",
    mirrorOf: null,
    mirror: "exact",
    findSections: false,
    heads: "same",
    ground: box.y0,
    straight: null,
    seamMap: null,
    holds: [],
    outline,
    box,
    openings: [],
    sections: [{ id: "whole", box, direction: "either", maxAcross: null, heads: "same" as const }],
    keepClear: [],
    breaks: [],
    colourEdges: [],
    obstacles: [],
    fill: [],
    bleed: { left: by, right: by, bottom: by, top: by, openings: by },
    ...given,
  };
}

export const instanceOf = (
  elevations: readonly Elevation[],
  rules: Partial<Rules> = {},
  films = [plainFilm],
): Instance => ({
  name: "test",
  unit: "in",
  elevations,
  pieces: [],
  films,
  stock: [],
  sameLot: [],
  rules: { ...plainRules, ...rules },
});

/** Panelling limits for rolls of this width (inches) with half an inch of margin on both sides. */
export function limitsOf(
  width: number,
  preferred: Direction | null = null,
  along = 1800,
  films = ["cast"],
): PanellingLimits {
  return {
    acrossByFilm: new Map(films.map((film) => [film, inch(width - 1)])),
    alongByFilm: new Map(films.map((film) => [film, inch(along)])),
    widthByFilm: new Map(films.map((film) => [film, inch(width)])),
    preferred,
  };
}

export const quietRun: Run = { random: () => 0, stop: () => false, report: () => {}, work: null };
