import type { Ticks } from "../units/ticks.ts";
import type { SeamCandidate } from "./seamRules.ts";
import { grownTo, Labels } from "./splitLabels.ts";
import { apartFrom, fitsHeld, type SplitNode, type SplitNodes, windowEnds } from "./splitNodes.ts";

/** What a split is priced by: whole numbers once `panelPrice` has rounded them, so that sums are exact and ties are ties. */
export interface SplitPrice {
  /** Per open seam of each member, on one copy; left out, 0. */
  readonly open?: number;
  /** Per tick along. */
  readonly along: number;
  /** Per square tick of window. */
  readonly area: number;
  /** Per panel. */
  readonly panel: number;
  /** Per tick of seam that stays visible, on all copies. */
  readonly visibleLength: number;
  /** Per place at which a split is not as wished; 0 when left out. */
  readonly apart?: number;
}

/** One way to split a section: the nodes it passes, first and last included, and what it comes to. */
export interface Split {
  readonly nodes: readonly number[];
  readonly price: number;
  readonly visible: number;
  readonly penalties: number;
  readonly visibleLength: Ticks;
  /** By member: open seams on one copy. */
  readonly open: readonly number[];
}

/** Labels are held against those of later nodes at every so many nodes: dropping them is worth a pass only now and then. */
const PRUNE_EVERY = 8;
/**
 * Partial splits that show more seams than the fewest panels that lead to the same node, and so many, are not looked at;
 * where seams are wished for, as many more.
 */
const MOST_EXTRA = 4;
/** Two panels rounded to whole prices may each be half a unit off; on money that is a ten-millionth. */
const ROUNDING = 2;

/**
 * All non-dominated splits of a section by price, visible seams, penalties and, where a limit is given, open seams.
 *
 * @param input nodes of the section, windows and candidates in ticks
 * @param price what is summed over panels and seams; rounded to a whole number for each panel
 * @param openLimits by member: most open seams on one copy; null where nothing limits them
 * @returns splits by ascending visible seams, then penalties, then price; empty when there is none
 *
 * A dynamic programme over the nodes from left to right. A node holds the labels (partial splits that end there) which no
 * other label of the node beats on every criterion; they need no knowledge of what came before, since a panel depends on
 * its two ends alone. A label is also dropped for good once a later node holds one that is no worse on every criterion
 * and whose next window begins no farther left: every panel that could follow the first can follow the second instead,
 * narrower, over part of the same strip, hence no longer and no dearer. Where window area is priced it is even cheaper,
 * by at least the area of the strip between the two beginnings at the length that this strip alone asks for, so the
 * later label may be that much dearer. Not so where a panel's width is settled: a label from which such a panel may begin
 * is not held against those after it. What is apart from wished places is a sum over seams and panels like any other, and
 * a panel that begins later passes over no more of them. Exact over the given nodes, but for the rounding of prices to whole numbers and
 * for splits that anywhere show more seams than the fewest panels up to there and MOST_EXTRA: where windows hardly
 * overlap, every further seam along a slope would save a little film, without end. Seams hidden in breaks are not counted.
 * Ties: fewer handles inside bands; at one node then less visible length; then seams farther right (full panels first, the rest last).
 * Time O(n · w · l) for n nodes, w labelled nodes within one panel's width and l labels at a node; memory O(n · l).
 * The principle: Bellman (1957), Dynamic Programming; labels by several criteria: Hansen (1980), Bicriterion path problems.
 */
