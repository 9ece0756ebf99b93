import type { Axis, Box, Interval } from "../geometry/box.ts";
import { type Region, tickAbove, tickBelow } from "../geometry/region.ts";
import type { Bleed, Rules } from "../model/instance.ts";
import { TICKS_PER, type Ticks, type Unit } from "../units/ticks.ts";
import type { Settled } from "./holds.ts";
import type { Member, Zone } from "./members.ts";
import { type Span, sidesOf, toBox, toSpan } from "./orientation.ts";
import { bordersOnSide, farthest, type ReachPiece, reachToward } from "./reach.ts";
import { type JudgedSeam, type SeamCandidate, usualHalf } from "./seamRules.ts";
import { SectionLines } from "./sectionLines.ts";
import type { PanelSection } from "./sections.ts";

/** The narrowest step at which seams are placed: 1/16 in or 1 mm, by the unit of the job. */
export const seamGrid = (unit: Unit): Ticks => (unit === "in" ? TICKS_PER.in / 16 : TICKS_PER.mm);

/** One section to be split along one axis: everything a split of it depends on, in u (across) and v (along). */
export interface SectionTask {
  readonly section: PanelSection;
  readonly axis: Axis;
  readonly span: Span;
  readonly region: Region;
  readonly members: readonly Member[];
  readonly rules: Rules;
  /** Step of the positions tried. */
  readonly grid: Ticks;
  /** Most that a window may measure across and along. */
  readonly maxAcross: Ticks;
  readonly maxAlong: Ticks;
  /** What windows must reach toward the low and the high end of v, by u. */
  readonly reach: { readonly low: readonly ReachPiece[]; readonly high: readonly ReachPiece[] };
  readonly lines: SectionLines;
  readonly zones: readonly TaskZone[];
  /** What a seam is where no break and no colour edge lies, and copies of all members together. */
  readonly usual: JudgedSeam & { readonly copies: number; readonly plain: boolean };
  /** What seams at places asked before were judged to be; null where none may lie. Filled as places are asked. */
  readonly judged: Map<Ticks, SeamCandidate | null>;
  /** Maximal ranges of u in which anything is needed, in order. Between two of them lies a gap of the section. */
  readonly parts: readonly Part[];
  /** What holds and a followed elevation settle here; left out where nothing is. */
  readonly settled?: Settled;
}

/** What of a border bears on a section beside it; `low` and `high` are positions in the list of sections. */
export interface TaskBorder {
  readonly axis: Axis;
  readonly low: number;
  readonly high: number;
  readonly stretch: Interval;
  readonly half: Ticks;
}

/** A zone that reaches into a section, with its range across. */
export interface TaskZone {
  /** Position of the member that it belongs to. */
  readonly m: number;
  readonly zone: Zone;
  readonly u0: Ticks;
  readonly u1: Ticks;
}

export interface Part extends Interval {
  /** Where the first window of the part begins and the last one ends at the latest, bleed or border included. */
  readonly lo: Ticks;
  readonly hi: Ticks;
}

/**
 * Gathers what splitting a section along an axis needs.
 *
 * @param index position of the section in the list that `borders` refers to
 * @returns null when nothing is needed in the section
 */
export function sectionTask(
  given: Pick<SectionTask, "section" | "axis" | "region" | "members" | "rules" | "grid" | "maxAcross" | "maxAlong">,
  index: number,
  borders: readonly TaskBorder[],
  bleed: Bleed,
): SectionTask | null {
  const { section, axis, region } = given;
  const { box } = section;
  const span = toSpan(box, axis);
  const sides = sidesOf(axis);
  const toward = (within: Box, side: "left" | "right" | "bottom" | "top", withBorders: boolean) =>
    reachToward(region, within, side, bleed, withBorders ? bordersOnSide(borders, index, side) : []);
  const stretches = neededRange(region, box, axis);
  if (stretches.length === 0) return null;
  const last = stretches.length - 1;
  const parts = stretches.map(({ from, to }, i): Part => {
    const within = toBox({ u0: from, u1: to, v0: span.v0, v1: span.v1 }, axis);
    const reachOf = (side: "left" | "right" | "bottom" | "top", outer: boolean) =>
      farthest(toward(outer ? box : within, side, outer), span.v0, span.v1);
    return { from, to, lo: 0 - reachOf(sides.u[0], i === 0), hi: reachOf(sides.u[1], i === last) };
  });
  const { members, rules } = given;
  return {
    ...given,
    zones: zonesIn(members, span, axis),
    usual: {
      kinds: members.map(() => "open" as const),
      half: usualHalf(members, [section.film], rules),
      copies: members.reduce((sum, { elevation }) => sum + elevation.count, 0),
      plain: members.every(({ weights }) => weights.plain),
    },
    span,
    parts,
    lines: new SectionLines({ axis, span, region, box }),
    judged: new Map(),
    reach: { low: toward(box, sides.v[0], true), high: toward(box, sides.v[1], true) },
  };
}

function zonesIn(members: readonly Member[], { v0, v1 }: Span, axis: Axis): TaskZone[] {
  return members.flatMap((member, m) =>
    member.zones.flatMap((zone) => {
      const own = toSpan(zone.box, axis);
      return own.v0 >= v1 || own.v1 <= v0 ? [] : [{ m, zone, u0: own.u0, u1: own.u1 }];
    }),
  );
}

/** Ranges of u in which something is needed, whole ticks, in order, apart. */
function neededRange(region: Region, box: Box, axis: Axis): Interval[] {
  const ranges: { from: Ticks; to: Ticks }[] = [];
  for (const { from, to, outline, opening, beyond } of region.profile(box, sidesOf(axis).v[1])) {
    if (outline === null && opening === null && !beyond) continue;
    const last = ranges.at(-1);
    if (last !== undefined && tickBelow(from) <= last.to) last.to = tickAbove(to);
    else ranges.push({ from: tickBelow(from), to: tickAbove(to) });
  }
  return ranges;
}
