import type { RelaxedSplit, SectionRelaxation, SplitPrices } from "../model/relaxation.ts";
import type { Ticks } from "../units/ticks.ts";
import { type RelaxedNode, relaxedNodes } from "./relaxedNodes.ts";
import { isDemanded } from "./seamCandidates.ts";
import type { SectionTask } from "./sectionTask.ts";
import { StripReach } from "./splitNodes.ts";

/** Each time it is made finer, a stretch is cut into this many. */
const FINER = 4;
/** Stretches in the width of one panel at the first look, about. */
const COARSE = 128;
/** With more panels between its nodes than this a relaxation is made no finer: it would take too long to ask. */
const MOST_PANELS = 6e6;

/**
 * All splits of one section along one axis, with nearby places of seams taken as one.
 *
 * A shortest path over `relaxedNodes` from left to right: a panel between two nodes is as narrow as any two places of them
 * allow, as short as what its narrowest strip asks for, and costs what the prices say. Two seams inside one node are never
 * needed: the panel between them could be left out, and the next would be no wider for it. So every real split has a path
 * that costs no more (Bellman 1957, Dynamic Programming, for the path; the widths lose at most two stretches a panel).
 * Time O(n · w) for n nodes and w nodes within a panel's width; memory O(n log n).
 */
export class SplitRelaxation {
  private readonly task: SectionTask;
  private readonly lenient: boolean;
  private readonly finest: Ticks;
  private readonly leastAlong: number;
  private readonly cell: Ticks;
  /** Pieces that each stretch of `cell` is cut into. */
  private pieces = 1;
  private nodes: Nodes;

  /** @param finest the narrowest stretch worth looking at; ticks */
  constructor(task: SectionTask, finest: Ticks, lenient: boolean) {
    this.task = task;
    this.lenient = lenient;
    this.finest = finest;
    this.leastAlong = leastAlong(task);
    const { u0, u1 } = task.span;
    this.cell = Math.max(finest, Math.ceil(Math.min(u1 - u0, task.maxAcross) / COARSE));
    this.nodes = new Nodes(task, relaxedNodes(task, this.cell, 1, lenient), lenient);
  }

  refine(): boolean {
    const { u0, u1 } = this.task.span;
    const cell = this.cell / (this.pieces * FINER);
    const count = (u1 - u0) / cell;
    if (this.cell / this.pieces <= this.finest || count * Math.min(count, this.task.maxAcross / cell) > MOST_PANELS) {
      return false;
    }
    this.pieces *= FINER;
    this.nodes = new Nodes(this.task, relaxedNodes(this.task, this.cell, this.pieces, this.lenient), this.lenient);
    return true;
  }

  cheapest({ byWidth, quantum, gap, area, panel, ...seam }: SplitPrices): RelaxedSplit | null {
    const { maxAcross, maxAlong } = this.task;
    const { list, from, lo, hi, ahead, reach, demandedFrom, demandedTo } = this.nodes;
    const { loIndex, hiIndex } = reach;
    const count = list.length;
    const best = new Float64Array(count).fill(Infinity);
    const before = new Int32Array(count).fill(-1);
    best[0] = 0;
    const [least, last] = [this.leastAlong, byWidth.length - 1];
    for (let j = 1; j < count; j++) {
      const { visible, visibleLength, penalties } = list[j] as RelaxedNode;
      const end = hi[j] as number;
      const endIndex = hiIndex[j] as number;
      const demanded = demandedTo[j] as number;
      let lowest = Infinity;
      let lowestFrom = -1;
      for (let i = j - 1; i >= 0; i--) {
        const widest = end - (from[i] as number);
        if (widest - ahead > maxAcross || demanded > (demandedFrom[i] as number)) break;
        const sofar = best[i] as number;
        if (sofar >= lowest) continue;
        const across = Math.max(0, end - (lo[i] as number));
        if (across > maxAcross) continue;
        const startIndex = loIndex[i] as number;
        const along = startIndex < endIndex ? Math.max(least, reach.along(startIndex, endIndex)) : least;
        if (along > maxAlong) continue;
        const step = Math.floor((across + gap) / quantum + 1e-9);
        const rate = byWidth[Math.min(step, last)] as number;
        const value = sofar + rate * (along + gap) + area * across * along + panel;
        if (value >= lowest) continue;
        lowest = value;
        lowestFrom = i;
      }
      if (lowestFrom < 0) continue;
      best[j] = lowest + seam.visible * visible + seam.visibleLength * visibleLength + seam.penalty * penalties;
      before[j] = lowestFrom;
    }
    const value = best[count - 1] as number;
    return Number.isFinite(value) ? this.splitOf(before, value) : null;
  }

