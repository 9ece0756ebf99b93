import type { Ticks } from "../units/ticks.ts";
import { alongOf, crossesDemanded, type SplitNodes } from "./splitNodes.ts";

/** What a split is priced by: whole numbers once `panelPrice` has rounded them, so that sums are exact and ties are ties. */
export interface SplitPrice {
  /** Per tick along. */
  readonly along: number;
  /** Per square tick of window. */
  readonly area: number;
  /** Per panel. */
  readonly panel: number;
  /** Per tick of seam that stays visible, on all copies. */
  readonly visibleLength: number;
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

/**
 * All non-dominated splits of a section by price, visible seams, penalties and, where a limit binds, open seams.
 *
 * @param input nodes of the section, windows and candidates in ticks
 * @param price what is summed over panels and seams; rounded to a whole number for each panel
 * @param openLimits by member: most open seams on one copy; null where nothing limits them
 * @returns splits by ascending visible seams, then penalties, then price; empty when there is none
 *
 * A dynamic programme over the nodes from left to right. A node holds the labels (partial splits ending there) that no
 * other label of the node beats on every criterion; they need no knowledge of what came before, since a panel depends on
 * its two ends alone. Exact over the given nodes. Ties: less visible length, then seams farther left.
 * Time O(n · w · l) for n nodes, w nodes within one panel's width and l labels at a node; memory O(n · l).
 * The principle: Bellman (1957), Dynamic Programming; labels by several criteria: Hansen (1980), Bicriterion path problems.
 */
export function splitSection(input: SplitNodes, price: SplitPrice, openLimits: readonly number[] | null): Split[] {
  const { nodes, task } = input;
  const labels: Label[][] = nodes.map(() => []);
  (labels[0] as Label[]).push({
    node: 0,
    before: null,
    price: 0,
    visible: 0,
    penalties: 0,
    visibleLength: 0,
    open: task.members.map(() => 0),
  });
  const limits = openLimits === null || openLimits.every((limit) => limit === Infinity) ? null : openLimits;
  forEachPanel(input, (i, j, across, along) => {
    const from = labels[i] as Label[];
    if (from.length === 0) return;
    const cost = panelPrice(price, across, along, nodes[j]?.seam?.visibleLength ?? 0);
    for (const label of from) extend(label, j, cost, input, limits, labels[j] as Label[]);
  });
  const ends = labels.at(-1) as Label[];
  return ends
    .map((label) => ({
      nodes: pathTo(label),
      price: label.price,
      visible: label.visible,
      penalties: label.penalties,
      visibleLength: label.visibleLength,
      open: label.open,
    }))
    .sort(
      (a, b) =>
        a.visible - b.visible || a.penalties - b.penalties || a.price - b.price || a.visibleLength - b.visibleLength,
    );
}

/** Price of a panel and the seam at its right or upper end. */
export const panelPrice = (price: SplitPrice, across: Ticks, along: Ticks, visibleLength: Ticks): number =>
  Math.round(price.along * along + price.area * across * along + price.panel + price.visibleLength * visibleLength);

/**
 * Calls `visit` for every panel that may stand between two nodes, by ascending right or upper end, then by descending
 * left or lower end: as wide and as long as allowed, covering something needed, across no place that demands a seam.
 */
export function forEachPanel(
  input: SplitNodes,
  visit: (from: number, to: number, across: Ticks, along: Ticks) => void,
): void {
  const { nodes, task, reachOver } = input;
  const { maxAcross, maxAlong } = task;
  const { loIndex, hiIndex, low, high, needed } = reachOver;
  const n = nodes.length;
  const at = Float64Array.from(nodes, (node) => node.at);
  const lo = Float64Array.from(nodes, (node) => node.lo);
  const hi = Float64Array.from(nodes, (node) => node.hi);
  // Windows may begin right of their node (a section's beginning, a gap): by this much at most.
  const ahead = nodes.reduce((most, node) => Math.max(most, node.lo - node.at), 0);
  const runLow = new Float64Array(low.length);
  const runHigh = new Float64Array(high.length);
  for (let j = 1; j < n; j++) {
    const end = hi[j] as number;
    const endIndex = hiIndex[j] as number;
    let reached = endIndex;
    let [mostLow, mostHigh] = [-Infinity, -Infinity];
    for (let i = j - 1; i >= 0 && (at[i] as number) + ahead >= end - maxAcross; i--) {
      const across = end - (lo[i] as number);
      if (across > maxAcross || across <= 0) continue;
      const startIndex = loIndex[i] as number;
      if (startIndex >= endIndex) continue;
      while (reached > startIndex) {
        reached--;
        mostLow = Math.max(mostLow, low[reached] as number);
        mostHigh = Math.max(mostHigh, high[reached] as number);
        runLow[reached] = mostLow;
        runHigh[reached] = mostHigh;
      }
      if ((needed[endIndex] as number) <= (needed[startIndex] as number)) continue;
      const along = alongOf(runLow[startIndex] as number, runHigh[startIndex] as number);
      if (along > maxAlong) continue;
      if (crossesDemanded(input, i, j)) break;
      visit(i, j, across, along);
    }
  }
}

interface Label {
  readonly node: number;
  readonly before: Label | null;
  readonly price: number;
  readonly visible: number;
  readonly penalties: number;
  readonly visibleLength: Ticks;
  readonly open: readonly number[];
}

function extend(
  label: Label,
  j: number,
  cost: number,
  { nodes }: SplitNodes,
  limits: readonly number[] | null,
  into: Label[],
): void {
  const seam = nodes[j]?.seam ?? null;
  const price = label.price + cost;
  const visible = label.visible + (seam?.visible ?? 0);
  const penalties = label.penalties + (seam?.penalties ?? 0);
  const visibleLength = label.visibleLength + (seam?.visibleLength ?? 0);
  // Most candidates end here, so nothing is built before this test.
  if (limits === null) {
    for (const other of into) {
      if (other.price <= price && other.visible <= visible && other.penalties <= penalties) {
        const equal = other.price === price && other.visible === visible && other.penalties === penalties;
        if (!equal || other.visibleLength < visibleLength) return;
      }
    }
  }
  const open = seam === null ? label.open : label.open.map((count, m) => count + (seam.kinds[m] === "open" ? 1 : 0));
  if (limits !== null && open.some((count, m) => count > (limits[m] as number))) return;
  const made: Label = { node: j, before: label, price, visible, penalties, visibleLength, open };
  for (const other of into) {
    if (
      beats(other, made, limits !== null) &&
      (!beats(made, other, limits !== null) || other.visibleLength < visibleLength)
    ) {
      return;
    }
  }
  let kept = 0;
  for (const other of into) if (!beats(made, other, limits !== null)) into[kept++] = other;
  into.length = kept;
  into.push(made);
}

/** Whether `a` is no worse than `b` on every criterion. */
function beats(a: Label, b: Label, withOpen: boolean): boolean {
  if (a.price > b.price || a.visible > b.visible || a.penalties > b.penalties) return false;
  return !withOpen || a.open.every((count, m) => count <= (b.open[m] as number));
}

function pathTo(label: Label): number[] {
  const path: number[] = [];
  for (let at: Label | null = label; at !== null; at = at.before) path.push(at.node);
  return path.reverse();
}
