import type { Axis, Box } from "../geometry/box.ts";
import type { Rules } from "../model/instance.ts";
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
 * a colour edge.
 */
export function seamKind(member: Member, line: SeamLine, rules: Rules): { kind: SeamKind; overlap: Ticks } {
  const features = member.linesAt(line.axis, line.at);
  if (features === undefined) return { kind: "open", overlap: rules.overlap };
  const spans = (feature: { from: Ticks; to: Ticks }) => feature.from <= line.from && feature.to >= line.to;
  const cut = features.breaks.filter((feature) => feature.type !== "bodyLine" && spans(feature));
  if (cut.length > 0) {
    return { kind: "break", overlap: Math.max(rules.trimOverlap, ...cut.map(({ width }) => width)) };
  }
  const bodyLine = features.breaks.some(spans);
  const kind = bodyLine ? "bodyLine" : features.colourEdges.some(spans) ? "colourEdge" : "open";
  return { kind, overlap: rules.overlap };
}

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
  /** Needed length that stays visible, on all copies of all members. */
  readonly visibleLength: Ticks;
  /** A break demands a seam here. */
  readonly demanded: boolean;
}

export function judgeSeam(members: readonly Member[], line: SeamLine, rules: Rules): JudgedSeam {
  const judged = members.map((member) => seamKind(member, line, rules));
  return {
    kinds: judged.map(({ kind }) => kind),
    half: Math.max(...judged.map(({ overlap }) => halfOverlap(overlap))),
  };
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
