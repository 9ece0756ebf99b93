import { tickAbove } from "../geometry/region.ts";
import type { Ticks } from "../units/ticks.ts";
import { isForbidden, type Settled } from "./holds.ts";
import { settledCandidates } from "./holdsPlaces.ts";
import { mostOn, type ReachPiece } from "./reach.ts";
import { isDemanded } from "./seamCandidates.ts";
import type { SeamCandidate } from "./seamRules.ts";
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

/**
 * Where a window between two places of a split begins and ends. It never begins after the window that follows it, nor
 * ends before the one it follows: a wide overlap at one end of a narrow panel carries over the panel's other end where
 * that is an end of the section or a gap. Null where the other end is a seam, which would then share more than it was
 * judged for.
 */
export function windowEnds(low: SplitNode, high: SplitNode): { lo: Ticks; hi: Ticks } | null {
  if ((high.lo < low.lo && low.seam !== null) || (low.hi > high.hi && high.seam !== null)) return null;
  return { lo: Math.min(low.lo, high.lo), hi: Math.max(low.hi, high.hi) };
}

/** All that a split of one section chooses from. */
export interface SplitNodes {
  readonly task: SectionTask;
  /** Ascending; the first is the section's beginning, the last its end. */
  readonly nodes: readonly SplitNode[];
  /** By node: how many places that demand a seam lie at or before it. No panel may run across one. */
  readonly demandedUpTo: Int32Array;
  /** The same without a demanded seam at the node itself: a panel from i to j runs across none when j's does not exceed i's. */
  readonly demandedBefore: Int32Array;
  /** Panels whose width is settled; null without any. */
  readonly held: HeldPanels | null;
  /** Places where seams are wished for; null where none are. */
  readonly wished: WishedSeams | null;
  readonly reachOver: StripReach;
}

/** Held widths as seen from the nodes: a panel from i to j holds the places numbered before[i] to before[j] - 1. */
export interface HeldPanels {
  readonly before: Int32Array;
  /** By place, ascending. */
  readonly at: Float64Array;
  readonly width: Float64Array;
}

/** Whether a panel between two nodes, so wide, is as wide as settled for all places that it holds. */
export function fitsHeld({ before, width }: HeldPanels, from: number, to: number, across: Ticks): boolean {
  for (let k = before[from] as number; k < (before[to] as number); k++) if (width[k] !== across) return false;
  return true;
}

/** Wished places as seen from the nodes. */
export interface WishedSeams {
  /** By node: wished places before it, and up to it. */
  readonly before: Int32Array;
  readonly upTo: Int32Array;
  /** By node: 1 for a seam where none is wished for. */
  readonly elsewhere: Uint8Array;
}

/** How much a panel and the seam at its end are apart from what is wished: places passed over, and a seam elsewhere. */
export const apartFrom = ({ before, upTo, elsewhere }: WishedSeams, from: number, to: number): number =>
  (before[to] as number) - (upTo[from] as number) + (elsewhere[to] as number);

/** Builds the nodes of a section from its seam candidates and gaps, less those where what is settled leaves no seam. */
export function splitNodes(
  task: SectionTask,
  candidates: readonly SeamCandidate[] = settledCandidates(task),
): SplitNodes {
  const { span, parts, axis, settled } = task;
  const first = parts[0];
  const last = parts.at(-1);
  if (first === undefined || last === undefined) throw new RangeError("a section to split needs film somewhere");
  const nodes: SplitNode[] = candidates.flatMap((seam) => {
    if (settled !== undefined && isForbidden(settled.noSeams, seam.at)) return [];
    return [{ at: seam.at, lo: seam.at - seam.half, hi: seam.at + seam.half, seam }];
  });
  for (let i = 0; i + 1 < parts.length; i++) {
    const before = parts[i] as SectionTask["parts"][number];
    const after = parts[i + 1] as SectionTask["parts"][number];
    nodes.push({ at: (before.to + after.from) / 2, lo: after.lo, hi: before.hi, seam: null });
  }
  nodes.push({ at: span.u0, lo: first.lo, hi: first.lo, seam: null });
  nodes.push({ at: span.u1, lo: last.hi, hi: last.hi, seam: null });
  nodes.sort((a, b) => a.at - b.at);
  const demanded = new Set<Ticks>(settled?.seams);
  for (const member of task.members) {
    for (const at of member.places(axis)) {
      if (at > span.u0 && at < span.u1 && isDemanded(task, at)) demanded.add(at);
    }
  }
  const places = [...demanded].sort((a, b) => a - b);
  let passed = 0;
  const demandedUpTo = Int32Array.from(nodes, ({ at }) => {
    while (passed < places.length && (places[passed] as Ticks) <= at) passed++;
    return passed;
  });
  // A demanded place without a candidate (a zone forbids it) can be passed by no panel: its count rises between nodes.
  const demandedBefore = Int32Array.from(
    nodes,
    ({ seam, at }, i) => (demandedUpTo[i] as number) - (seam !== null && demanded.has(at) ? 1 : 0),
  );
  return {
    task,
    nodes,
    demandedUpTo,
    demandedBefore,
    held: settled === undefined || settled.widths.length === 0 ? null : heldPanels(nodes, settled),
    wished: settled === undefined || settled.expected === null ? null : wishedSeams(nodes, settled.expected.places),
    reachOver: new StripReach(task, nodes),
  };
}

