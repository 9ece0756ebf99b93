import type { Box, Interval, Side } from "../geometry/box.ts";
import { neededRegion, type ProfileSlab, type Region } from "../geometry/region.ts";
import type { PanellingLimits } from "../model/covering.ts";
import { countedGap, isOnlyFill, leastRatio } from "../model/fillFilm.ts";
import type { Bleed, Direction, Elevation, FillChoice, Film, Instance } from "../model/instance.ts";
import type { FixedSums, GroupRelaxation, SectionRelaxation, WayRelaxation } from "../model/relaxation.ts";
import { TICKS_PER, type Ticks } from "../units/ticks.ts";
import { groupMembers, type Member } from "./members.ts";
import { sidesOf, splitAxis, toBox, toSpan } from "./orientation.ts";
import { finestCell } from "./relaxedNodes.ts";
import { isButted, usualHalf } from "./seamRules.ts";
import { type Border, bordersBetween, effectiveSections, type PanelSection } from "./sections.ts";
import { seamGrid, sectionTask } from "./sectionTask.ts";
import { SectionChoices, SplitRelaxation } from "./splitRelaxation.ts";

/** A fill whose depth lies between two limits; ticks. */
interface FillRange {
  readonly choice: FillChoice;
  readonly least: Ticks;
  readonly most: Ticks;
}

/** Ranges of depth that a fill which is used alone is looked at in. */
const DEPTHS = 10;
/** With more fills than this, ways to use them are not told apart any more, and nothing is told of the group. */
const MOST_FILLS = 3;

/**
 * What every way to cover an elevation and all that mirror it comes to at least, at any prices.
 *
 * @param limits widest and longest panel by film, as for `coverGroup`; directions are never limited here
 * @returns null when the group can't be told in bounds: its fills are too many
 *
 * Without fills, sections, borders and the judgement of each seam are those of `coverGroup`. A fill of unknown depth is
 * taken in ranges: the sections beside it lose its greatest depth and keep the least overlap there, so that any depth of
 * the range covers at least as much; the fill itself counts with its least depth.
 */
export function relaxGroup(
  instance: Instance,
  source: Elevation,
  mirrors: readonly Elevation[],
  limits: PanellingLimits,
): GroupRelaxation | null {
  if (source.fill.length > MOST_FILLS) return null;
  const group = new Group(instance, source, mirrors, limits);
  const ways: WayRelaxation[] = [];
  let last: WayRelaxation | null = null;
  for (const { fills, deeper } of waysToFill(source.fill)) {
    const way = group.way(fills);
    if (!deeper) last = null;
    if (way === null) continue;
    last = last === null ? way : { ...way, deeper: last };
    ways.push(last);
  }
  return { copies: group.copies, ways };
}

/** Deeper ranges of a fill that is used alone come first; `deeper` when the way before is one of the same fill. */
function waysToFill(fills: readonly FillChoice[]): { fills: FillRange[]; deeper: boolean }[] {
  const ways: FillRange[][] = [[]];
  for (const choice of fills) {
    for (const way of [...ways]) ways.push([...way, { choice, least: 0, most: choice.maxDepth }]);
  }
  return ways.flatMap((way) => {
    const [only] = way;
    if (way.length !== 1 || only === undefined) return [{ fills: way, deeper: false }];
    const at = (k: number) => Math.round((k * only.most) / DEPTHS);
    return Array.from({ length: DEPTHS }, (_, k) => {
      const range = { choice: only.choice, least: at(DEPTHS - 1 - k), most: at(DEPTHS - k) };
      return { fills: [range], deeper: k > 0 };
    });
  });
}

class Group {
  readonly copies = new Map<string, number>();
  private readonly instance: Instance;
  private readonly source: Elevation;
  private readonly limits: PanellingLimits;
  private readonly members: readonly Member[];
  private readonly region: Region;
  private readonly count: number;

  constructor(instance: Instance, source: Elevation, mirrors: readonly Elevation[], limits: PanellingLimits) {
    this.instance = instance;
    this.source = source;
    this.limits = limits;
    this.members = groupMembers(instance, source, mirrors);
    this.region = neededRegion(
      source.outline,
      source.openings.map(({ outline }) => outline),
    );
    for (const { elevation } of this.members) {
      this.copies.set(elevation.film, (this.copies.get(elevation.film) ?? 0) + elevation.count);
    }
    this.count = this.members.reduce((sum, { elevation }) => sum + elevation.count, 0);
  }

  /** null when a section can't be split. */
  way(fills: readonly FillRange[]): WayRelaxation | null {
    const { rules } = this.instance;
    const { sections, strips } = this.sectionsBeside(fills);
    const all = [...sections, ...strips];
    const borders = bordersBetween(all, this.region, this.members, rules).map((border) => {
      if (fills.length === 0) return border;
      const films = [border.low, border.high].map((index) => (all[index] as PanelSection).film);
      return { ...border, half: usualHalf(this.members, films, rules) };
    });
    const relaxed: SectionRelaxation[] = [];
    for (const [index, section] of sections.entries()) {
      if (this.region.extent(section.box) === null) continue;
      const choices = this.choicesOf(section, index, borders, fills.length > 0);
      if (choices.length === 0) return null;
      relaxed.push(new SectionChoices(choices));
    }
    const between = borders.filter(({ low, high }) => Math.max(low, high) < sections.length);
    return { fixed: this.fixed(between, fills), sections: relaxed };
  }

