import type { Axis, Box, Interval } from "../geometry/box.ts";
import { tickAbove } from "../geometry/region.ts";
import type { ColourEdge, Rules } from "../model/instance.ts";
import type { SeamKind } from "../model/plan.ts";
import type { Ticks } from "../units/ticks.ts";
import type { Member, Zone } from "./members.ts";
import { toSpan } from "./orientation.ts";

/** A seam's line: `axis` = `at`, from its lowest to its highest needed point. */
export interface SeamLine {
  readonly axis: Axis;
  readonly at: Ticks;
  readonly from: Ticks;
  readonly to: Ticks;
}

/**
 * What a seam on this line is for one member, and the least that its two windows must share.
 *
 * A single break or colour edge must span the whole line to count; a gap or moulding goes before a body line, that before
 * a colour edge. A colour edge that is no straight line asks for film on both sides as far as it strays, and the overlap
 * that is left once it is trimmed along the edge.
 *
 * @param butted whether the films on both sides meet edge to edge: then a seam that is no break shares no more than a
 *   colour edge strays
 */
export function seamKind(
  member: Member,
  line: SeamLine,
  rules: Rules,
  butted: boolean,
): { kind: SeamKind; overlap: Ticks } {
  const usual = butted ? 0 : rules.overlap;
  const features = member.linesAt(line.axis, line.at);
  if (features === undefined) return { kind: "open", overlap: usual };
  const spans = (feature: { from: Ticks; to: Ticks }) => feature.from <= line.from && feature.to >= line.to;
  const cut = features.breaks.filter((feature) => feature.type !== "bodyLine" && spans(feature));
  if (cut.length > 0) {
    return { kind: "break", overlap: Math.max(rules.trimOverlap, ...cut.map(({ width }) => width)) };
  }
  if (features.breaks.some(spans)) return { kind: "bodyLine", overlap: usual };
  const strays = features.colourEdges.filter(spans).map((edge) => strayOf(edge, line));
  if (strays.length === 0) return { kind: "open", overlap: usual };
  // Of several edges on one line the one that asks least is trimmed along.
  const stray = Math.min(...strays);
  const trimmed = butted ? 2 * stray : stray > 0 ? 2 * stray + rules.colourEdgeOverlap : 0;
  return { kind: "colourEdge", overlap: Math.max(usual, trimmed) };
}

/** How far a colour edge strays from its place between the ends of a line, rounded up to a tick. */
function strayOf({ axis, at, path }: ColourEdge, { from, to }: SeamLine): Ticks {
  if (path === null) return 0;
  const corners = path.map(({ x, y }) => (axis === "x" ? { u: x, v: y } : { u: y, v: x }));
  let most = 0;
  for (let i = 0; i + 1 < corners.length; i++) {
    const [a, b] = [corners[i] as { u: Ticks; v: Ticks }, corners[i + 1] as { u: Ticks; v: Ticks }];
    if (b.v < from || a.v > to) continue;
    // A step square to the line lies between its ends or at one of them with both its corners.
    const placeAt = (v: Ticks) => a.u + ((v - a.v) / (b.v - a.v)) * (b.u - a.u);
    const low = a.v >= from ? a.u : placeAt(from);
    const high = b.v <= to ? b.u : placeAt(to);
    most = Math.max(most, Math.abs(low - at), Math.abs(high - at));
  }
  return tickAbove(most);
}

/** The least half overlap that the members ask of a seam that is no break, on film of their own or of this fill. */
export const usualHalf = (members: readonly Member[], films: Films, rules: Rules): Ticks =>
  members.some((member) => !isButted(member, films)) ? halfOverlap(rules.overlap) : 0;

/** Films on the sides of a seam: of a fill by id, null for a member's own. */
export type Films = readonly (string | null)[];

/** Panels meet edge to edge where the films on both sides do. */
export const isButted = (member: Member, films: Films): boolean => films.every((film) => member.isButted(film));

/** What each window carries beyond the line; rounded outward to a tick. */
export const halfOverlap = (overlap: Ticks): Ticks => Math.ceil(overlap / 2);

/** A seam judged by every member of the group. */
export interface JudgedSeam {
  /** By member. */
  readonly kinds: readonly SeamKind[];
  /** What the windows, which are the same for all members, reach past the line: the most that any member asks. */
  readonly half: Ticks;
}

/** A place where a seam may lie, judged for all members of the group. */
export interface SeamCandidate extends SeamLine, JudgedSeam {
  /** Needed length on the line. */
  readonly length: Ticks;
  /** Visible seams this makes on all copies of all members. */
  readonly visible: number;
  /** Pairs of this seam and an avoided zone, on all copies of all members. */
  readonly penalties: number;
  /** Handles inside the band, a break's too, on all copies of all members: they only decide between equals. */
  readonly handles: number;
  /** Needed length that stays visible, weighted where the job weighs seams, on all copies of all members. */
  readonly visibleLength: Ticks;
  /** A break demands a seam here. */
  readonly demanded: boolean;
}

/** @param films on the sides of the seam; left out, each member's own */
export function judgeSeam(members: readonly Member[], line: SeamLine, rules: Rules, films: Films = [null]): JudgedSeam {
  const judged = members.map((member) => seamKind(member, line, rules, isButted(member, films)));
  return {
    kinds: judged.map(({ kind }) => kind),
    half: Math.max(...judged.map(({ overlap }) => halfOverlap(overlap))),
  };
}

/**
 * Lengths by which a seam counts, by member on one copy: weighted where the job weighs them; 0 for a break.
 *
 * @param stretches needed on the line; asked only where some member weighs them
 */
export function countedLengths(
  members: readonly Member[],
  { axis, at }: SeamLine,
  kinds: readonly SeamKind[],
  length: Ticks,
  stretches: () => readonly Interval[],
): Ticks[] {
  return members.map(({ weights }, m) => {
    if (kinds[m] === "break") return 0;
    return weights.plain ? length : weights.lengthOn(axis, at, stretches());
  });
}

/** Whether the band of a seam, a break's too, lies over a handle. */
export const coversHandle = (zone: Zone, line: SeamLine, band: Box): boolean =>
  zone.handle && meetsZone(zone, "open", line, band);

/**
 * Whether a seam runs through a zone: a break seam by its line, any other by the whole band that its windows share.
 * Touching is no clash. A band of no width is judged as its line.
 *
 * @param band the shared band between its lowest and highest needed point, in the frame of the line
 */
export function meetsZone(zone: Zone, kind: SeamKind, line: SeamLine, band: Box): boolean {
  const { u0, u1, v0, v1 } = toSpan(zone.box, line.axis);
  if (kind === "break") return line.at > u0 && line.at < u1 && line.from < v1 && line.to > v0;
  const shared = toSpan(band, line.axis);
  return shared.u0 < u1 && shared.u1 > u0 && shared.v0 < v1 && shared.v1 > v0;
}
