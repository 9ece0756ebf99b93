import type { Axis, Box } from "../geometry/box.ts";
import type { Region } from "../geometry/region.ts";
import type { Elevation, Rules } from "../model/instance.ts";
import type { Ticks } from "../units/ticks.ts";
import type { Member } from "./members.ts";
import { toBox, toSpan } from "./orientation.ts";
import { chainEnds, chainFrom, judgePlace, marksOf } from "./seamCandidates.ts";
import { judgeSeam, type SeamCandidate } from "./seamRules.ts";
import type { PanelSection } from "./sections.ts";
import { type SectionTask, sectionTask, type TaskBorder } from "./sectionTask.ts";
import { type SplitNodes, splitNodes } from "./splitNodes.ts";
import { forEachPanel } from "./splitSection.ts";

/** What a rectangle of the elevation is priced by, all copies together. */
export interface RectanglePrices {
  /** Money per square tick of window, per panel, per tick of weighted seam on all copies, per penalty. */
  readonly perArea: number;
  readonly perPanel: number;
  readonly perSeamLength: number;
  readonly perPenalty: number;
  /** Extra price of an open seam on one copy; every entry makes a pricing of its own. */
  readonly perOpenSeam: readonly number[];
}

/** A seam that hides along a line or a colour edge counts as this much of an open one in the extra price. */
const HALF_HIDDEN = 0.25;
/** Places tried in one band at most; where outlines have more corners, every so many is left out. */
const MOST_PLACES = 320;

/** The lines of the elevation along which it may be parted, its ends included, ascending. */
export interface PartingLines {
  readonly x: readonly Ticks[];
  readonly y: readonly Ticks[];
}

/** What every rectangle between the lines costs when it is split along an axis, and every cut along a line. */
export interface RectangleCosts {
  /**
   * Least cost of the panels of the rectangle from line a to line b of `axis`, over the band from line c to line d of the
   * other axis, split along `axis`; by pricing. Infinity where it can't be split.
   */
  panels(axis: Axis, a: number, b: number, c: number, d: number, pricing: number): number;
  /** Cost of the seam along line `at` of `axis` over that band; 0 where nothing is needed on both sides of it. */
  seam(axis: Axis, at: number, c: number, d: number, pricing: number): number;
  /** Whether anything is needed in the rectangle. */
  needed(box: Box): boolean;
}

/** What rectangles are priced from. */
export interface RectangleGiven {
  readonly source: Elevation;
  readonly region: Region;
  readonly members: readonly Member[];
  readonly rules: Rules;
  readonly grid: Ticks;
  /** Most that a window of a box may measure across, and along. */
  readonly maxAcross: (box: Box) => Ticks;
  readonly maxAlong: Ticks;
}

/**
 * Prices all rectangles between parting lines at once.
 *
 * For every band between two lines, one graph of places serves all rectangles of the band: marks, lines, and full panels
 * laid from lines and ends. A rectangle's panels are a shortest path from its one line to its other, the windows at both
 * carrying half an overlap past it. Exact over these places but for borders that a break hides over a part of a
 * rectangle's side only: along the roll each stretch between two lines is judged by itself.
 *
 * Time for l lines an axis and n places a band: O(l³ · n · w), w places within one panel's width.
 */
export function rectangleCosts(given: RectangleGiven, lines: PartingLines, prices: RectanglePrices): RectangleCosts {
  const bands = { x: new Map<number, Band>(), y: new Map<number, Band>() };
  const bandOf = (axis: Axis, c: number, d: number): Band => {
    const key = c * 64 + d;
    let band = bands[axis].get(key);
    if (band === undefined) {
      band = new Band(given, axis, lines, c, d, prices);
      bands[axis].set(key, band);
    }
    return band;
  };
  return {
    panels: (axis, a, b, c, d, pricing) => bandOf(axis, c, d).panels(a, b, pricing),
    seam: (axis, at, c, d, pricing) => bandOf(axis, c, d).seam(at, pricing),
    needed: (box) => given.region.extent(box) !== null,
  };
}