  /** The job's sections less the greatest depth of each fill, those of which nothing is left fallen away; and the strips. */
  private sectionsBeside(fills: readonly FillRange[]): { sections: PanelSection[]; strips: PanelSection[] } {
    const all = effectiveSections(this.source, []) ?? [];
    let rest: Box | null = this.source.box;
    const strips: PanelSection[] = [];
    for (const { choice, most } of fills) {
      const strip = stripOf(this.source.box, choice, most);
      const box: Box | null = rest === null ? null : common(strip, rest);
      if (box === null || rest === null) continue;
      strips.push({ ...(all[0] as PanelSection), id: `fill-${choice.edge}`, role: "fill", film: choice.film, box });
      rest = common(rest, beside(this.source.box, choice, most));
    }
    const sections = all.flatMap((section) => {
      const box = rest === null ? null : common(section.box, rest);
      return box === null ? [] : [{ ...section, box }];
    });
    return { sections, strips };
  }

  private choicesOf(
    section: PanelSection,
    index: number,
    borders: readonly Border[],
    lenient: boolean,
  ): SplitRelaxation[] {
    const { rules, unit } = this.instance;
    const directions: Direction[] = section.direction === "either" ? ["vertical", "horizontal"] : [section.direction];
    const films = [...this.copies.keys()];
    const least = (byFilm: ReadonlyMap<string, Ticks>) => Math.min(...films.map((film) => byFilm.get(film) ?? 0));
    return directions.flatMap((direction) => {
      const task = sectionTask(
        {
          section,
          axis: splitAxis(direction),
          region: this.region,
          members: this.members,
          rules,
          grid: seamGrid(unit),
          maxAcross: Math.min(least(this.limits.acrossByFilm), section.maxAcross ?? Infinity),
          maxAlong: least(this.limits.alongByFilm),
        },
        index,
        borders,
        this.source.bleed,
      );
      return task === null ? [] : [new SplitRelaxation(task, finestCell(unit), lenient)];
    });
  }

  private fixed(borders: readonly Border[], fills: readonly FillRange[]): FixedSums {
    let [visible, visibleLength, fillMoney, fillArea] = [0, 0, 0, 0];
    for (const { kinds, lengths } of borders) {
      for (const [m, { elevation }] of this.members.entries()) {
        if (kinds[m] === "break") continue;
        visible += elevation.count;
        visibleLength += elevation.count * (lengths[m] as Ticks);
      }
    }
    for (const fill of fills) {
      const film = this.instance.films.find(({ id }) => id === fill.choice.film) as Film;
      const { printed, laid } = this.windowsOf(fill);
      const [shallow, deep] = [fill.least, fill.most].map((depth) =>
        this.region.area(stripOf(this.source.box, fill.choice, depth)),
      ) as [number, number];
      const own = Math.min(...[...this.copies.keys()].map((id) => this.inkOf(id)));
      const ink = this.inkOf(film.id);
      fillMoney += this.count * (printed * ink + Math.max(0, deep - shallow) * Math.min(ink, own));
      if (isOnlyFill(this.instance, film)) {
        const sheet = (film.pricePerArea + film.laminatePricePerArea) / TICKS_PER[this.instance.unit] ** 2;
        const ratio = leastRatio(this.instance, film, countedGap(this.instance.rules));
        fillMoney += this.count * laid * ratio * sheet;
        fillArea += this.count * laid * ratio;
      }
      const length = this.leastFacing(fill);
      if (length <= 0) continue;
      for (const member of this.members) {
        if (mayHide(member, this.source.box, fill)) continue;
        visible += member.elevation.count;
        visibleLength += member.elevation.count * Math.floor(length * member.weights.least);
      }
    }
    return { visible, visibleLength, panels: this.count * fills.length, fillMoney, fillArea };
  }

  /**
   * Area that the windows of a fill at its least depth have at least, and the same with a gap beside them: each column in
   * which film is needed asks for a window as long as its ends ask, whichever way the windows run.
   */
  private windowsOf({ choice, least }: FillRange): { printed: number; laid: number } {
    const { rules } = this.instance;
    const { bleed, box } = this.source;
    if (least <= 0) return { printed: 0, laid: 0 };
    const strip = stripOf(box, choice, least);
    const [low, high] = sidesOf(choice.edge === "left" || choice.edge === "right" ? "y" : "x").v;
    const highs = this.region.profile(strip, high);
    const half = this.members.every((member) => isButted(member, [null, choice.film])) ? 0 : rules.overlap / 2;
    let [printed, columns] = [0, 0];
    for (const [i, slab] of this.region.profile(strip, low).entries()) {
      const lower = endsOf(slab, low, strip, bleed, half);
      const upper = endsOf(highs[i] as ProfileSlab, high, strip, bleed, half);
      if (lower.length === 0 || upper.length === 0) continue;
      printed += (slab.to - slab.from) * (Math.max(...lower) + Math.max(...upper));
      columns += slab.to - slab.from;
    }
    return { printed, laid: printed + columns * countedGap(rules) };
  }