export function splitSection(input: SplitNodes, price: SplitPrice, openLimits: readonly number[] | null): Split[] {
  const { nodes, task, reachOver, demandedUpTo, demandedBefore, held, wished } = input;
  const { maxAcross, maxAlong } = task;
  const { loIndex, hiIndex, needed } = reachOver;
  const apart = price.apart ?? 0;
  const nextHeld = held === null ? null : nextHeldPlaces(input);
  const limits = openLimits === null || openLimits.every((limit) => limit === Infinity) ? null : openLimits;
  const ahead = mostAhead(input);
  const behind = mostBehind(input);
  const fewest = new Int32Array(nodes.length);
  const rounding = Number.isInteger(price.area) ? 0 : ROUNDING;
  const standsIn = mayStandIn(input);
  const at = Float64Array.from(nodes, (node) => node.at);
  const lo = Float64Array.from(nodes, (node) => node.lo);
  const his = Float64Array.from(nodes, (node) => node.hi);
  const labels = new Labels(limits !== null);
  labels.add(0, -1, 0, 0, 0, 0, 0, 0, limits === null ? null : limits.map(() => 0));
  // Labels that a panel may still follow, by ascending node.
  let active = new Int32Array(64);
  let activeCount = 1;
  let first = 0;
  for (let j = 1; j < nodes.length; j++) {
    const { hi, seam } = nodes[j] as SplitNode;
    const ownEndIndex = hiIndex[j] as number;
    const seamLength = seam === null ? 0 : seam.visibleLength;
    const shown = seam === null || price.open === undefined ? 0 : price.open * openOn(seam);
    const demanded = demandedBefore[j] as number;
    first = labels.count;
    let least = nodes.length;
    for (let a = activeCount - 1; a >= 0; a--) {
      const label = active[a] as number;
      const i = labels.node[label] as number;
      if ((at[i] as number) + ahead < hi - maxAcross || demanded > (demandedUpTo[i] as number)) break;
      let startIndex = loIndex[i] as number;
      let endIndex = ownEndIndex;
      let across = hi - (lo[i] as number);
      if ((lo[j] as number) < (lo[i] as number) || (his[i] as number) > hi) {
        // Rare: see windowEnds.
        const ends = windowEnds(nodes[i] as SplitNode, nodes[j] as SplitNode);
        if (ends === null) continue;
        across = ends.hi - ends.lo;
        startIndex = Math.min(startIndex, loIndex[j] as number);
        endIndex = Math.max(endIndex, hiIndex[i] as number);
      }
      if (across > maxAcross || startIndex >= endIndex) continue;
      if (held !== null && !fitsHeld(held, i, j, across)) continue;
      if ((needed[endIndex] as number) <= (needed[startIndex] as number)) continue;
      const along = reachOver.along(startIndex, endIndex);
      if (along > maxAlong) continue;
      least = Math.min(least, 1 + (fewest[i] as number));
      let cost = panelPrice(price, across, along, seamLength) + shown;
      if (wished !== null) cost += apart * apartFrom(wished, i, j);
      labels.extend(label, j, seam, cost, limits, first);
    }
    if (labels.count === first) continue;
    fewest[j] = least;
    labels.dropLonger(first, least + MOST_EXTRA + (wished === null ? 0 : (wished.upTo[j] as number)));
    if (j % PRUNE_EVERY === 0 && standsIn(j)) {
      const begins = lo[j] as number;
      const beginIndex = loIndex[j] as number;
      let kept = 0;
      for (let a = 0; a < activeCount; a++) {
        const label = active[a] as number;
        const i = labels.node[label] as number;
        // Out of reach of this node and of every later one.
        if ((at[i] as number) + ahead < (at[j] as number) - maxAcross) continue;
        const saved = begins - (lo[i] as number);
        const mayBeHeld = nextHeld !== null && (nextHeld[j] as number) < (at[i] as number) + ahead + maxAcross + behind;
        if (saved >= 0 && !mayBeHeld) {
          const strip = price.area > 0 && (loIndex[i] as number) < beginIndex;
          const along = strip ? Math.max(0, reachOver.along(loIndex[i] as number, beginIndex)) : 0;
          if (labels.isBeaten(label, first, along > 0 ? price.area * saved * along + rounding : 0)) continue;
        }
        active[kept++] = label;
      }
      activeCount = kept;
    }
    for (let label = first; label < labels.count; label++) {
      if (activeCount === active.length) active = grownTo(active, 2 * activeCount);
      active[activeCount++] = label;
    }
  }
  const splits: Split[] = [];
  for (let label = first; label < labels.count; label++) {
    if (labels.node[label] === nodes.length - 1) splits.push(splitOf(input, labels, label));
  }
  return splits.sort(
    (a, b) =>
      a.visible - b.visible || a.penalties - b.penalties || a.price - b.price || a.visibleLength - b.visibleLength,
  );
}

