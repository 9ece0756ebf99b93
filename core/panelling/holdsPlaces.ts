import type { Ticks } from "../units/ticks.ts";
import type { Settled } from "./holds.ts";
import { judgedPlace, marksOf, needsGrid, seamCandidates, seamPlaces } from "./seamCandidates.ts";
import { type SeamCandidate, usualHalf } from "./seamRules.ts";
import type { SectionTask } from "./sectionTask.ts";

/** Most held panels side by side whose seams are looked for from any place of the grid. */
const MOST_PASSES = 3;

/**
 * The seams of a section worth trying where something is settled for it: those of `seamCandidates`, those that must be
 * or are wished for, and those that a held width makes possible. Stretches without seams are not left out here.
 *
 * A held width ties two seams as a full panel does: the argument of `seamCandidates` holds with rows of full panels and
 * of panels so wide, laid side by side from each mark both ways. Marks are also the settled seams, the places that held
 * panels must hold and, for stretches without seams, the lines of the grid next to them (a tick beyond such a stretch
 * would do as well as the grid line, and save at most the width of one step). So where nothing slopes the choice is
 * exact but for that step. Where reach slopes, every place of the grid gets the two partners that a held width gives it
 * (and those theirs, up to three held panels side by side), and rows go on from marks alone.
 * Windows are the least that the rules allow: a width that only more bleed at an end of the section would fill is not met.
 *
 * @param every the whole grid, with both partners of each place, and the rows of each held width by itself: where
 *   the usual choice has no split, or fewer holds are looked at than are settled
 * @returns candidates by ascending place, each once
 */
export function settledCandidates(task: SectionTask, every = false): SeamCandidate[] {
  const { settled } = task;
  if (settled === undefined) return seamCandidates(task, every);
  const places = new Set(settledPlaces(task, settled, every));
  if (every) {
    for (const held of settled.widths) {
      for (const at of settledPlaces(task, { ...settled, widths: [held] }, every)) places.add(at);
    }
  }
  return [...places].sort((a, b) => a - b).flatMap((at) => judgedPlace(task, at) ?? []);
}

/** The places alone, ascending, strictly inside the section. */
function settledPlaces(task: SectionTask, settled: Settled, every: boolean): Ticks[] {
  const { span, grid } = task;
  const sloped = every || needsGrid(task);
  const places = new Set(seamPlaces(task, every));
  const lines = [...settled.seams, ...(settled.expected?.places ?? [])];
  const marks = new Set<Ticks>(lines);
  const beside = (at: Ticks) => {
    marks.add(Math.ceil(at / grid - 1) * grid);
    marks.add(Math.floor(at / grid + 1) * grid);
  };
  for (const at of lines) beside(at);
  for (const { from, to } of settled.noSeams) {
    marks.add(Math.ceil(from / grid - 1) * grid);
    marks.add(Math.floor(to / grid + 1) * grid);
  }
  for (const { at } of settled.widths) {
    marks.add(Math.ceil(at));
    beside(at);
  }
  for (const at of marks) places.add(at);
  const row = new Row(task, settled, places);
  // Once more for each further width, so that held panels side by side find each other.
  for (let pass = 0; sloped && pass < Math.min(settled.widths.length, MOST_PASSES); pass++) {
    for (const at of [...places]) row.partners(at);
  }
  for (const at of sloped ? [...marks, ...marksOf(task)] : [...places]) row.from(at);
  row.fromEnds();
  return [...places].filter((at) => at > span.u0 && at < span.u1).sort((a, b) => a - b);
}

/** Lays panels side by side, full ones and those whose width is held, and notes where their seams lie. */
class Row {
  private readonly task: SectionTask;
  private readonly settled: Settled;
  private readonly places: Set<Ticks>;
  private readonly half: Ticks;

  constructor(task: SectionTask, settled: Settled, places: Set<Ticks>) {
    this.task = task;
    this.settled = settled;
    this.places = places;
    this.half = usualHalf(task.members, [task.section.film], task.rules);
  }

  /** A row each way from a place. */
  from(at: Ticks): void {
    const half = this.halfAt(at);
    if (half === null) return;
    this.rightward(at, at - half);
    this.leftward(at, at + half);
  }

  /** The seams that a held width ties to a place, one each way. */
  partners(at: Ticks): void {
    const half = this.halfAt(at);
    if (half === null) return;
    for (const held of this.settled.widths) {
      const right = at - half + held.width - this.half;
      if (at <= held.at && held.at < right) this.places.add(right);
      const left = at + half - held.width + this.half;
      if (left <= held.at && held.at < at) this.places.add(left);
    }
  }

  fromEnds(): void {
    const { parts, span } = this.task;
    for (const [i, { from, to, lo, hi }] of parts.entries()) {
      // A window of a part begins no later than its node: the section's end, or the middle of a gap beside it.
      this.rightward(i === 0 ? span.u0 : from, lo);
      this.leftward(i === parts.length - 1 ? span.u1 : to, hi);
    }
  }

  private halfAt(at: Ticks): Ticks | null {
    if (at <= this.task.span.u0 || at >= this.task.span.u1) return null;
    return judgedPlace(this.task, at)?.half ?? null;
  }

  private rightward(start: Ticks, edge: Ticks): void {
    const { span, maxAcross } = this.task;
    const { widths } = this.settled;
    for (let [at, begin] = [start, edge]; ; ) {
      let next = begin + maxAcross - this.half;
      const held = widths.find((width) => at <= width.at && width.at < next);
      if (held !== undefined) next = begin + held.width - this.half;
      if (next <= at || next >= span.u1 || (held !== undefined && next <= held.at)) return;
      this.places.add(next);
      [at, begin] = [next, next - this.half];
    }
  }

  private leftward(start: Ticks, edge: Ticks): void {
    const { span, maxAcross } = this.task;
    const { widths } = this.settled;
    for (let [at, end] = [start, edge]; ; ) {
      let next = end - maxAcross + this.half;
      const held = widths.findLast((width) => next <= width.at && width.at < at);
      if (held !== undefined) next = end - held.width + this.half;
      if (next >= at || next <= span.u0 || (held !== undefined && next > held.at)) return;
      this.places.add(next);
      [at, end] = [next, next + this.half];
    }
  }
}