/** One band across the elevation, split along `axis`. */
class Band {
  private readonly input: SplitNodes | null;
  /** By line of the axis: its node, or -1 where no panel may end. */
  private readonly nodeOf: Int32Array;
  private readonly prices: RectanglePrices;
  private readonly lineCount: number;
  /** By line a, pricing and line b: least cost; filled line by line as asked. */
  private readonly known = new Map<number, Float64Array>();
  private readonly edges: { readonly from: Int32Array; readonly to: Int32Array; readonly money: Float64Array };
  private readonly nodeMoney: Float64Array;
  private readonly nodeSeen: Float64Array;

  constructor(given: RectangleGiven, axis: Axis, lines: PartingLines, c: number, d: number, prices: RectanglePrices) {
    this.prices = prices;
    const own = lines[axis];
    const other = lines[axis === "x" ? "y" : "x"];
    this.lineCount = own.length;
    const span = toSpan(given.source.box, axis);
    const box = toBox({ ...span, v0: other[c] as Ticks, v1: other[d] as Ticks }, axis);
    const task = bandTask(given, axis, box, own);
    this.input = task === null ? null : splitNodes(task, candidatesOf(task, own));
    const nodes = this.input?.nodes ?? [];
    this.nodeOf = Int32Array.from(own, (at, i) => nodeAt(this.input, at, i, own.length));
    this.nodeMoney = Float64Array.from(nodes, ({ seam }) => seamMoney(seam, prices));
    this.nodeSeen = Float64Array.from(nodes, ({ seam }) => (seam === null ? 0 : seenOn(seam, given.members)));
    this.edges = this.input === null ? noEdges : edgesOf(this.input, prices);
  }

  seam(line: number, pricing: number): number {
    if (this.input === null) return 0;
    const node = this.nodeOf[line] as number;
    if (node < 0) return Infinity;
    return this.costOf(node, pricing);
  }

  panels(a: number, b: number, pricing: number): number {
    if (this.input === null) return Infinity;
    const key = a * this.prices.perOpenSeam.length + pricing;
    let costs = this.known.get(key);
    if (costs === undefined) {
      costs = this.pathsFrom(a, pricing);
      this.known.set(key, costs);
    }
    return costs[b] as number;
  }

  private costOf(node: number, pricing: number): number {
    const seen = (this.prices.perOpenSeam[pricing] as number) * (this.nodeSeen[node] as number);
    return (this.nodeMoney[node] as number) + seen;
  }

  /** Shortest paths from one line's node to those of all lines. */
  private pathsFrom(a: number, pricing: number): Float64Array {
    const { from, to, money } = this.edges;
    const nodes = (this.input as SplitNodes).nodes;
    const start = this.nodeOf[a] as number;
    const least = new Float64Array(nodes.length).fill(Infinity);
    if (start >= 0) {
      least[start] = 0;
      // Edges come by ascending end, so every node is settled before an edge leaves it.
      for (let e = 0; e < from.length; e++) {
        const i = from[e] as number;
        const before = least[i] as number;
        if (before === Infinity) continue;
        const cost = before + (money[e] as number) + (i === start ? 0 : this.costOf(i, pricing));
        const j = to[e] as number;
        if (cost < (least[j] as number)) least[j] = cost;
      }
    }
    return Float64Array.from({ length: this.lineCount }, (_, b) => {
      const node = this.nodeOf[b] as number;
      return node < 0 || node === start ? Infinity : (least[node] as number);
    });
  }
}

const noEdges = { from: new Int32Array(0), to: new Int32Array(0), money: new Float64Array(0) };