function splitOf({ nodes, task }: SplitNodes, labels: Labels, end: number): Split {
  const path: number[] = [];
  for (let label = end; label !== -1; label = labels.before[label] as number) path.push(labels.node[label] as number);
  path.reverse();
  return {
    nodes: path,
    price: labels.price[end] as number,
    visible: labels.visible[end] as number,
    penalties: labels.penalties[end] as number,
    visibleLength: labels.visibleLength[end] as number,
    open: task.members.map((_, m) => path.filter((node) => nodes[node]?.seam?.kinds[m] === "open").length),
  };
}

/** Members for which a seam is open. */
const openOn = ({ kinds }: SeamCandidate): number => kinds.filter((kind) => kind === "open").length;

/** Price of a panel and the seam at its right or upper end. */
export const panelPrice = (price: SplitPrice, across: Ticks, along: Ticks, visibleLength: Ticks): number =>
  Math.round(price.along * along + price.area * across * along + price.panel + price.visibleLength * visibleLength);

/** Windows may begin right of their node (a section's beginning, a gap): by this much at most. */
const mostAhead = ({ nodes }: SplitNodes): Ticks => nodes.reduce((most, { lo, at }) => Math.max(most, lo - at), 0);

/** Windows may end left of their node (a gap): by this much at most. */
const mostBehind = ({ nodes }: SplitNodes): Ticks => nodes.reduce((most, { hi, at }) => Math.max(most, at - hi), 0);

/** By node: the first place at or after it whose panel has a settled width. */
function nextHeldPlaces({ nodes, held }: SplitNodes): Float64Array {
  return Float64Array.from(nodes, (_, i) => held?.at[held.before[i] as number] ?? Infinity);
}

/**
 * Whether a panel may begin at a node wherever one that begins earlier may end, and covers something, so that it may stand
 * for that one. Not so just before a seam with so wide an overlap that its window would begin before this one's (see
 * `windowEnds`), nor where windows do not overlap and nothing may be needed beside the node: at a gap, or where film ends.
 */
function mayStandIn({ nodes, task }: SplitNodes): (node: number) => boolean {
  const clear = new Uint8Array(nodes.length);
  let [lo, hi] = [Infinity, Infinity];
  for (let j = nodes.length - 1; j >= 0; j--) {
    const node = nodes[j] as SplitNode;
    clear[j] = node.hi <= hi && (node.seam === null || node.lo <= lo) ? 1 : 0;
    lo = Math.min(lo, node.lo);
    if (node.seam !== null) hi = Math.min(hi, node.hi);
  }
  const lapped = nodes.every(({ seam }) => seam === null || seam.half > 0);
  return (node) => {
    if (lapped || clear[node] === 0) return clear[node] === 1;
    const { at, seam } = nodes[node] as SplitNode;
    return seam !== null && task.parts.some(({ from, to }) => from < at && at < to);
  };
}

/**
 * Calls `visit` for every panel that may stand between two nodes, by ascending right or upper end, then by descending
 * left or lower end: as wide and as long as allowed, of a settled width where there is one, covering something needed,
 * across no place that demands a seam.
 */
export function forEachPanel(
  input: SplitNodes,
  visit: (from: number, to: number, across: Ticks, along: Ticks) => void,
): void {
  const { nodes, task, reachOver, demandedUpTo, demandedBefore, held } = input;
  const { maxAcross, maxAlong } = task;
  const { loIndex, hiIndex, needed } = reachOver;
  const ahead = mostAhead(input);
  for (let j = 1; j < nodes.length; j++) {
    const end = nodes[j] as SplitNode;
    for (let i = j - 1; i >= 0; i--) {
      const start = nodes[i] as SplitNode;
      if (start.at + ahead < end.hi - maxAcross || (demandedBefore[j] as number) > (demandedUpTo[i] as number)) break;
      const ends = windowEnds(start, end);
      if (ends === null || ends.hi - ends.lo > maxAcross) continue;
      if (held !== null && !fitsHeld(held, i, j, ends.hi - ends.lo)) continue;
      const startIndex = Math.min(loIndex[i] as number, loIndex[j] as number);
      const endIndex = Math.max(hiIndex[i] as number, hiIndex[j] as number);
      if (startIndex >= endIndex || (needed[endIndex] as number) <= (needed[startIndex] as number)) continue;
      const along = reachOver.along(startIndex, endIndex);
      if (along <= maxAlong) visit(i, j, ends.hi - ends.lo, along);
    }
  }
}
