import type { Axis } from "../geometry/box.ts";
import type { Hold } from "../model/instance.ts";
import type { Problem } from "../model/problem.ts";
import { formatLength } from "../units/formatLength.ts";
import type { Unit } from "../units/ticks.ts";
import { axisAsked, canHonour, forbidsBorder, type GroupHold, isAbout } from "./holds.ts";
import { axesLeft, type HoldsFeasible, smallestContradiction } from "./holdsFeasible.ts";
import { directionOf, splitAxis, toSpan } from "./orientation.ts";
import { type Place, whyNoSplit } from "./reasons.ts";
import { forbiddingZone, isDemanded } from "./seamCandidates.ts";
import type { PanelSection } from "./sections.ts";
import type { SectionTask } from "./sectionTask.ts";

/**
 * Why a group can't be covered as its holds ask: a smallest choice of them that leaves no plan, in one problem.
 *
 * @param feasible what plain feasibility says
 * @param holding whether a covering exists with these holds alone, worked out in full: asked of none of them, and of
 *   more only where plain feasibility finds nothing wrong with all (limits on open seams, windows that meet at a border)
 * @param stop once true, all holds stand in place of a smallest choice
 * @returns null when the holds are not to blame: there is nothing without them either
 */
export function whyHoldsFail(
  holds: readonly GroupHold[],
  feasible: HoldsFeasible,
  holding: (holds: readonly GroupHold[]) => boolean,
  stop: () => boolean,
  unit: Unit,
): Problem | null {
  if (!holding([])) return null;
  const plainly = !feasible.keeps(holds);
  const keeps = plainly ? (some: readonly GroupHold[]) => feasible.keeps(some) : holding;
  const blamed = smallestContradiction(holds, keeps, stop);
  const first = blamed[0] as GroupHold;
  const second = blamed[1] as GroupHold;
  const several = new Set(blamed.map(({ member }) => member.elevation.id)).size > 1;
  const name = (hold: GroupHold) => (several ? `'${hold.own.id}' of elevation '${nameOf(hold)}'` : `'${hold.own.id}'`);
  let why: string;
  let mend: string;
  if (blamed.length === 1) {
    const cause = (plainly ? causeOf(first, feasible, unit) : null) ?? {
      why: `no choice of seams on elevation '${nameOf(first)}' does so within the other rules of the job`,
      mend: "Take the hold out, or move it.",
    };
    why = `Hold ${name(first)} ${wish(first.own, unit)}, but ${cause.why}.`;
    mend = cause.mend;
  } else if (blamed.length === 2) {
    why = `Hold ${name(first)} ${wish(first.own, unit)}, but hold ${name(second)} ${wish(second.own, unit)}: no split does both.`;
    mend = "Take out or move one of the two.";
  } else {
    const wishes = blamed.map((hold) => `${name(hold)} ${wish(hold.own, unit)}`);
    why = `No split does what these ${blamed.length} holds ask together: ${wishes.join("; ")}.`;
    mend = "Take out or move one of them.";
  }
  return {
    path: `elevations[${first.member.index}].holds`,
    value: blamed.map(({ own }) => own.id),
    why,
    mend,
  };
}

const nameOf = ({ member }: Pick<GroupHold, "member">): string => member.elevation.name || member.elevation.id;

/** Seams across this axis, as a fitter calls them. */
const lieOf = (axis: Axis): string => (axis === "x" ? "upright" : "level");

/** What a hold asks for, as what follows "hold 'a' ...". */
export function wish(hold: Hold, unit: Unit): string {
  const where = hold.section === null ? "" : ` in section '${hold.section}'`;
  const say = (ticks: number) => formatLength(ticks, unit);
  switch (hold.kind) {
    case "seam":
      return `wants ${hold.axis === "x" ? "an" : "a"} ${lieOf(hold.axis)} seam at ${say(hold.at)}${where}`;
    case "noSeam":
      return `forbids ${lieOf(hold.axis)} seams from ${say(hold.from)} to ${say(hold.to)}${where}`;
    case "width":
      return `wants the ${directionOf(hold.axis)} panel at ${say(hold.at)} to be ${say(hold.width)} wide${where}`;
    case "direction":
      return `wants ${hold.direction} panels${where}`;
  }
}

interface Cause {
  readonly why: string;
  readonly mend: string;
}

