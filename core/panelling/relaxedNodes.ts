import type { Interval } from "../geometry/box.ts";
import { TICKS_PER, type Ticks, type Unit } from "../units/ticks.ts";
import type { MemberWeights } from "./members.ts";
import { toBox, toSpan } from "./orientation.ts";
import { judgePlace, marksOf } from "./seamCandidates.ts";
import { meetsZone, usualHalf } from "./seamRules.ts";
import type { SectionTask } from "./sectionTask.ts";

/**
 * Where a split may have a seam, a gap or an end, many places taken as one: `from`..`to` holds them, a single place where
 * both are equal. Every figure is at most that of each place it stands for.
 */
export interface RelaxedNode {
  readonly from: Ticks;
  readonly to: Ticks;
  /** Where the window after it begins at the latest, and the window before it ends at the earliest. */
  readonly lo: Ticks;
  readonly hi: Ticks;
  readonly visible: number;
  readonly visibleLength: Ticks;
  readonly penalties: number;
}

/** The widest stretch of places taken as one that `relaxedNodes` should still make narrower. */
export const finestCell = (unit: Unit): Ticks => (unit === "in" ? TICKS_PER.in / 16 : 2 * TICKS_PER.mm);

/**
 * All places of a section where a split may end a panel, in stretches no wider than `cell`, each cut into `pieces`.
 *
 * Places at which something changes (marks) stand for themselves and are judged exactly; between two marks a seam is open
 * and asks the usual overlap, so a stretch needs only what is least in it: needed length on the line, which is linear
 * between marks, weighted by what all its lines cross, and zones that every place of the stretch meets.
 *
 * @param lenient true where the section stands for larger ones too (a fill of any depth beside it): overlaps are the least
 * @returns ascending; the first is the section's beginning, the last its end
 */
export function relaxedNodes(task: SectionTask, cell: Ticks, pieces: number, lenient: boolean): RelaxedNode[] {
  const { span, parts, members, rules, section } = task;
  const marks = marksOf(task);
  const usual = usualHalf(members, [section.film], rules);
  const nodes: RelaxedNode[] = [];
  for (const at of marks) {
    const judged = judgePlace(task, at);
    if (judged === null) continue;
    const half = lenient ? Math.min(usual, judged.half) : judged.half;
    const { visible, visibleLength, penalties } = judged;
    nodes.push({ from: at, to: at, lo: at - half, hi: at + half, visible, visibleLength, penalties });
  }
  const places = placesBetween([span.u0, ...marks, span.u1], cell, pieces);
  for (let i = 0; i + 1 < places.length; i++) {
    const node = stretch(task, places[i] as Ticks, places[i + 1] as Ticks, usual);
    if (node !== null) nodes.push(node);
  }
  const nothing = { visible: 0, visibleLength: 0, penalties: 0 };
  for (let i = 0; i + 1 < parts.length; i++) {
    const [before, after] = [parts[i] as SectionTask["parts"][number], parts[i + 1] as SectionTask["parts"][number]];
    const at = (before.to + after.from) / 2;
    nodes.push({ from: at, to: at, lo: after.lo, hi: before.hi, ...nothing });
  }
  nodes.sort((a, b) => a.from - b.from || a.to - b.to);
  const [first, last] = [parts[0], parts.at(-1)] as [SectionTask["parts"][number], SectionTask["parts"][number]];
  return [
    { from: span.u0, to: span.u0, lo: first.lo, hi: first.lo, ...nothing },
    ...nodes,
    { from: span.u1, to: span.u1, lo: last.hi, hi: last.hi, ...nothing },
  ];
}

/** The marks and, between two of them, places no farther apart than `cell` / `pieces`: more pieces keep the places of fewer. */
function placesBetween(marks: readonly Ticks[], cell: Ticks, pieces: number): Ticks[] {
  const sorted = [...new Set(marks)].sort((a, b) => a - b);
  const places: Ticks[] = [];
  for (const [i, mark] of sorted.entries()) {
    const next = sorted[i + 1];
    places.push(mark);
    if (next === undefined) continue;
    const steps = Math.min(next - mark, Math.ceil((next - mark) / cell) * pieces);
    for (let k = 1; k < steps; k++) {
      const at = mark + Math.round((k * (next - mark)) / steps);
      if (at < next) places.push(at);
    }
  }
  return places;
}

/** Interpolated and rounded lengths are at most this much too long. */
const ROUNDED = 4;

/** A stretch between two marks, as a node; null when nothing is needed there, or a zone forbids all of it. */
function stretch(task: SectionTask, from: Ticks, to: Ticks, half: Ticks): RelaxedNode | null {
  const { region, axis, span, members } = task;
  const within = { from: span.v0, to: span.v1 };
  const ends = [region.beside(axis, from, within, 1), region.beside(axis, to, within, -1)];
  const lengths = ends.map((parts) => parts.reduce((sum, part) => sum + part.to - part.from, 0));
  if (lengths.every((length) => length === 0)) return null;
  // What every line of the stretch runs over, and what every band does.
  const low = Math.max(...ends.map((parts) => parts[0]?.from ?? span.v1)) + ROUNDED;
  const high = Math.min(...ends.map((parts) => parts.at(-1)?.to ?? span.v0)) - ROUNDED;
  const band = { u0: to - half, u1: from + half, v0: low, v1: high };
  let [visible, penalties] = [0, 0];
  for (const member of members) {
    const { count } = member.elevation;
    visible += count;
    for (const zone of member.zones) {
      const { u0, u1 } = toSpan(zone.box, axis);
      if (!(u0 < from + half && u1 > to - half) || low >= high) continue;
      const line = { axis, at: from, from: low, to: high };
      const met = meetsZone(zone, "open", line, toBox({ ...band, u0: from - half, u1: to + half }, axis));
      if (!met) continue;
      if (zone.rule === "never") return null;
      penalties += count;
    }
  }
  const plain = Math.max(0, Math.min(...lengths) - ROUNDED);
  const visibleLength = members.reduce(
    (sum, { elevation, weights }) =>
      sum + elevation.count * (weights.plain ? plain : leastWeighted(task, weights, from, to, plain)),
    0,
  );
  return { from, to, lo: to - half, hi: from + half, visible, visibleLength, penalties };
}

/**
 * What every line between two marks counts as at least: the least weight of all on its length, or the weighted length of
 * what all these lines have in common, as long as their stretches go on from one mark to the other.
 */
function leastWeighted(
  { region, axis, span }: SectionTask,
  weights: MemberWeights,
  from: Ticks,
  to: Ticks,
  plain: Ticks,
): Ticks {
  const within = { from: span.v0, to: span.v1 };
  const middle = Math.floor((from + to) / 2);
  const [low, high] = [region.beside(axis, from, within, 1), region.beside(axis, to, within, -1)];
  const onAll = region.beside(axis, middle, within, 1).length;
  const least = Math.floor(weights.least * plain);
  if (low.length !== onAll || high.length !== onAll) return least;
  const common = low.flatMap((part, i) => {
    const other = high[i] as Interval;
    const shared = { from: Math.max(part.from, other.from) + ROUNDED, to: Math.min(part.to, other.to) - ROUNDED };
    return shared.from < shared.to ? [shared] : [];
  });
  return Math.max(least, weights.lengthOn(axis, middle, common) - 1);
}
