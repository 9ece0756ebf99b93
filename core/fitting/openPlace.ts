import type { Axis, Point } from "../geometry/box.ts";
import type { Region } from "../geometry/region.ts";
import type { Elevation, Instance } from "../model/instance.ts";
import type { Panel, Seam } from "../model/plan.ts";
import type { Ticks, Unit } from "../units/ticks.ts";
import { hidingPlaces, zonesOf } from "./features.ts";
import type { PanelStretch } from "./panelStretches.ts";
import { lengthOf, otherAxis, rangeOn, shared } from "./ranges.ts";
import type { SectionInUse } from "./sectionsInUse.ts";
import { onTape, tapeStep } from "./tape.ts";

/** A seam inside a section with the panels on both sides of it, and the widest panel that the section takes. */
export interface OpenSeam {
  readonly seam: Seam;
  readonly section: SectionInUse;
  readonly before: PanelStretch;
  readonly after: PanelStretch;
  readonly widest: Ticks;
  /** Whether the section says how wide, and not the film. */
  readonly isOfSection: boolean;
}

/** Lettering nearer than this many steps of the tape tells why a seam lies beside it: 6 in or 96 mm. */
const NEAR_STEPS = 96;
/** A seam that shows over less than this share of its run is worth telling. */
const MUCH_OPEN = 0.85;

/**
 * Why an open seam lies just where it does: the first of these that holds. A hold keeps the width of a panel beside it; a
 * panel beside it is as wide as can be; both panels share the width equally; lettering or an obstacle begins near it; it
 * runs over openings; it lies at a corner where panels change their length; nothing that would hide it lies within reach.
 */
export function openPlace(open: OpenSeam, elevation: Elevation, region: Region, { unit }: Instance): string {
  return (
    heldWidth(open, elevation, unit) ??
    fullPanel(open, unit) ??
    equalWidths(open, unit) ??
    clearOfZone(open, elevation, unit) ??
    overOpening(open, elevation, region, unit) ??
    atCorner(open, elevation) ??
    nothingWithinReach(open, elevation, unit) ??
    betweenPanels(open, unit)
  );
}

const widthOf = (axis: Axis, { window }: Panel): Ticks => lengthOf(rangeOn(axis, window));

/** From where a panel on the low or the high side of a seam comes. */
const fromWhere = (axis: Axis, side: "low" | "high"): string =>
  axis === "x" ? (side === "low" ? "from the left" : "from the right") : side === "low" ? "from below" : "from above";

const beside = (axis: Axis, side: "low" | "high"): string =>
  axis === "x" ? (side === "low" ? "to its left" : "to its right") : side === "low" ? "below it" : "above it";

function heldWidth({ seam, section, before, after }: OpenSeam, { holds }: Elevation, unit: Unit): string | null {
  for (const hold of holds) {
    if (hold.kind !== "width" || hold.axis !== seam.axis) continue;
    if (hold.section !== null && hold.section !== section.id) continue;
    for (const [side, { panel, from, to }] of [["low", before] as const, ["high", after] as const]) {
      if (from > hold.at || hold.at >= to || widthOf(seam.axis, panel) !== hold.width) continue;
      return `hold '${hold.id}' keeps the panel ${beside(seam.axis, side)} ${onTape(hold.width, unit)} wide`;
    }
  }
  return null;
}

function fullPanel({ seam, before, after, widest, isOfSection }: OpenSeam, unit: Unit): string | null {
  for (const [side, { panel }] of [["low", before] as const, ["high", after] as const]) {
    // Seams lie on marks of the tape, so a panel may end up to one of them short of its full width.
    if (widest - widthOf(seam.axis, panel) >= tapeStep(unit)) continue;
    const width = onTape(widest, unit);
    const of = isOfSection ? `${width}, the widest allowed here,` : width;
    return `a panel of ${of} reaches no farther ${fromWhere(seam.axis, side)}`;
  }
  return null;
}

