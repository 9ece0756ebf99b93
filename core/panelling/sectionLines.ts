import type { Axis, Box } from "../geometry/box.ts";
import { type Region, tickAbove, tickBelow } from "../geometry/region.ts";
import type { Ticks } from "../units/ticks.ts";
import { type Span, sidesOf } from "./orientation.ts";
import type { SeamLine } from "./seamRules.ts";

/** A line across a section with what is needed on it. */
export interface MeasuredLine extends SeamLine {
  readonly length: Ticks;
}

interface SectionFrame {
  readonly axis: Axis;
  readonly span: Span;
  readonly region: Region;
  readonly box: Box;
}

/**
 * The needed line at any place of a section, worked out once for each slab between two neighbouring corners: there its
 * lowest point, its highest point and its length are linear. Sections ask this thousands of times, once a grid line.
 */
export class SectionLines {
  private readonly section: SectionFrame;
  private slopes: boolean | null = null;
  /** By slab: its end, and lowest point, highest point and needed length at its beginning and its end. */
  private readonly from: number[] = [];
  private readonly to: number[] = [];
  private readonly low: [number, number][] = [];
  private readonly high: [number, number][] = [];
  private readonly length: [number, number][] = [];

  constructor(section: SectionFrame) {
    this.section = section;
    const { axis, span, region, box } = section;
    const [lowSide, highSide] = sidesOf(axis).v;
    const lows = region.profile(box, lowSide);
    const highs = region.profile(box, highSide);
    const within = { from: span.v0, to: span.v1 };
    const lengthAt = (at: number, side: -1 | 1) =>
      region.beside(axis, at, within, side).reduce((sum, { from, to }) => sum + to - from, 0);
    for (const [i, slab] of lows.entries()) {
      const facing = highs[i];
      if (facing === undefined) throw new RangeError("the two profiles of a section have the same slabs");
      const pick = (end: 0 | 1, { outline, opening, beyond }: typeof slab, edge: number, most: typeof Math.min) =>
        most(...[outline?.[end], opening?.[end], beyond ? edge : undefined].filter((value) => value !== undefined));
      this.from.push(slab.from);
      this.to.push(slab.to);
      this.low.push([pick(0, slab, span.v0, Math.min), pick(1, slab, span.v0, Math.min)]);
      this.high.push([pick(0, facing, span.v1, Math.max), pick(1, facing, span.v1, Math.max)]);
      this.length.push([lengthAt(slab.from, 1), lengthAt(slab.to, -1)]);
    }
  }

  /** Whether stretches on lines change their ends between two corners; worked out when first asked. */
  slope(): boolean {
    this.slopes ??= this.findSlope();
    return this.slopes;
  }

  private findSlope(): boolean {
    const { axis, span, region } = this.section;
    const within = { from: span.v0, to: span.v1 };
    return this.from.some((from, i) => {
      const [a, b] = [region.beside(axis, from, within, 1), region.beside(axis, this.to[i] as number, within, -1)];
      return a.length !== b.length || a.some((part, k) => part.from !== b[k]?.from || part.to !== b[k]?.to);
    });
  }

  /** The line exactly as the needed region gives it; null where nothing is needed. */
  exact(at: Ticks): MeasuredLine | null {
    const { axis, span, region } = this.section;
    const stretches = region.line(axis, at, { from: span.v0, to: span.v1 });
    const [first, last] = [stretches[0], stretches.at(-1)];
    if (first === undefined || last === undefined) return null;
    const length = stretches.reduce((sum, { from, to }) => sum + to - from, 0);
    return { axis, at, from: first.from, to: last.to, length };
  }

  /** The line by interpolation; within a tick of `exact` where edges slope, equal elsewhere. */
  at(at: Ticks): MeasuredLine | null {
    let [low, high] = [0, this.to.length - 1];
    while (low < high) {
      const middle = (low + high) >> 1;
      if ((this.to[middle] as number) <= at) low = middle + 1;
      else high = middle;
    }
    const [from, to] = [this.from[low] as number, this.to[low] as number];
    // On a corner both sides of the line count.
    if (at <= from || at >= to) return this.exact(at);
    const share = (at - from) / (to - from);
    const between = (ends: [number, number] | undefined) => {
      const [a, b] = ends as [number, number];
      return a === b ? a : a + share * (b - a);
    };
    const lowest = tickBelow(between(this.low[low]));
    const highest = tickAbove(between(this.high[low]));
    if (!(lowest < highest)) return null;
    const length = Math.min(highest - lowest, Math.round(between(this.length[low])));
    return { axis: this.section.axis, at, from: lowest, to: highest, length };
  }
}