/** What stands in the way of a hold that can't be kept even by itself; null when nothing more telling is known. */
function causeOf({ hold, member }: GroupHold, { plainWay, region }: HoldsFeasible, unit: Unit): Cause | null {
  const { sections, borders, taskOf } = plainWay;
  const about = sections
    .map((section, index) => ({ section, index }))
    .filter(({ section }) => isAbout(hold, section) && region.extent(section.box) !== null);
  if (hold.kind === "seam" && !canHonour(hold, sections, borders, region)) {
    return {
      why: nothingThere(
        hold,
        about.map(({ section }) => section),
      ),
      mend: "Move the hold to a place where film is needed, or take it out.",
    };
  }
  const border = borders.find((each) => forbidsBorder(hold, each));
  if (border !== undefined) {
    const [low, high] = [sections[border.low]?.id, sections[border.high]?.id];
    return {
      why: `the border between sections '${low}' and '${high}' lies in that stretch`,
      mend: "Name one section in the hold, make its stretch shorter, or move the border.",
    };
  }
  for (const { section, index } of about) {
    const asked = axisAsked(hold, section, region);
    if (asked !== null && section.direction !== "either" && splitAxis(section.direction) !== asked) {
      return {
        why: `the job has the panels of section '${section.id}' run ${section.direction}`,
        mend: `Leave the direction of section '${section.id}' open, or take the hold out.`,
      };
    }
    for (const axis of asked === null ? axesLeft([], section, region) : [asked]) {
      const task = taskOf(index, axis);
      const place = { path: "", elevation: nameOf({ member }), film: member.elevation.film, unit };
      const cause = task === null ? null : causeIn(task, hold, place);
      if (cause !== null) return cause;
    }
  }
  return null;
}

/** Why no section can have a seam at the place of a hold. */
function nothingThere({ axis, at, section }: Hold & { kind: "seam" }, about: readonly PanelSection[]): string {
  const spans = about.map(({ box }) => toSpan(box, axis));
  if (spans.some(({ u0, u1 }) => u0 < at && at < u1)) return "no film is needed on that line";
  const who = section === null ? "the elevation" : `section '${section}'`;
  if (spans.some(({ u0, u1 }) => at === u0 || at === u1)) return `that is where ${who} ends`;
  return `${who} does not reach so far`;
}

/** What stands in the way of a hold in one section split along one axis. */
function causeIn(task: SectionTask, hold: Hold, place: Place): Cause | null {
  const { maxAcross, section, members, span, parts, rules } = task;
  const say = (ticks: number) => formatLength(ticks, place.unit);
  const across = `a panel of film '${place.film}' is at most ${say(maxAcross)} wide`;
  if (hold.kind === "direction") {
    const why = whyNoSplit(task, place)[0];
    return why === undefined ? null : { why: `there can be none: ${why.why.replace(/\.$/, "")}`, mend: why.mend };
  }
  if (hold.kind === "seam") {
    const zone = forbiddingZone(task, hold.at);
    if (zone === null) return null;
    return {
      why: `a seam there would run through '${zone.label}', which must stay whole`,
      mend: `Move the hold clear of '${zone.label}' by half the overlap, or set its rule to "avoid" instead of "never".`,
    };
  }
  if (hold.kind === "width") {
    if (hold.width > maxAcross) return { why: across, mend: "Ask for a narrower panel, or use a wider roll." };
    const whole = (parts.at(-1)?.hi ?? span.u1) - (parts[0]?.lo ?? span.u0);
    if (hold.width > whole) {
      return {
        why: `section '${section.id}' asks for no more than ${say(whole)} in all, bleed included`,
        mend: "Ask for a narrower panel.",
      };
    }
    const zone = members
      .flatMap(({ zones }) => zones)
      .find(({ box, rule }) => {
        const { u0, u1, v0, v1 } = toSpan(box, hold.axis);
        if (rule !== "never" || v0 >= span.v1 || v1 <= span.v0) return false;
        return u0 < hold.at && hold.at < u1 && u1 - u0 > hold.width;
      });
    if (zone === undefined) return null;
    const { u0, u1 } = toSpan(zone.box, hold.axis);
    return {
      why: `'${zone.label}' lies there, is ${say(u1 - u0)} wide and must stay whole`,
      mend: `Ask for a wider panel, or set the rule of '${zone.label}' to "avoid" instead of "never".`,
    };
  }
  if (hold.axis !== task.axis) return null;
  const demanded = members
    .flatMap(({ breaks }) => breaks)
    .find(
      ({ axis, at, mustSplit }) =>
        axis === hold.axis && mustSplit && at >= hold.from && at <= hold.to && isDemanded(task, at),
    );
  if (demanded !== undefined) {
    return {
      why: `break '${demanded.id}' demands a seam in that stretch`,
      mend: `Make the stretch of the hold shorter, or let break '${demanded.id}' go without a seam.`,
    };
  }
  const stretch = Math.min(hold.to, span.u1) - Math.max(hold.from, span.u0);
  if (stretch + rules.overlap < maxAcross) return null;
  return { why: across, mend: "Make the stretch of the hold shorter, or use a wider roll." };
}
