import type { Axis, Box, Interval, Side } from "../geometry/box.ts";
import type { Region } from "../geometry/region.ts";
import type { Direction, Elevation, FillChoice, Rules } from "../model/instance.ts";
import type { Ticks } from "../units/ticks.ts";
import type { Member, Zone } from "./members.ts";
import { sidesOf, toBox, toSpan } from "./orientation.ts";
import { countedLengths, type JudgedSeam, judgeSeam, meetsZone } from "./seamRules.ts";

/** A section as it is really panelled: shrunk by the fills in use, or a fill itself. */
export interface PanelSection {
  readonly id: string;
  readonly role: "panel" | "fill";
  readonly box: Box;
  readonly direction: Direction | "either";
  readonly maxAcross: Ticks | null;
  /** Film of a fill; null for the elevation's own film, which may differ between the members of a mirror group. */
  readonly film: string | null;
}

/** A fill in use, this deep from the edge of the elevation's box. */
export interface UsedFill {
  readonly choice: FillChoice;
  readonly depth: Ticks;
}

/**
 * The sections of an elevation with some of its fills in use: the job's own in its order, then the fills as listed.
 *
 * @returns null when a section or a fill would be left with no size
 */
export function effectiveSections(elevation: Elevation, fills: readonly UsedFill[]): PanelSection[] | null {
  const rest = { ...elevation.box };
  const strips: PanelSection[] = [];
  for (const { choice, depth } of fills) {
    // The first listed keeps the corner: later fills run only along what is left of the box.
    const box = { ...rest };
    if (choice.edge === "left") rest.x0 = box.x1 = elevation.box.x0 + depth;
    else if (choice.edge === "right") rest.x1 = box.x0 = elevation.box.x1 - depth;
    else if (choice.edge === "bottom") rest.y0 = box.y1 = elevation.box.y0 + depth;
    else rest.y1 = box.y0 = elevation.box.y1 - depth;
    strips.push({
      id: `fill-${choice.edge}`,
      role: "fill",
      box,
      direction: "either",
      maxAcross: null,
      film: choice.film,
    });
  }
  const sections = elevation.sections.map(
    (section): PanelSection => ({
      id: section.id,
      role: "panel",
      box: cut(section.box, rest),
      direction: section.direction,
      maxAcross: section.maxAcross,
      film: null,
    }),
  );
  const all = [...sections, ...strips];
  return all.every(({ box }) => box.x0 < box.x1 && box.y0 < box.y1) ? all : null;
}

const cut = (box: Box, to: Box): Box => ({
  x0: Math.max(box.x0, to.x0),
  y0: Math.max(box.y0, to.y0),
  x1: Math.min(box.x1, to.x1),
  y1: Math.min(box.y1, to.y1),
});

/** A seam between two sections with film on both sides. `low` and `high` are positions in the list of sections. */
export interface Border extends JudgedSeam {
  readonly axis: Axis;
  readonly at: Ticks;
  readonly low: number;
  readonly high: number;
  /** Where the two boxes meet. */
  readonly stretch: Interval;
  /** Lowest and highest needed point on the line within the stretch. */
  readonly from: Ticks;
  readonly to: Ticks;
  /** What it counts as, by member on one copy: needed length on its line, weighted where the job weighs it; 0 for a break. */
  readonly lengths: readonly Ticks[];
  /** Both boxes together, across the line. */
  readonly across: Interval;
  /** Where film is needed on both sides. */
  readonly facing: readonly Interval[];
}

/** Every border of these sections, ordered by the lower or left section, then by the other. */
export function bordersBetween(
  sections: readonly PanelSection[],
  region: Region,
  members: readonly Member[],
  rules: Rules,
): Border[] {
  const borders: Border[] = [];
  for (const [low, lower] of sections.entries()) {
    for (const axis of ["x", "y"] as const) {
      const a = toSpan(lower.box, axis);
      const beyond = region.profile(lower.box, sidesOf(axis).u[1]).filter((slab) => slab.beyond);
      if (beyond.length === 0) continue;
      for (const [high, upper] of sections.entries()) {
        const b = toSpan(upper.box, axis);
        if (a.u1 !== b.u0) continue;
        const stretch = { from: Math.max(a.v0, b.v0), to: Math.min(a.v1, b.v1) };
        const facing = beyond
          .map(({ from, to }) => ({ from: Math.max(from, stretch.from), to: Math.min(to, stretch.to) }))
          .filter(({ from, to }) => from < to);
        if (facing.length === 0) continue;
        const stretches = region.line(axis, a.u1, stretch);
        const line = {
          axis,
          at: a.u1,
          from: stretches[0]?.from ?? stretch.from,
          to: stretches.at(-1)?.to ?? stretch.to,
        };
        const length = stretches.reduce((sum, { from, to }) => sum + to - from, 0);
        const across = { from: a.u0, to: b.u1 };
        const judged = judgeSeam(members, line, rules, [lower.film, upper.film]);
        const lengths = countedLengths(members, line, judged.kinds, length, () => stretches);
        borders.push({ ...line, low, high, stretch, lengths, across, facing, ...judged });
      }
    }
  }
  return borders;
}

/**
 * Whether a border's windows that share `band` (in the border's own frame: u across the line) meet a zone.
 *
 * Only what is needed inside the band and the two sections counts: it is cut to its lowest and highest needed point.
 */
export function borderMeets(
  border: Border,
  kind: Border["kinds"][number],
  zone: Zone,
  band: { readonly u0: Ticks; readonly u1: Ticks; readonly v0: Ticks; readonly v1: Ticks },
  region: Region,
): boolean {
  if (kind === "break") return meetsZone(zone, kind, border, zone.box);
  const box = toBox(band, border.axis);
  if (!meetsZone(zone, kind, border, box)) return false;
  if (band.u0 === band.u1) return meetsZone(zone, kind, border, box);
  const { across, axis } = border;
  const inside = { ...band, u0: Math.max(band.u0, across.from), u1: Math.min(band.u1, across.to) };
  const extent = region.extent(toBox(inside, axis));
  if (extent === null) return false;
  const along = toSpan(extent, border.axis);
  return meetsZone(zone, kind, border, toBox({ ...band, v0: along.v0, v1: along.v1 }, border.axis));
}

/** The side of an elevation that a side becomes when seen reflected left to right. */
export const mirroredSide = (side: Side): Side => (side === "left" ? "right" : side === "right" ? "left" : side);