  private inkOf(id: string): number {
    const film = this.instance.films.find((candidate) => candidate.id === id) as Film;
    return film.inkPricePerArea / TICKS_PER[this.instance.unit] ** 2;
  }

  /** Least length over which film faces film across the fill's border, at whatever depth of its range: linear between corners. */
  private leastFacing({ choice, least, most }: FillRange): number {
    const { box } = this.source;
    const axis = choice.edge === "left" || choice.edge === "right" ? "x" : "y";
    const span = toSpan(box, axis);
    const atLow = choice.edge === "left" || choice.edge === "bottom";
    const [from, to] = atLow ? [span.u0 + least, span.u0 + most] : [span.u1 - most, span.u1 - least];
    const within = { from: span.v0, to: span.v1 };
    const side = axis === "x" ? "bottom" : "left";
    const slabs = this.region.profile(toBox({ ...span, u0: from, u1: to }, axis), side);
    const places = new Set([from, to, ...slabs.flatMap((slab) => [Math.floor(slab.from), Math.ceil(slab.to)])]);
    const lengths = [...places]
      .filter((at) => at > span.u0 && at < span.u1)
      .map((at) => facing(this.region.beside(axis, at, within, -1), this.region.beside(axis, at, within, 1)));
    return Math.max(0, Math.min(...lengths) - ROUNDED);
  }
}

/** Where need ends in a slab toward a side, moved outward, on the mean; farther is more. The farthest asks at least its mean. */
function endsOf(slab: ProfileSlab, side: Side, strip: Box, bleed: Bleed, half: number): number[] {
  const sign = side === "top" || side === "right" ? 1 : -1;
  const mean = ([a, b]: readonly [number, number]) => (sign * (a + b)) / 2;
  const edge = { left: strip.x0, right: strip.x1, bottom: strip.y0, top: strip.y1 }[side];
  const ends: number[] = [];
  if (slab.outline !== null) ends.push(mean(slab.outline) + bleed[side]);
  if (slab.opening !== null) ends.push(mean(slab.opening) + bleed.openings);
  if (slab.beyond) ends.push(sign * edge + half);
  return ends;
}

/** What rounding may add to the ends of a few stretches. */
const ROUNDED = 16;

const facing = (a: readonly Interval[], b: readonly Interval[]): number =>
  a.reduce(
    (sum, p) => sum + b.reduce((part, q) => part + Math.max(0, Math.min(p.to, q.to) - Math.max(p.from, q.from)), 0),
    0,
  );

/** Whether a gap or moulding could hide the fill's border at some depth of its range. */
function mayHide(member: Member, box: Box, { choice, least, most }: FillRange): boolean {
  const axis = choice.edge === "left" || choice.edge === "right" ? "x" : "y";
  const strip = toSpan(box, axis);
  const atLow = choice.edge === "left" || choice.edge === "bottom";
  const [from, to] = atLow ? [strip.u0 + least, strip.u0 + most] : [strip.u1 - most, strip.u1 - least];
  return member.breaks.some(
    (line) => line.axis === axis && line.type !== "bodyLine" && line.at >= from && line.at <= to,
  );
}

function stripOf(box: Box, { edge }: FillChoice, depth: Ticks): Box {
  if (edge === "left") return { ...box, x1: Math.min(box.x1, box.x0 + depth) };
  if (edge === "right") return { ...box, x0: Math.max(box.x0, box.x1 - depth) };
  if (edge === "bottom") return { ...box, y1: Math.min(box.y1, box.y0 + depth) };
  return { ...box, y0: Math.max(box.y0, box.y1 - depth) };
}

/** What a strip so deep leaves of the box; turned over when it leaves nothing. */
function beside(box: Box, { edge }: FillChoice, depth: Ticks): Box {
  if (edge === "left") return { ...box, x0: box.x0 + depth };
  if (edge === "right") return { ...box, x1: box.x1 - depth };
  if (edge === "bottom") return { ...box, y0: box.y0 + depth };
  return { ...box, y1: box.y1 - depth };
}

function common(a: Box, b: Box): Box | null {
  const box = {
    x0: Math.max(a.x0, b.x0),
    y0: Math.max(a.y0, b.y0),
    x1: Math.min(a.x1, b.x1),
    y1: Math.min(a.y1, b.y1),
  };
  return box.x0 < box.x1 && box.y0 < box.y1 ? box : null;
}
