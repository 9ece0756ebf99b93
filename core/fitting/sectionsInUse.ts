import type { Axis, Box, Interval, Side } from "../geometry/box.ts";
import { type Region, tickAbove, tickBelow } from "../geometry/region.ts";
import type { Elevation, FillChoice } from "../model/instance.ts";
import type { FoundSection, Panel, Seam } from "../model/plan.ts";
import type { Ticks } from "../units/ticks.ts";
import { boxOf, otherAxis, rangeOn, splitAxisOf } from "./ranges.ts";

/** A section as one layout panels it: given or found, shrunk by the fills in use, or a fill itself. */
export interface SectionInUse {
  readonly id: string;
  readonly role: "panel" | "fill";
  readonly box: Box;
  /** The axis on which its panels lie side by side. */
  readonly axis: Axis;
  /** At least one; leftmost or lowest first. */
  readonly panels: readonly Panel[];
}

export const axisOfSide = (side: Side): Axis => (side === "left" || side === "right" ? "x" : "y");
const isLowSide = (side: Side): boolean => side === "left" || side === "bottom";

/**
 * The sections of an elevation that have panels in one layout.
 *
 * @param panels of this elevation; `seams` of it, whose borders tell how deep fills are
 * @param found sections that take the place of those given; none for those given
 * @returns given or found sections in their order, then fills as the job lists them
 */
export function sectionsInUse(
  elevation: Elevation,
  region: Region,
  panels: readonly Panel[],
  seams: readonly Seam[],
  found: readonly FoundSection[],
): SectionInUse[] {
  const rest = { ...elevation.box };
  const fills: { id: string; role: "fill"; box: Box }[] = [];
  for (const choice of elevation.fill) {
    const id = `fill-${choice.edge}`;
    const own = panels.filter(({ section }) => section === id);
    if (own.length === 0) continue;
    const depth = fillDepth(elevation.box, rest, choice, own, seams, region);
    // The first listed keeps the corner: later fills run only along what is left of the box.
    const box = { ...rest };
    if (choice.edge === "left") rest.x0 = box.x1 = elevation.box.x0 + depth;
    else if (choice.edge === "right") rest.x1 = box.x0 = elevation.box.x1 - depth;
    else if (choice.edge === "bottom") rest.y0 = box.y1 = elevation.box.y0 + depth;
    else rest.y1 = box.y0 = elevation.box.y1 - depth;
    fills.push({ id, role: "fill", box });
  }
  const listed = (found.length > 0 ? found : elevation.sections).map(({ id, box }) => ({
    id,
    role: "panel" as const,
    box: {
      x0: Math.max(box.x0, rest.x0),
      y0: Math.max(box.y0, rest.y0),
      x1: Math.min(box.x1, rest.x1),
      y1: Math.min(box.y1, rest.y1),
    },
  }));
  return [...listed, ...fills].flatMap((section) => {
    const own = panels.filter((panel) => panel.section === section.id);
    const [first] = own;
    if (first === undefined) return [];
    const axis = splitAxisOf(first.direction);
    const middle = ({ window }: Panel): number => rangeOn(axis, window).from + rangeOn(axis, window).to;
    return [{ ...section, axis, panels: own.sort((a, b) => middle(a) - middle(b)) }];
  });
}

/**
 * How deep a fill in use is: its borders stand at its inner edge. One without a border ends anywhere in a band that needs
 * no film; where the last needed stretch that its windows reach ends, is as good as any other place of that band.
 */
function fillDepth(
  box: Box,
  rest: Box,
  { edge, maxDepth }: FillChoice,
  panels: readonly Panel[],
  seams: readonly Seam[],
  region: Region,
): Ticks {
  const axis = axisOfSide(edge);
  const whole = rangeOn(axis, box);
  const depthAt = (place: Ticks): Ticks => (isLowSide(edge) ? place - whole.from : whole.to - place);
  const border = seams.find(
    (seam) => seam.section === null && seam.axis === axis && seam.between.includes(`fill-${edge}`),
  );
  if (border !== undefined) return depthAt(border.at);
  const inner = panels.map(({ window }) => depthAt(rangeOn(axis, window)[isLowSide(edge) ? "to" : "from"]));
  const reach = Math.min(maxDepth, Math.max(...inner));
  const ends = neededParts(region, rest, axis)
    .map(({ from, to }) => depthAt(isLowSide(edge) ? to : from))
    .filter((depth) => depth > 0 && depth <= reach);
  return ends.length > 0 ? Math.max(...ends) : maxDepth;
}

/** Ranges of an axis over which film is needed anywhere in the box, whole ticks, in order, apart from one another. */
export function neededParts(region: Region, box: Box, axis: Axis): Interval[] {
  const parts: { from: Ticks; to: Ticks }[] = [];
  for (const { from, to, outline, opening, beyond } of region.profile(box, axis === "x" ? "top" : "right")) {
    if (outline === null && opening === null && !beyond) continue;
    const last = parts.at(-1);
    if (last !== undefined && tickBelow(from) <= last.to) last.to = tickAbove(to);
    else parts.push({ from: tickBelow(from), to: tickAbove(to) });
  }
  return parts;
}

/** Whether needed film goes on past a side of a section, over its whole length or the stretch given. */
export function goesOnBeyond(region: Region, box: Box, side: Side, stretch?: Interval): boolean {
  const axis = axisOfSide(side);
  const along = stretch ?? rangeOn(otherAxis(axis), box);
  return region.profile(boxOf(axis, rangeOn(axis, box), along), side).some(({ beyond }) => beyond);
}
