import { tickAbove } from "../geometry/region.ts";
import type { Ticks } from "../units/ticks.ts";
import { mostOn, type ReachPiece } from "./reach.ts";
import { isDemanded, type SeamCandidate, seamCandidates } from "./seamCandidates.ts";
import type { SectionTask } from "./sectionTask.ts";

/**
 * A place where one window ends and the next begins: a seam, a gap of the section (both end with bleed, no seam), or an
 * end of the section.
 */
export interface SplitNode {
  readonly at: Ticks;
  /** Where the window to the right (or above) begins. */
  readonly lo: Ticks;
  /** Where the window to the left (or below) ends. */
  readonly hi: Ticks;
  readonly seam: SeamCandidate | null;
}

/** All that a split of one section chooses from. */
export interface SplitNodes {
  readonly task: SectionTask;
  /** Ascending; the first is the section's beginning, the last its end. */
  readonly nodes: readonly SplitNode[];
  /** By node: how many places that demand a seam lie at or before it. No panel may run across one. */
  readonly demandedUpTo: Int32Array;
  readonly reachOver: StripReach;
}

/** Builds the nodes of a section from its seam candidates and gaps. */
export function splitNodes(task: SectionTask, candidates: readonly SeamCandidate[] = seamCandidates(task)): SplitNodes {
  const { span, parts, axis } = task;
  const first = parts[0];
  const last = parts.at(-1);
  if (first === undefined || last === undefined) throw new RangeError("a section to split needs film somewhere");
  const nodes: SplitNode[] = candidates.map((seam) => ({
    at: seam.at,
    lo: seam.at - seam.half,
    hi: seam.at + seam.half,
    seam,
  }));
  for (let i = 0; i + 1 < parts.length; i++) {
    const before = parts[i] as SectionTask["parts"][number];
    const after = parts[i + 1] as SectionTask["parts"][number];
    nodes.push({ at: (before.to + after.from) / 2, lo: after.lo, hi: before.hi, seam: null });
  }
  nodes.push({ at: span.u0, lo: first.lo, hi: first.lo, seam: null });
  nodes.push({ at: span.u1, lo: last.hi, hi: last.hi, seam: null });
  nodes.sort((a, b) => a.at - b.at);
  const demanded = new Set<Ticks>();
  for (const member of task.members) {
    for (const at of member.places(axis)) {
      if (at > span.u0 && at < span.u1 && isDemanded(task, at)) demanded.add(at);
    }
  }
  const places = [...demanded].sort((a, b) => a - b);
  const demandedUpTo = Int32Array.from(nodes, ({ at }) => places.filter((place) => place <= at).length);
  // A demanded place without a candidate (a zone forbids it) can be passed by no panel: its count rises between nodes.
  return { task, nodes, demandedUpTo, reachOver: new StripReach(task, nodes) };
}

/** True when a panel from node i to node j would run across a place that demands a seam. */
export function crossesDemanded({ demandedUpTo, nodes }: SplitNodes, i: number, j: number): boolean {
  const atJ = nodes[j]?.seam?.demanded === true ? 1 : 0;
  return (demandedUpTo[j] as number) - atJ > (demandedUpTo[i] as number);
}

/**
 * The most that windows must reach over each elementary stretch between two neighbouring window ends, so that the reach
 * of a strip is a running maximum. Strips are closed: a piece that a strip only touches counts.
 */
export class StripReach {
  /** By node: index of the elementary stretch that begins at its `lo`, and of the one that ends before its `hi`. */
  readonly loIndex: Int32Array;
  readonly hiIndex: Int32Array;
  /** By elementary stretch, outward, unrounded; -Infinity where nothing is needed. */
  readonly low: Float64Array;
  readonly high: Float64Array;
  /** By elementary end: needed range of u up to there, to tell panels that would cover nothing. */
  readonly needed: Float64Array;

  constructor({ span, reach, parts }: SectionTask, nodes: readonly SplitNode[]) {
    const inside = (u: Ticks) => Math.min(span.u1, Math.max(span.u0, u));
    const ends = Float64Array.from(new Set(nodes.flatMap(({ lo, hi }) => [inside(lo), inside(hi)]))).sort();
    const indexOf = new Map([...ends].map((end, index) => [end, index]));
    this.loIndex = Int32Array.from(nodes, ({ lo }) => indexOf.get(inside(lo)) as number);
    this.hiIndex = Int32Array.from(nodes, ({ hi }) => indexOf.get(inside(hi)) as number);
    this.low = mostByStretch(reach.low, ends);
    this.high = mostByStretch(reach.high, ends);
    this.needed = Float64Array.from(ends, (end) =>
      parts.reduce((sum, { from, to }) => sum + Math.max(0, Math.min(end, to) - from), 0),
    );
  }
}

function mostByStretch(pieces: readonly ReachPiece[], ends: Float64Array): Float64Array {
  const most = new Float64Array(Math.max(0, ends.length - 1)).fill(-Infinity);
  for (const piece of pieces) {
    for (let k = firstReaching(ends, piece.from); k < most.length && (ends[k] as number) <= piece.to; k++) {
      const value = mostOn(piece, ends[k] as number, ends[k + 1] as number);
      if (value > (most[k] as number)) most[k] = value;
    }
  }
  return most;
}

/** The first stretch whose end is at or after u. */
function firstReaching(ends: Float64Array, u: number): number {
  let [low, high] = [0, ends.length - 1];
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((ends[middle + 1] as number) < u) low = middle + 1;
    else high = middle;
  }
  return low;
}

/** Length along the roll of a window whose strip has this reach. */
export const alongOf = (low: number, high: number): Ticks => tickAbove(low) + tickAbove(high);