function equalWidths({ seam, before, after }: OpenSeam, unit: Unit): string | null {
  const [low, high] = [widthOf(seam.axis, before.panel), widthOf(seam.axis, after.panel)];
  if (Math.abs(low - high) > 2 * tapeStep(unit)) return null;
  return low === high
    ? `equal widths of ${onTape(low, unit)} on both sides`
    : `nearly equal widths, ${onTape(low, unit)} and ${onTape(high, unit)}`;
}

function clearOfZone({ seam, before, after }: OpenSeam, elevation: Elevation, unit: Unit): string | null {
  const { axis } = seam;
  const band = shared(rangeOn(axis, before.panel.window), rangeOn(axis, after.panel.window));
  let nearest: { words: string; distance: Ticks } | null = null;
  for (const { box, words } of zonesOf(elevation)) {
    if (lengthOf(shared(rangeOn(otherAxis(axis), box), seam)) <= 0) continue;
    const zone = rangeOn(axis, box);
    const distance = Math.max(zone.from - band.to, band.from - zone.to);
    if (distance < 0 || distance > NEAR_STEPS * tapeStep(unit)) continue;
    if (nearest === null || distance < nearest.distance) nearest = { words, distance };
  }
  if (nearest === null) return null;
  return nearest.distance === 0
    ? `just clear of ${nearest.words}`
    : `clear of ${nearest.words} by ${onTape(nearest.distance, unit)}`;
}

function overOpening({ seam }: OpenSeam, { openings }: Elevation, region: Region, unit: Unit): string | null {
  const { axis, at, from, to } = seam;
  const shows = region.line(axis, at, { from, to }).reduce((sum, stretch) => sum + lengthOf(stretch), 0);
  if (shows >= MUCH_OPEN * (to - from)) return null;
  const crossed = openings.filter(({ outline }) => {
    const across = extentOn(axis, outline);
    return across.from < at && at < across.to && lengthOf(shared(extentOn(otherAxis(axis), outline), seam)) > 0;
  });
  const names = crossed.map(({ id }) => `'${id}'`).join(", ");
  const which = crossed.length === 0 ? "openings" : `${crossed.length === 1 ? "opening" : "openings"} ${names}`;
  return `it runs over ${which}, so that only ${onTape(shows, unit)} of it shows`;
}

/** Whether the seam, or the end of a window beside it, lies at a corner inside its section. */
function atCorner({ seam, section, before, after }: OpenSeam, { outline, openings }: Elevation): string | null {
  const { axis, at } = seam;
  const places = [at, rangeOn(axis, before.panel.window).to, rangeOn(axis, after.panel.window).from];
  const along = rangeOn(otherAxis(axis), section.box);
  const isThere = (point: Point): boolean => {
    const other = axis === "x" ? point.y : point.x;
    return along.from <= other && other <= along.to && places.includes(point[axis]);
  };
  const opening = openings.find((candidate) => candidate.outline.some(isThere));
  if (opening !== undefined) return `at the side of opening '${opening.id}', where panels change their length`;
  return outline.some(isThere) ? "at a corner of the outline, where panels change their length" : null;
}

function nothingWithinReach(
  { seam, before, after, widest }: OpenSeam,
  elevation: Elevation,
  unit: Unit,
): string | null {
  if (!Number.isFinite(widest)) return null;
  const { axis, overlap } = seam;
  const [low, high] = [rangeOn(axis, before.panel.window), rangeOn(axis, after.panel.window)];
  const half = Math.ceil(overlap / 2);
  const [from, to] = [high.to - widest + half, low.from + widest - half];
  const hiding = hidingPlaces(elevation, axis, seam.from, seam.to).filter((at) => from <= at && at <= to);
  if (hiding.length > 0) return null;
  return `nothing to hide it lies from ${onTape(from, unit)} to ${onTape(to, unit)}, where panels reach`;
}

const betweenPanels = ({ seam, before, after }: OpenSeam, unit: Unit): string =>
  `between panels of ${onTape(widthOf(seam.axis, before.panel), unit)} and ${onTape(widthOf(seam.axis, after.panel), unit)}`;

function extentOn(axis: Axis, outline: readonly Point[]): { from: Ticks; to: Ticks } {
  const places = outline.map((point) => point[axis]);
  return { from: Math.min(...places), to: Math.max(...places) };
}
