import type { Box } from "../geometry/box.ts";
import type { Direction } from "../model/instance.ts";
import type { Ticks } from "../units/ticks.ts";
import { directionOf } from "./orientation.ts";
import type { PartingLines, RectangleCosts } from "./rectangleCosts.ts";

/** A part of the elevation and the way its panels run. */
export interface Part {
  readonly box: Box;
  readonly direction: Direction;
}

/** A cut that saves less than this share of the whole is none: sections are for something. */
const HARDLY = 1e-9;

/**
 * By rectangle between the lines, the best way to split it into panels or to cut it from side to side into two, under one
 * pricing of `rectangleCosts`. Exact over guillotine cuts along the lines. Ties: fewer cuts, then upright panels.
 *
 * Time O(l⁵) for l lines an axis, and what the prices take. Gilmore and Gomory (1965), Operations Research 13(1), 94-120.
 */
export class CutTable {
  private readonly lines: PartingLines;
  private readonly costs: RectangleCosts;
  private readonly pricing: number;
  private readonly cost: Float64Array;
  /** -1 nothing to cover, -2 vertical panels, -3 horizontal ones, 2k a cut along line k of x, 2k + 1 of y. */
  private readonly way: Int8Array;

  constructor(lines: PartingLines, costs: RectangleCosts, pricing: number) {
    this.lines = lines;
    this.costs = costs;
    this.pricing = pricing;
    const [nx, ny] = [lines.x.length, lines.y.length];
    this.cost = new Float64Array(nx * nx * ny * ny).fill(Infinity);
    this.way = new Int8Array(nx * nx * ny * ny);
    for (let wide = 1; wide < nx; wide++) {
      for (let high = 1; high < ny; high++) {
        for (let a = 0; a + wide < nx; a++) for (let c = 0; c + high < ny; c++) this.settle(a, a + wide, c, c + high);
      }
    }
  }

  /** What the whole elevation comes to at least; Infinity where it can't be covered. */
  least(): number {
    return this.cost[this.at(0, this.lines.x.length - 1, 0, this.lines.y.length - 1)] as number;
  }

  /** The parts of the whole elevation; null where it can't be covered. */
  best(): Part[] | null {
    return this.partsOf(0, this.lines.x.length - 1, 0, this.lines.y.length - 1);
  }

  /** The best with each first cut, cheapest first. */
  byFirstCut(): Part[][] {
    const [right, top] = [this.lines.x.length - 1, this.lines.y.length - 1];
    const cuts = this.cutsOf(0, right, 0, top).filter(({ cost }) => cost < Infinity);
    cuts.sort((one, other) => one.cost - other.cost);
    return cuts.map(({ halves }) => halves.flatMap(([a, b, c, d]) => this.partsOf(a, b, c, d) ?? []));
  }

  private at(a: number, b: number, c: number, d: number): number {
    const [nx, ny] = [this.lines.x.length, this.lines.y.length];
    return ((a * nx + b) * ny + c) * ny + d;
  }

  private settle(a: number, b: number, c: number, d: number): void {
    const here = this.at(a, b, c, d);
    if (!this.costs.needed(this.boxOf(a, b, c, d))) {
      this.cost[here] = 0;
      this.way[here] = -1;
      return;
    }
    const upright = this.costs.panels("x", a, b, c, d, this.pricing);
    const level = this.costs.panels("y", c, d, a, b, this.pricing);
    let least = Math.min(upright, level);
    let way = upright <= level ? -2 : -3;
    for (const cut of this.cutsOf(a, b, c, d)) {
      if (cut.cost >= least - HARDLY * least) continue;
      least = cut.cost;
      way = cut.way;
    }
    this.cost[here] = least;
    this.way[here] = way;
  }

  private cutsOf(a: number, b: number, c: number, d: number) {
    const cuts: { cost: number; way: number; halves: [number, number, number, number][] }[] = [];
    const half = (...rectangle: [number, number, number, number]) => this.cost[this.at(...rectangle)] as number;
    for (let k = a + 1; k < b; k++) {
      const cost = half(a, k, c, d) + half(k, b, c, d) + this.costs.seam("x", k, c, d, this.pricing);
      cuts.push({
        cost,
        way: 2 * k,
        halves: [
          [a, k, c, d],
          [k, b, c, d],
        ],
      });
    }
    for (let k = c + 1; k < d; k++) {
      const cost = half(a, b, c, k) + half(a, b, k, d) + this.costs.seam("y", k, a, b, this.pricing);
      cuts.push({
        cost,
        way: 2 * k + 1,
        halves: [
          [a, b, c, k],
          [a, b, k, d],
        ],
      });
    }
    return cuts;
  }

  private partsOf(a: number, b: number, c: number, d: number): Part[] | null {
    const here = this.at(a, b, c, d);
    if (this.cost[here] === Infinity) return null;
    const way = this.way[here] as number;
    if (way < 0) {
      return [{ box: this.boxOf(a, b, c, d), direction: directionOf(way === -3 ? "y" : "x") }];
    }
    const k = way >> 1;
    const halves =
      way % 2 === 0
        ? [this.partsOf(a, k, c, d), this.partsOf(k, b, c, d)]
        : [this.partsOf(a, b, c, k), this.partsOf(a, b, k, d)];
    return halves.some((half) => half === null) ? null : halves.flatMap((half) => half ?? []);
  }

  private boxOf(a: number, b: number, c: number, d: number): Box {
    const { x, y } = this.lines;
    return { x0: x[a] as Ticks, x1: x[b] as Ticks, y0: y[c] as Ticks, y1: y[d] as Ticks };
  }
}
