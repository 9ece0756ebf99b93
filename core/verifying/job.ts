import type { Elevation, Film, Instance, LoosePiece, StockEntry } from "../model/instance.ts";
import { areaIn, type Region, regionOf } from "./geometry/region.ts";
import { type Words, wordsIn } from "./words.ts";

/** An instance with what every check looks up, worked out once for all layouts of a plan. */
export interface Job {
  readonly instance: Instance;
  readonly words: Words;
  readonly elevations: ReadonlyMap<string, JobElevation>;
  readonly films: ReadonlyMap<string, Film>;
  readonly stock: ReadonlyMap<string, StockEntry>;
  readonly pieces: ReadonlyMap<string, LoosePiece>;
}

export interface JobElevation {
  readonly elevation: Elevation;
  /** Outline less openings, and the outline alone. */
  readonly needed: Region;
  readonly outline: Region;
  /** Square ticks. */
  readonly neededArea: number;
}

export function jobOf(instance: Instance): Job {
  return {
    instance,
    words: wordsIn(instance.unit),
    elevations: new Map(instance.elevations.map((elevation) => [elevation.id, jobElevationOf(elevation)])),
    films: new Map(instance.films.map((film) => [film.id, film])),
    stock: new Map(instance.stock.map((entry) => [entry.id, entry])),
    pieces: new Map(instance.pieces.map((piece) => [piece.id, piece])),
  };
}

function jobElevationOf(elevation: Elevation): JobElevation {
  const openings = elevation.openings.map(({ outline }) => outline);
  const needed = regionOf(elevation.outline, openings);
  return {
    elevation,
    needed,
    outline: openings.length === 0 ? needed : regionOf(elevation.outline, []),
    neededArea: areaIn(needed, elevation.box),
  };
}
