import { tickAbove, tickBelow } from "../geometry/region.ts";
import type { Ticks } from "../units/ticks.ts";
import { type Span, sidesOf, toBox, toSpan } from "./orientation.ts";
import {
  countedLengths,
  coversHandle,
  judgeSeam,
  meetsZone,
  type SeamCandidate,
  type SeamLine,
  usualHalf,
} from "./seamRules.ts";
import type { SectionTask } from "./sectionTask.ts";

/**
 * Every place at which a seam of this section is worth trying.
 *
 * The full set is the grid, the marks (breaks, colour edges, edges of zones and those edges half an overlap away,
 * corners and crossings of outline and openings and what they mean half an overlap away, ends of borders, and both sides of
 * a place where seams begin to count otherwise) and the chains: full panels laid side by side from each mark and each end,
 * both ways.
 *
 * `every: false` leaves the grid out where nothing can be lost. Let the windows' reach toward both ends be constant
 * wherever film is needed (no slope in the reach). Between two neighbouring marks a free seam then keeps its kind, its
 * penalties and the length of both its neighbours, so the area of any split is linear in the seam's position. Take a
 * split, and a longest run of seams off the marks whose neighbours are full panels apart. Moving the run as one changes
 * the area linearly, so one of both ways does not raise it: go that way until a seam of the run meets a mark (or the
 * grid line next to it on this side, since a window that touches a mark already counts as reaching it), or a panel at
 * the run's end becomes full and joins the next seam to the run. Repeat: every run ends up tied by full panels to a mark
 * or to an end of the section, which is what the chains hold. Visible length is linear likewise: plain, because edges are
 * straight between their corners; weighted, because between two marks every line crosses the same cells and heights in
 * the same stretches. Where reach slopes, the length of a panel is only convex in the seam's position, and the grid stays;
 * so it does where lines are weighted and their stretches slope, which then cross from cell to cell between marks.
 *
 * @returns candidates by ascending place, each once
 */
export function seamCandidates(task: SectionTask, every = false): SeamCandidate[] {
  return seamPlaces(task, every).flatMap((at) => judgedPlace(task, at) ?? []);
}

/** Whether reach or what seams count slopes, so that between two marks any place may be the best. */
export const needsGrid = (task: SectionTask): boolean =>
  [...task.reach.low, ...task.reach.high].some(({ atFrom, atTo }) => atFrom !== atTo) ||
  (task.members.some(({ weights }) => !weights.plain) && task.lines.slope());

/** The places alone, ascending, strictly inside the section. */
export function seamPlaces(task: SectionTask, every: boolean): Ticks[] {
  const { span, grid } = task;
  const places = new Set<Ticks>();
  const marks = marksOf(task);
  const sloped = needsGrid(task);
  for (const mark of marks) {
    places.add(mark);
    places.add(Math.ceil(mark / grid - 1) * grid);
    places.add(Math.floor(mark / grid + 1) * grid);
  }
  if (usualHalf(task.members, [task.section.film], task.rules) === 0) {
    // Nothing lies half an overlap inside the ends of the section: the lines of the grid next to them stand in.
    places.add(Math.floor(span.u0 / grid + 1) * grid);
    places.add(Math.ceil(span.u1 / grid - 1) * grid);
  }
  if (every || sloped) {
    for (let at = Math.ceil(span.u0 / grid) * grid; at < span.u1; at += grid) places.add(at);
  }
  // On the full grid, chains from the marks alone: lines of the grid next to a mark are no marks themselves.
  for (const from of every || sloped ? marks : [...places]) chainFrom(task, from, places);
  chainEnds(task, places);
  return [...places].filter((at) => at > span.u0 && at < span.u1).sort((a, b) => a - b);
}

/** Places at which something changes for a seam or for the windows that meet there. */
export function marksOf(task: SectionTask): Ticks[] {
  const { span, axis, region, members, rules, section, parts } = task;
  const half = usualHalf(members, [section.film], rules);
  const marks = new Set<Ticks>();
  const around = (at: Ticks) => {
    marks.add(at);
    marks.add(at - half);
    marks.add(at + half);
  };
  for (const side of sidesOf(axis).v) {
    for (const { from, to } of region.profile(section.box, side)) {
      for (const at of [tickBelow(from), tickAbove(from), tickBelow(to), tickAbove(to)]) around(at);
    }
  }
  for (const { from, to } of [...task.reach.low, ...task.reach.high]) {
    around(tickBelow(from));
    around(tickAbove(to));
  }
  for (const { from, to } of parts) {
    around(from);
    around(to);
  }
  for (const member of members) {
    for (const at of member.places(axis)) if (at > span.u0 && at < span.u1) marks.add(at);
    for (const at of member.weights.changesOn(axis)) marks.add(at).add(at - 1);
    for (const { box } of member.zones) {
      const zone = toSpan(box, axis);
      if (zone.v0 >= span.v1 || zone.v1 <= span.v0) continue;
      around(zone.u0);
      around(zone.u1);
    }
  }
  return [...marks].filter((at) => at > span.u0 && at < span.u1);
}

/** Adds the seams of full panels laid side by side from a place, both ways, to the end of the section. */
export function chainFrom(task: SectionTask, from: Ticks, places: Set<Ticks>): void {
  const half = halfOf(task, from);
  if (half === null) return;
  chain(task, from - half, 1, places);
  chain(task, from + half, -1, places);
}