  private splitOf(before: Int32Array, value: number): RelaxedSplit {
    const { list, lo, hi, reach } = this.nodes;
    const [across, along]: number[][] = [[], []];
    let [visible, visibleLength, penalties] = [0, 0, 0];
    for (let j = list.length - 1; j > 0; ) {
      const i = before[j] as number;
      const [start, end] = [reach.loIndex[i] as number, reach.hiIndex[j] as number];
      across?.push(Math.max(0, (hi[j] as number) - (lo[i] as number)));
      along?.push(start < end ? Math.max(this.leastAlong, reach.along(start, end)) : this.leastAlong);
      const node = list[j] as RelaxedNode;
      visible += node.visible;
      visibleLength += node.visibleLength;
      penalties += node.penalties;
      j = i;
    }
    return { value, across: across ?? [], along: along ?? [], visible, visibleLength, penalties };
  }
}

/** Nodes in columns, for the inner loop. */
class Nodes {
  readonly list: readonly RelaxedNode[];
  readonly from: Float64Array;
  readonly lo: Float64Array;
  readonly hi: Float64Array;
  /** A window begins at most this much after its node does. */
  readonly ahead: number;
  readonly reach: StripReach;
  /** By node: demanded seams at or before all its places, as seen by a panel that begins there, and by one that ends there. */
  readonly demandedFrom: Int32Array;
  readonly demandedTo: Int32Array;

  constructor(task: SectionTask, list: readonly RelaxedNode[], lenient: boolean) {
    this.list = list;
    this.from = Float64Array.from(list, ({ from }) => from);
    this.lo = Float64Array.from(list, ({ lo }) => lo);
    this.hi = Float64Array.from(list, ({ hi }) => hi);
    this.ahead = list.reduce((most, { from, lo }) => Math.max(most, lo - from), 0);
    this.reach = new StripReach(
      task,
      list.map(({ from, lo, hi }) => ({ at: from, lo, hi, seam: null })),
    );
    const places = lenient ? [] : demandedPlaces(task);
    // A demanded place is a mark: a stretch ends at it, and only the node of the place itself has its seam there.
    this.demandedFrom = Int32Array.from(list, ({ from }) => places.filter((place) => place <= from).length);
    this.demandedTo = Int32Array.from(
      list,
      ({ from, to }) => places.filter((place) => (from === to ? place < from : place < to)).length,
    );
  }
}

function demandedPlaces(task: SectionTask): Ticks[] {
  const { span, axis, members } = task;
  const places = new Set(members.flatMap((member) => member.places(axis)));
  return [...places].filter((at) => at > span.u0 && at < span.u1 && isDemanded(task, at));
}

/** No panel is shorter than what the least column with any need asks for: every panel covers some of them. */
function leastAlong({ reach }: SectionTask): number {
  const least = (pieces: SectionTask["reach"]["low"]) =>
    Math.min(Infinity, ...pieces.map(({ atFrom, atTo }) => Math.min(atFrom, atTo)));
  const along = least(reach.low) + least(reach.high);
  return Number.isFinite(along) ? Math.max(0, along) : 0;
}

/** A section's relaxations along the axes allowed. */
export class SectionChoices implements SectionRelaxation {
  private readonly choices: readonly SplitRelaxation[];
  private last: SplitRelaxation | null = null;

  constructor(choices: readonly SplitRelaxation[]) {
    this.choices = choices;
  }

  cheapest(prices: SplitPrices): RelaxedSplit[] {
    let least = Infinity;
    return this.choices.flatMap((choice) => {
      const split = choice.cheapest(prices);
      if (split === null) return [];
      if (split.value < least) [least, this.last] = [split.value, choice];
      return [split];
    });
  }

  refine(): boolean {
    return this.last?.refine() ?? false;
  }
}
