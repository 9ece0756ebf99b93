import type { Axis, Interval } from "../geometry/box.ts";
import type { Ticks } from "../units/ticks.ts";
import type { Elevation, HeightZone, Instance, Rules, SeamMap } from "./instance.ts";

/** Whether seams of a job count by more than their length: by their height, or by the artwork that they cross. */
export const isWeighted = ({ elevations, rules }: Instance): boolean =>
  rules.heightZones.length > 0 || elevations.some(({ seamMap }) => seamMap !== null);

/** A stretch of a line over which a seam counts alike. */
interface Piece {
  /** Where it ends; it begins where the one before it ends. */
  readonly to: number;
  readonly weight: number;
}

/**
 * How much seams of one elevation count, by place, in the elevation's own frame: the weight of the first height zone in
 * which the place lies (1 in none), times 1 + `artworkWeight` x the map's value there as a share of 255 (0 outside the
 * map). Zones and cells hold their lower and left edge, not the other one.
 */
export class SeamWeights {
  /** Whether every seam counts its plain length. */
  readonly plain: boolean;
  /** No place of the elevation counts less. */
  readonly least: number;
  private readonly ground: Ticks;
  private readonly zones: readonly HeightZone[];
  private readonly map: SeamMap | null;
  private readonly artwork: number;
  /** Places along y, and along x, at which a weight may change; ascending. */
  private readonly changes: { readonly x: readonly Ticks[]; readonly y: readonly Ticks[] };
  /** Weights along a line, by axis and by the stretch of places that share them. */
  private readonly known = { x: new Map<number, readonly Piece[]>(), y: new Map<number, readonly Piece[]>() };

  constructor({ ground, box, seamMap }: Pick<Elevation, "ground" | "box" | "seamMap">, rules: Rules) {
    this.ground = ground;
    this.zones = rules.heightZones;
    this.map = seamMap;
    this.artwork = rules.artworkWeight;
    this.plain = this.zones.length === 0 && seamMap === null;
    const edges = (origin: Ticks, cells: number) =>
      seamMap === null ? [] : Array.from({ length: cells + 1 }, (_, i) => origin + i * seamMap.cell);
    const heights = this.zones.flatMap(({ from, to }) => [ground + from, ground + to]);
    const ascending = (places: Ticks[]) => [...new Set(places)].sort((a, b) => a - b);
    this.changes = {
      x: ascending(seamMap === null ? [] : edges(seamMap.x0, seamMap.columns)),
      y: ascending([...heights, ...(seamMap === null ? [] : edges(seamMap.y0, seamMap.rows))]),
    };
    const inside = this.changes.y.filter((y) => y > box.y0 && y < box.y1);
    this.least = Math.min(...[box.y0, ...inside].map((y) => this.heightWeight(y)));
  }

  /** Places of an axis at which the weight of a line across it may change, in ascending order. */
  changesOn(axis: Axis): readonly Ticks[] {
    return this.changes[axis];
  }

  /**
   * Weighted length of a seam on a line.
   *
   * @param stretches of the line that count, disjoint; ticks
   * @returns the integral of the weight over them, to the nearest tick
   */
  lengthOn(axis: Axis, at: Ticks, stretches: readonly Interval[]): Ticks {
    return Math.round(stretches.reduce((sum, stretch) => sum + this.integral(axis, at, stretch), 0));
  }

  /** The same over one stretch, unrounded. */
  integral(axis: Axis, at: Ticks, { from, to }: Interval): number {
    if (this.plain) return to - from;
    const pieces = this.along(axis, at);
    let sum = 0;
    let begin = from;
    for (let i = firstBeyond(pieces, from); begin < to; i++) {
      const piece = pieces[i] as Piece;
      const end = Math.min(to, piece.to);
      sum += piece.weight * (end - begin);
      begin = end;
    }
    return sum;
  }

  /** The weights along a line across `axis`: as many lines as lie between two changes share them. */
  private along(axis: Axis, at: Ticks): readonly Piece[] {
    const key = firstAbove(this.changes[axis], at);
    const known = this.known[axis].get(key);
    if (known !== undefined) return known;
    const pieces: { to: number; weight: number }[] = [];
    const places = this.changes[axis === "x" ? "y" : "x"];
    for (let i = 0; i <= places.length; i++) {
      // The weight just after the change before this piece; before the first change, that of any place there.
      const v = places[i - 1] ?? (places[0] ?? 0) - 1;
      const weight = axis === "x" ? this.weight(axis, at, v) : this.weight(axis, v, at);
      const last = pieces.at(-1);
      const to = places[i] ?? Infinity;
      if (last !== undefined && last.weight === weight) last.to = to;
      else pieces.push({ to, weight });
    }
    this.known[axis].set(key, pieces);
    return pieces;
  }

  private weight(axis: Axis, x: Ticks, y: Ticks): number {
    return this.heightWeight(y) * (1 + (this.artwork * this.valueAt(axis, x, y)) / 255);
  }

  private heightWeight(y: Ticks): number {
    const height = y - this.ground;
    return this.zones.find(({ from, to }) => from <= height && height < to)?.weight ?? 1;
  }

  private valueAt(axis: Axis, x: Ticks, y: Ticks): number {
    if (this.map === null) return 0;
    const { x0, y0, cell, columns, rows, upright, level } = this.map;
    const [column, row] = [Math.floor((x - x0) / cell), Math.floor((y - y0) / cell)];
    if (column < 0 || column >= columns || row < 0 || row >= rows) return 0;
    return (axis === "x" ? upright : level)[row * columns + column] as number;
  }
}

/** Index of the first piece that ends beyond a place. */
function firstBeyond(pieces: readonly Piece[], place: number): number {
  let [low, high] = [0, pieces.length - 1];
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((pieces[middle] as Piece).to <= place) low = middle + 1;
    else high = middle;
  }
  return low;
}

/** How many of the places, ascending, lie at or below one. */
function firstAbove(places: readonly Ticks[], at: Ticks): number {
  let [low, high] = [0, places.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((places[middle] as Ticks) <= at) low = middle + 1;
    else high = middle;
  }
  return low;
}