function heldPanels(nodes: readonly SplitNode[], { widths }: Settled): HeldPanels {
  return {
    before: countBelow(
      nodes,
      widths.map(({ at }) => at),
      false,
    ),
    at: Float64Array.from(widths, ({ at }) => at),
    width: Float64Array.from(widths, ({ width }) => width),
  };
}

function wishedSeams(nodes: readonly SplitNode[], expected: readonly Ticks[]): WishedSeams {
  const wished = new Set(expected);
  return {
    before: countBelow(nodes, expected, false),
    upTo: countBelow(nodes, expected, true),
    elsewhere: Uint8Array.from(nodes, ({ seam, at }) => (seam !== null && !wished.has(at) ? 1 : 0)),
  };
}

/** By node: how many of these ascending places lie before it, or also at it. */
function countBelow(nodes: readonly SplitNode[], places: readonly Ticks[], withEqual: boolean): Int32Array {
  let count = 0;
  return Int32Array.from(nodes, ({ at }) => {
    while (count < places.length && ((places[count] as Ticks) < at || (withEqual && places[count] === at))) count++;
    return count;
  });
}

/**
 * The most that windows must reach over each elementary stretch between two neighbouring window ends, so that the reach
 * of a strip is a running maximum. Strips are closed: a piece that a strip only touches counts.
 */
export class StripReach {
  /** By node: index of the elementary stretch that begins at its `lo`, and one past the stretch that ends at its `hi`. */
  readonly loIndex: Int32Array;
  readonly hiIndex: Int32Array;
  /** By elementary end: needed range of u up to there, to tell panels that would cover nothing. */
  readonly needed: Float64Array;
  private readonly low: RangeMost;
  private readonly high: RangeMost;

  constructor({ span, reach, parts }: SectionTask, nodes: readonly SplitNode[]) {
    const inside = (u: Ticks) => Math.min(span.u1, Math.max(span.u0, u));
    const all = new Float64Array(nodes.length * 2);
    for (const [i, { lo, hi }] of nodes.entries()) {
      all[2 * i] = inside(lo);
      all[2 * i + 1] = inside(hi);
    }
    all.sort();
    const ends = all.filter((end, i) => i === 0 || end !== all[i - 1]);
    this.loIndex = Int32Array.from(nodes, ({ lo }) => indexIn(ends, inside(lo)));
    this.hiIndex = Int32Array.from(nodes, ({ hi }) => indexIn(ends, inside(hi)));
    this.low = new RangeMost(mostByStretch(reach.low, ends));
    this.high = new RangeMost(mostByStretch(reach.high, ends));
    this.needed = new Float64Array(ends.length);
    for (const { from, to } of parts) {
      for (let k = indexIn(ends, from); k < ends.length; k++) {
        this.needed[k] = (this.needed[k] as number) + Math.max(0, Math.min(ends[k] as number, to) - from);
      }
    }
  }

  /** Length along of a window from the lo of one node to the hi of another, by their indices. */
  along(loIndex: number, hiIndex: number): Ticks {
    return this.low.over(loIndex, hiIndex) + this.high.over(loIndex, hiIndex);
  }
}

/** Most of any range of a list, by tables of doubling widths. Time O(n log n) to build, O(1) to ask. */
class RangeMost {
  private readonly levels: Float64Array[];

  constructor(values: Float64Array) {
    this.levels = [values];
    for (let width = 1; 2 * width <= values.length; width *= 2) {
      const narrow = this.levels.at(-1) as Float64Array;
      const wide = new Float64Array(values.length - 2 * width + 1);
      for (let k = 0; k < wide.length; k++) {
        const [a, b] = [narrow[k] as number, narrow[k + width] as number];
        wide[k] = Math.max(a, b);
      }
      this.levels.push(wide);
    }
  }

  /** Most of values[from] to values[to - 1], from < to. */
  over(from: number, to: number): number {
    const level = 31 - Math.clz32(to - from);
    const table = this.levels[level] as Float64Array;
    const [a, b] = [table[from] as number, table[to - (1 << level)] as number];
    return Math.max(a, b);
  }
}

/** By elementary stretch, rounded outward to a tick. */
function mostByStretch(pieces: readonly ReachPiece[], ends: Float64Array): Float64Array {
  const most = new Float64Array(Math.max(0, ends.length - 1)).fill(-Infinity);
  for (const piece of pieces) {
    // From the stretch that ends at or after the piece's beginning: a stretch that only touches it counts.
    for (let k = Math.max(0, indexIn(ends, piece.from) - 1); k < most.length && (ends[k] as number) <= piece.to; k++) {
      const value = tickAbove(mostOn(piece, ends[k] as number, ends[k + 1] as number));
      if (value > (most[k] as number)) most[k] = value;
    }
  }
  return most;
}

/** The first index whose end is at or after u. */
function indexIn(ends: Float64Array, u: number): number {
  let [low, high] = [0, ends.length - 1];
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((ends[middle] as number) < u) low = middle + 1;
    else high = middle;
  }
  return low;
}