/** The band as a section, with a border of its own over each stretch between two lines where film goes on beyond it. */
function bandTask(given: RectangleGiven, axis: Axis, box: Box, own: readonly Ticks[]): SectionTask | null {
  const { region, members, rules, source } = given;
  const across: Axis = axis === "x" ? "y" : "x";
  const { v0, v1 } = toSpan(box, axis);
  const whole = toSpan(source.box, axis);
  const borders: TaskBorder[] = [];
  for (const at of [v0, v1]) {
    if (at === whole.v0 || at === whole.v1) continue;
    for (let k = 0; k + 1 < own.length; k++) {
      const stretch = { from: own[k] as Ticks, to: own[k + 1] as Ticks };
      const found = region.line(across, at, stretch);
      if (found.length === 0) continue;
      const line = { axis: across, at, from: found[0]?.from ?? stretch.from, to: found.at(-1)?.to ?? stretch.to };
      const { half } = judgeSeam(members, line, rules);
      borders.push({ axis: across, stretch, half, ...(at === v0 ? { low: 1, high: 0 } : { low: 0, high: 1 }) });
    }
  }
  const section: PanelSection = { id: "", role: "panel", box, direction: "either", maxAcross: null, film: null };
  const limits = { maxAcross: given.maxAcross(box), maxAlong: given.maxAlong };
  const { grid } = given;
  return sectionTask({ section, axis, region, members, rules, grid, ...limits }, 0, borders, source.bleed);
}

/** Candidates at the lines, at the marks, and where full panels laid from lines and ends come to lie. */
function candidatesOf(task: SectionTask, lines: readonly Ticks[]): SeamCandidate[] {
  const { u0, u1 } = task.span;
  const inner = lines.filter((at) => at > u0 && at < u1);
  const places = new Set<Ticks>(inner);
  for (const line of inner) chainFrom(task, line, places);
  chainEnds(task, places);
  const marks = marksOf(task);
  const every = Math.max(1, Math.ceil(marks.length / MOST_PLACES));
  for (let i = 0; i < marks.length; i += every) places.add(marks[i] as Ticks);
  const sorted = [...places].filter((at) => at > u0 && at < u1).sort((a, b) => a - b);
  return sorted.flatMap((at) => judgePlace(task, at) ?? []);
}

/** The node of a line: its seam, the gap in which it lies, or an end of the band; -1 where film is needed but no seam may be. */
function nodeAt(input: SplitNodes | null, at: Ticks, line: number, count: number): number {
  if (input === null) return -1;
  const { nodes, task } = input;
  if (line === 0) return 0;
  if (line === count - 1) return nodes.length - 1;
  const { parts } = task;
  if (parts.some(({ from, to }) => from < at && at < to)) {
    return nodes.findIndex((node) => node.seam !== null && node.at === at);
  }
  const after = parts.findIndex(({ from }) => from >= at);
  if (after === 0) return 0;
  if (after < 0) return nodes.length - 1;
  const middle = ((parts[after - 1]?.to as Ticks) + (parts[after]?.from as Ticks)) / 2;
  return nodes.findIndex((node) => node.seam === null && node.at === middle);
}

/** Every panel that may stand in the band, by ascending end. */
function edgesOf(
  input: SplitNodes,
  { perArea, perPanel }: RectanglePrices,
): { from: Int32Array; to: Int32Array; money: Float64Array } {
  const [from, to, money]: [number[], number[], number[]] = [[], [], []];
  forEachPanel(input, (i, j, across, along) => {
    from.push(i);
    to.push(j);
    money.push(perArea * across * along + perPanel);
  });
  return { from: Int32Array.from(from), to: Int32Array.from(to), money: Float64Array.from(money) };
}

function seamMoney(seam: SeamCandidate | null, { perSeamLength, perPenalty }: RectanglePrices): number {
  return seam === null ? 0 : perSeamLength * seam.visibleLength + perPenalty * seam.penalties;
}

/** Open seams that a place shows on all copies, half-hidden ones counted in part. */
function seenOn({ kinds }: SeamCandidate, members: readonly Member[]): number {
  return kinds.reduce((sum, kind, m) => {
    const count = (members[m] as Member).elevation.count;
    return sum + (kind === "open" ? count : kind === "break" ? 0 : HALF_HIDDEN * count);
  }, 0);
}
