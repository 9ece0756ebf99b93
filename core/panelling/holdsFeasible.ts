import type { Axis } from "../geometry/box.ts";
import type { Region } from "../geometry/region.ts";
import type { Ticks } from "../units/ticks.ts";
import { axisAsked, bordersKeep, type GroupHold, isForbidden, keepsWidths, type Settled, settledBy } from "./holds.ts";
import { settledCandidates } from "./holdsPlaces.ts";
import { splitAxis } from "./orientation.ts";
import type { Border, PanelSection } from "./sections.ts";
import type { SectionTask } from "./sectionTask.ts";
import { type SplitNode, type SplitNodes, splitNodes, windowEnds } from "./splitNodes.ts";

/** Sections and borders of a group with some of its fills in use, for asking whether holds can be kept in them. */
export interface HoldsWay {
  readonly sections: readonly PanelSection[];
  readonly borders: readonly Border[];
  /** By position of the section; null where nothing is needed in it. Without anything settled. */
  readonly taskOf: (index: number, axis: Axis) => SectionTask | null;
}

/**
 * Whether holds can be kept: plain feasibility, by following rows of panels from one end of each section to the other.
 *
 * The places are all that `settledCandidates` knows of, the same for every choice of the holds: fewer never leave less.
 * Windows that face each other over a border, and limits on open seams, are not asked about.
 */
export class HoldsFeasible {
  readonly region: Region;
  private readonly all: readonly GroupHold[];
  private readonly ways: readonly HoldsWay[];
  private readonly inputs = new Map<string, SplitNodes | null>();
  private readonly answers = new Map<string, boolean>();

  constructor(all: readonly GroupHold[], ways: readonly HoldsWay[], region: Region) {
    this.all = all;
    this.ways = ways;
    this.region = region;
  }

  /** The first way: no fill in use. */
  get plainWay(): HoldsWay {
    const [first] = this.ways;
    if (first === undefined) throw new RangeError("a group can always be covered without its fills, or not at all");
    return first;
  }

  /** Whether any way to use the fills keeps these of the holds. */
  keeps(holds: readonly GroupHold[]): boolean {
    return this.ways.some((_, way) => this.keepsIn(way, holds));
  }

  private keepsIn(way: number, holds: readonly GroupHold[]): boolean {
    const { sections, borders } = this.ways[way] as HoldsWay;
    if (!bordersKeep(holds, sections, borders, this.region)) return false;
    return sections.every((section, index) => {
      if (this.region.extent(section.box) === null) return true;
      return axesLeft(holds, section, this.region).some((axis) => this.splits(way, index, axis, holds));
    });
  }

  private splits(way: number, index: number, axis: Axis, holds: readonly GroupHold[]): boolean {
    const section = (this.ways[way] as HoldsWay).sections[index] as PanelSection;
    const settled = { ...settledBy(holds, section, axis, this.region), expected: null };
    const key = JSON.stringify([way, index, axis, settled]);
    let answer = this.answers.get(key);
    if (answer === undefined) {
      const input = this.inputOf(way, index, axis);
      answer = input !== null && splitExists(input, settled);
      this.answers.set(key, answer);
    }
    return answer;
  }

  private inputOf(way: number, index: number, axis: Axis): SplitNodes | null {
    const key = `${way} ${index} ${axis}`;
    let input = this.inputs.get(key);
    if (input === undefined) {
      const { sections, taskOf } = this.ways[way] as HoldsWay;
      const task = taskOf(index, axis);
      const settled = { ...settledBy(this.all, sections[index] as PanelSection, axis, this.region), expected: null };
      input =
        task === null || task.maxAcross <= 0 ? null : splitNodes(task, settledCandidates({ ...task, settled }, true));
      this.inputs.set(key, input);
    }
    return input;
  }
}

/** The axes along which a section may be split, the holds having their say. */
export function axesLeft(holds: readonly GroupHold[], section: PanelSection, region: Region): Axis[] {
  const open: Axis[] = section.direction === "either" ? ["x", "y"] : [splitAxis(section.direction)];
  const asked = holds.flatMap(({ hold }) => axisAsked(hold, section, region) ?? []);
  return open.filter((axis) => asked.every((wanted) => wanted === axis));
}

/**
 * Whether a row of panels leads from the first node to the last, with a seam in each settled place and none where none may
 * be. Time O(n) where rows are easily found, O(n · w) at worst, for n nodes and w nodes within a panel's width.
 */
export function splitExists(input: SplitNodes, { seams, noSeams, widths }: Omit<Settled, "expected">): boolean {
  const { nodes, task, reachOver, demandedUpTo, demandedBefore } = input;
  const { maxAcross, maxAlong } = task;
  const { loIndex, hiIndex, needed } = reachOver;
  const ahead = nodes.reduce((most, { lo, at }) => Math.max(most, lo - at), 0);
  const passes = (low: Ticks, high: Ticks) => seams.some((at) => low < at && at < high);
  const reached = nodes.map((_, i) => i === 0);
  for (let j = 1; j < nodes.length; j++) {
    const end = nodes[j] as SplitNode;
    if (end.seam !== null && isForbidden(noSeams, end.at)) continue;
    for (let i = j - 1; i >= 0; i--) {
      const start = nodes[i] as SplitNode;
      if (start.at + ahead < end.hi - maxAcross || (demandedBefore[j] as number) > (demandedUpTo[i] as number)) break;
      if (passes(start.at, end.at)) break;
      if (reached[i] !== true) continue;
      const ends = windowEnds(start, end);
      if (ends === null || ends.hi - ends.lo > maxAcross) continue;
      if (!keepsWidths(widths, start.at, end.at, ends.hi - ends.lo)) continue;
      const startIndex = Math.min(loIndex[i] as number, loIndex[j] as number);
      const endIndex = Math.max(hiIndex[i] as number, hiIndex[j] as number);
      if (startIndex >= endIndex || (needed[endIndex] as number) <= (needed[startIndex] as number)) continue;
      if (reachOver.along(startIndex, endIndex) > maxAlong) continue;
      reached[j] = true;
      break;
    }
  }
  return reached.at(-1) === true;
}

/** With at most so many, every choice of some of them is asked about, few first. */
const MOST_CHOICES = 8;

/**
 * A smallest choice that can't be had; of equally small ones the first in order.
 *
 * Up to eight items every smaller choice is looked at; of more one is left out after the other as long as the rest can't
 * be had either, which leaves a choice none of which can be spared.
 *
 * @param feasible whether a choice can be had; true of none at all, and false of all together
 * @param stop asked before each question; once true, what is left stands
 */
export function smallestContradiction<T>(
  items: readonly T[],
  feasible: (some: readonly T[]) => boolean,
  stop: () => boolean,
): readonly T[] {
  if (items.length <= MOST_CHOICES) {
    for (let size = 1; size < items.length; size++) {
      for (const some of choicesOf(items, size)) {
        if (stop()) return items;
        if (!feasible(some)) return some;
      }
    }
    return items;
  }
  let left = items;
  for (const item of items) {
    if (stop()) break;
    const without = left.filter((other) => other !== item);
    if (!feasible(without)) left = without;
  }
  return left;
}

function choicesOf<T>(items: readonly T[], size: number): T[][] {
  if (size === 0) return [[]];
  return items.flatMap((item, i) => choicesOf(items.slice(i + 1), size - 1).map((rest) => [item, ...rest]));
}
