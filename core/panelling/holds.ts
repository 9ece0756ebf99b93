import type { Axis, Interval } from "../geometry/box.ts";
import type { Region } from "../geometry/region.ts";
import type { Hold } from "../model/instance.ts";
import { mirrorHold } from "../model/mirrorElevation.ts";
import type { Ticks } from "../units/ticks.ts";
import type { Member } from "./members.ts";
import { splitAxis, toSpan } from "./orientation.ts";
import type { Border, PanelSection } from "./sections.ts";

/** A hold of one member of a mirror group, seen in the frame of the group's source. */
export interface GroupHold {
  readonly hold: Hold;
  /** As it stands in the job, in the frame of its own elevation. */
  readonly own: Hold;
  readonly member: Member;
}

/** What is settled for one section split along one axis, in places of that axis. */
export interface Settled {
  /** Where a seam must lie, ascending. */
  readonly seams: readonly Ticks[];
  /** Stretches, both ends included, in which none may. */
  readonly noSeams: readonly Interval[];
  /** By ascending `at`: the panel that holds this place is exactly so wide. */
  readonly widths: readonly HeldWidth[];
  /** Where the elevation that this one follows has its seams; null where it follows none. */
  readonly expected: Expected | null;
}

/** Where seams are wished for, ascending, and nowhere else; and how much is not as wished wherever they lie. */
export interface Expected {
  readonly places: readonly Ticks[];
  readonly besides: number;
}

export interface HeldWidth {
  /**
   * A panel holds it from its low end up to, but without, its high end. Seen reflected it is the other way about: then this
   * is half a tick lower than the place itself, which comes to the same as ends lie on whole ticks.
   */
  readonly at: Ticks;
  readonly width: Ticks;
}

/**
 * The holds of all members of a mirror group, by member: their windows are one another's images, so each binds all.
 * A hold that several members share (a mirror takes over those of what it repeats) is listed once.
 */
export function groupHolds(members: readonly Member[]): GroupHold[] {
  const known = new Set<string>();
  return members.flatMap((member) => {
    const { elevation, flipped } = member;
    return elevation.holds.flatMap((own) => {
      const hold = flipped ? mirrorHold(own, elevation.box) : own;
      // A width whose place lies on a seam is another panel's when seen reflected.
      const turned = hold.kind === "width" && hold.axis === "x" && flipped;
      const key = JSON.stringify([turned, Object.entries(hold).sort(([a], [b]) => (a < b ? -1 : 1))]);
      if (known.has(key)) return [];
      known.add(key);
      return [{ hold, own, member }];
    });
  });
}

/** Whether a hold is about this section: the one it names, else every one that is no fill. */
export const isAbout = ({ section }: Hold, { id, role }: PanelSection): boolean =>
  role === "panel" && (section === null || section === id);

/** Whether a line lies strictly inside a section and film is needed on it there over some length. */
export function crosses(axis: Axis, at: Ticks, { box }: PanelSection, region: Region): boolean {
  const { u0, u1, v0, v1 } = toSpan(box, axis);
  return u0 < at && at < u1 && region.line(axis, at, { from: v0, to: v1 }).length > 0;
}

/** The axis along which a hold has this section split; null where it leaves that open. */
export function axisAsked(hold: Hold, section: PanelSection, region: Region): Axis | null {
  if (!isAbout(hold, section) || hold.kind === "noSeam") return null;
  if (hold.kind === "direction") return splitAxis(hold.direction);
  return crosses(hold.axis, hold.at, section, region) ? hold.axis : null;
}

/** What the holds settle for a section split along an axis. */
export function settledBy(
  holds: readonly GroupHold[],
  section: PanelSection,
  axis: Axis,
  region: Region,
): Pick<Settled, "seams" | "noSeams" | "widths"> {
  const seams = new Set<Ticks>();
  const noSeams: Interval[] = [];
  const widths: HeldWidth[] = [];
  for (const { hold, member } of holds) {
    if (!isAbout(hold, section) || hold.kind === "direction" || hold.axis !== axis) continue;
    if (hold.kind === "noSeam") noSeams.push({ from: hold.from, to: hold.to });
    else if (!crosses(axis, hold.at, section, region)) continue;
    else if (hold.kind === "seam") seams.add(hold.at);
    else widths.push({ at: member.flipped && axis === "x" ? hold.at - 0.5 : hold.at, width: hold.width });
  }
  return {
    seams: [...seams].sort((a, b) => a - b),
    noSeams,
    widths: widths.sort((a, b) => a.at - b.at || a.width - b.width),
  };
}

/** Whether a hold that names no section forbids a border where it lies. */
export const forbidsBorder = (hold: Hold, { axis, at }: Pick<Border, "axis" | "at">): boolean =>
  hold.kind === "noSeam" && hold.section === null && hold.axis === axis && hold.from <= at && at <= hold.to;

/** Whether some section, or a border where the hold names none, can have the seam that a hold asks for. */
export function canHonour(
  hold: Hold & { readonly kind: "seam" },
  sections: readonly PanelSection[],
  borders: readonly Pick<Border, "axis" | "at">[],
  region: Region,
): boolean {
  const { axis, at } = hold;
  if (sections.some((section) => isAbout(hold, section) && crosses(axis, at, section, region))) return true;
  return hold.section === null && borders.some((border) => border.axis === axis && border.at === at);
}

/** Whether these sections and borders can do what the holds ask, apart from where seams inside sections lie. */
export const bordersKeep = (
  holds: readonly GroupHold[],
  sections: readonly PanelSection[],
  borders: readonly Pick<Border, "axis" | "at">[],
  region: Region,
): boolean =>
  holds.every(({ hold }) =>
    hold.kind === "seam"
      ? canHonour(hold, sections, borders, region)
      : !borders.some((border) => forbidsBorder(hold, border)),
  );

export const isForbidden = (noSeams: readonly Interval[], at: Ticks): boolean =>
  noSeams.some(({ from, to }) => from <= at && at <= to);

/** Whether a panel between two split places, so wide, is as wide as is settled for every place that it holds. */
export const keepsWidths = (widths: readonly HeldWidth[], low: Ticks, high: Ticks, across: Ticks): boolean =>
  widths.every(({ at, width }) => at < low || at >= high || width === across);

/** In how much seams are not as expected: seams elsewhere, expected places without one, and what is so anyway. */
export function placesApart(expected: Expected | null, seams: readonly Ticks[]): number {
  if (expected === null) return 0;
  const { places, besides } = expected;
  const [wished, have] = [new Set(places), new Set(seams)];
  return seams.filter((at) => !wished.has(at)).length + places.filter((at) => !have.has(at)).length + besides;
}