export function chainEnds(task: SectionTask, places: Set<Ticks>): void {
  for (const { lo, hi } of task.parts) {
    chain(task, lo, 1, places);
    chain(task, hi, -1, places);
  }
}

/** Full panels one after the other: `edge` is where the first window begins, `way` which way they go. */
function chain(task: SectionTask, edge: Ticks, way: 1 | -1, places: Set<Ticks>): void {
  const { span, maxAcross, members, rules, section } = task;
  const half = usualHalf(members, [section.film], rules);
  const step = maxAcross - 2 * half;
  if (step <= 0) return;
  for (let at = edge + way * (maxAcross - half); at > span.u0 && at < span.u1; at += way * step) places.add(at);
}

function halfOf(task: SectionTask, at: Ticks): Ticks | null {
  return judgedLine(task, at)?.half ?? null;
}

/** What a seam at a place was judged to be, or is judged now: tasks that differ in roll width alone share the answer. */
export function judgedPlace(task: SectionTask, at: Ticks): SeamCandidate | null {
  let judged = task.judged.get(at);
  if (judged === undefined) {
    judged = judgePlace(task, at);
    task.judged.set(at, judged);
  }
  return judged;
}

/** The line at a place and what each member makes of a seam on it; null where nothing is needed there. */
function judgedLine(task: SectionTask, at: Ticks) {
  const { axis, members, lines, rules, section } = task;
  // How far a colour edge strays hangs on where exactly the line ends.
  const strays = members.some((member) => member.linesAt(axis, at)?.colourEdges.some(({ path }) => path !== null));
  const line = strays ? lines.exact(at) : lines.at(at);
  return line === null ? null : { ...line, ...judgeSeam(members, line, rules, [section.film]) };
}

/** Judges a seam at a place; null where nothing is needed on the line or a zone forbids it. */
export function judgePlace(task: SectionTask, at: Ticks): SeamCandidate | null {
  const { members, axis, usual } = task;
  const featured = members.some((member) => member.linesAt(axis, at) !== undefined);
  const judged = featured ? judgedLine(task, at) : null;
  const line = featured ? judged : task.lines.at(at);
  if (line === null) return null;
  const { kinds, half } = judged ?? usual;
  let band: ReturnType<typeof bandAt> | null = null;
  let [penalties, handles] = [0, 0];
  for (const { m, zone, u0, u1 } of task.zones) {
    if (at + half < u0 || at - half > u1) continue;
    const { count } = (members[m] as SectionTask["members"][number]).elevation;
    band ??= bandAt(task, line, half);
    if (coversHandle(zone, line, band)) handles += count;
    if (!meetsZone(zone, kinds[m] as SeamCandidate["kinds"][number], line, band)) continue;
    if (zone.rule === "never") return null;
    penalties += count;
  }
  if (!featured && usual.plain) {
    const { copies } = usual;
    return {
      ...line,
      kinds,
      half,
      visible: copies,
      penalties,
      handles,
      visibleLength: copies * line.length,
      demanded: false,
    };
  }
  const visible = members.reduce((sum, { elevation }, m) => sum + (kinds[m] === "break" ? 0 : elevation.count), 0);
  const demanded = featured && members.some((member) => demandedAt(member, line));
  const within = { from: task.span.v0, to: task.span.v1 };
  const lengths = countedLengths(task.members, line, kinds, line.length, () => task.region.line(task.axis, at, within));
  const visibleLength = lengths.reduce((sum, length, m) => sum + length * (task.members[m]?.elevation.count ?? 0), 0);
  return { ...line, kinds, half, visible, penalties, handles, visibleLength, demanded };
}

const demandedAt = (member: SectionTask["members"][number], { axis, at, from, to }: SeamLine): boolean =>
  member.linesAt(axis, at)?.breaks.some((line) => line.mustSplit && line.from <= from && line.to >= to) ?? false;

/** The zone that forbids a seam at this place, if one does. */
export function forbiddingZone(task: SectionTask, at: Ticks): SectionTask["members"][number]["zones"][number] | null {
  const judged = judgedLine(task, at);
  if (judged === null) return null;
  const { kinds, half, ...line } = judged;
  const band = bandAt(task, line, half);
  for (const [m, member] of task.members.entries()) {
    const kind = kinds[m] as SeamCandidate["kinds"][number];
    for (const zone of member.zones) if (zone.rule === "never" && meetsZone(zone, kind, line, band)) return zone;
  }
  return null;
}

/** Whether film is needed on the line at this place and a break demands a seam there. */
export function isDemanded(task: SectionTask, at: Ticks): boolean {
  const line = task.lines.at(at);
  return line !== null && task.members.some((member) => demandedAt(member, line));
}

/** The band that the two windows at a seam share, from its lowest to its highest needed point inside the section. */
function bandAt({ section, axis, region }: SectionTask, line: SeamLine, half: Ticks) {
  const { u0, u1, v0, v1 } = toSpan(section.box, axis);
  const band: Span = { u0: line.at - half, u1: line.at + half, v0: line.from, v1: line.to };
  if (half === 0) return toBox(band, axis);
  const inside = toBox({ u0: Math.max(u0, band.u0), u1: Math.min(u1, band.u1), v0, v1 }, axis);
  const extent = region.extent(inside);
  if (extent === null) return toBox(band, axis);
  const along = toSpan(extent, axis);
  return toBox({ ...band, v0: along.v0, v1: along.v1 }, axis);
}
