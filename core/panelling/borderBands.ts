import type { Axis } from "../geometry/box.ts";
import type { Region } from "../geometry/region.ts";
import type { Ticks } from "../units/ticks.ts";
import type { Member } from "./members.ts";
import { toSpan } from "./orientation.ts";
import type { SectionOption } from "./sectionOptions.ts";
import { type Border, borderMeets } from "./sections.ts";
import type { PanelWindow } from "./windows.ts";

/** What the windows chosen on both sides make of a border. */
export interface FacingWindows {
  /** Least width that two windows facing each other over the border share. */
  readonly overlap: Ticks;
  /** Whether a shared band runs through a zone that no seam may meet. */
  readonly forbidden: boolean;
  /** Pairs of this seam and an avoided zone, on all copies of all members. */
  readonly penalties: number;
}

/** Film on both sides over less than this, ticks, is the rounding of a slope and no border. */
export const HARDLY = 0.5;

/** The windows of a section that meet a border: all where panels run up to it, one where they lie along it. */
function atBorder(option: SectionOption | undefined, axis: Axis, end: 0 | -1): readonly PanelWindow[] {
  if (option === undefined) return [];
  const last = option.windows.at(end);
  return option.axis !== axis ? option.windows : last === undefined ? [] : [last];
}

/**
 * Holds the windows on both sides of a border against each other. Windows may reach farther past a border than half its
 * overlap (to the bleed round an opening just beyond), so what two of them share is known only now.
 */
export function faceWindows(
  border: Border,
  lower: SectionOption | undefined,
  upper: SectionOption | undefined,
  region: Region,
  members: readonly Member[],
): FacingWindows {
  const { axis, at, facing, stretch: whole } = border;
  const bands: { u0: Ticks; u1: Ticks; v0: Ticks; v1: Ticks }[] = [];
  let overlap = Infinity;
  for (const a of atBorder(lower, axis, -1)) {
    const low = toSpan(a.window, axis);
    for (const b of atBorder(upper, axis, 0)) {
      const high = toSpan(b.window, axis);
      const v0 = Math.max(low.v0, high.v0, whole.from);
      const v1 = Math.min(low.v1, high.v1, whole.to);
      // Of horizontal panels under a level border only the topmost comes up to it.
      if (low.u1 < at || high.u0 > at) continue;
      if (!facing.some((stretch) => Math.min(stretch.to, v1) - Math.max(stretch.from, v0) > HARDLY)) continue;
      overlap = Math.min(overlap, low.u1 - high.u0);
      bands.push({ u0: high.u0, u1: low.u1, v0, v1 });
    }
  }
  let [forbidden, penalties] = [false, 0];
  for (const [m, member] of members.entries()) {
    const kind = border.kinds[m] as Border["kinds"][number];
    for (const zone of member.zones) {
      if (!bands.some((band) => borderMeets(border, kind, zone, band, region))) continue;
      if (zone.rule === "never") forbidden = true;
      else penalties += member.elevation.count;
    }
  }
  return { overlap: Number.isFinite(overlap) ? overlap : 2 * border.half, forbidden, penalties };
}
