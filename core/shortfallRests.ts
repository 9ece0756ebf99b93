import type { Side } from "./geometry/box.ts";
import { neededRegion } from "./geometry/region.ts";
import type { Direction, Elevation, Instance, Section } from "./model/instance.ts";
import { groupMembers } from "./panelling/members.ts";
import { sidesOf, splitAxis } from "./panelling/orientation.ts";
import { halfOverlap } from "./panelling/seamRules.ts";
import { bordersBetween, effectiveSections } from "./panelling/sections.ts";
import { type Part, seamGrid, sectionTask } from "./panelling/sectionTask.ts";
import type { Ticks } from "./units/ticks.ts";

/** Full panels side by side in one section, and what they leave bare. */
export interface Rest {
  /** Full panels: at least one, and one fewer than cover the section. */
  readonly panels: number;
  /** Needed artwork with its bleed that they leave bare beyond the last of them. */
  readonly short: Ticks;
  /** Along the edges of the elevation that the section lies at: strips just deep enough to spare the last panel. */
  readonly edges: readonly Strip[];
}

/** A strip along one edge of an elevation's box, this deep. */
export interface Strip {
  readonly edge: Side;
  readonly depth: Ticks;
}

/**
 * What full panels of one width leave of a section that is covered side by side from one end.
 *
 * @param elevation whose sections lie as given, without fills
 * @param across ticks that one panel carries at most
 * @returns null when nothing is needed in the section, when one panel covers it, or when panels can't get ahead
 *
 * Panels share the least overlap of an open seam; where nothing is needed over the section's whole height, the next begins
 * beyond the gap. Time: that of finding the section's borders.
 */
export function restOf(
  instance: Instance,
  elevation: Elevation,
  section: Section,
  direction: Direction,
  across: Ticks,
): Rest | null {
  const { rules, films, unit } = instance;
  const index = elevation.sections.indexOf(section);
  const sections = effectiveSections(elevation, []);
  const own = sections?.[index];
  if (sections === null || own === undefined) return null;
  const region = neededRegion(
    elevation.outline,
    elevation.openings.map(({ outline }) => outline),
  );
  const members = groupMembers(instance, elevation, []);
  const borders = bordersBetween(sections, region, members, rules);
  const axis = splitAxis(direction);
  const grid = seamGrid(unit);
  const given = { section: own, axis, region, members, rules, grid, maxAcross: across, maxAlong: Infinity };
  const parts = sectionTask(given, index, borders, elevation.bleed)?.parts ?? [];
  const butted = films.find(({ id }) => id === elevation.film)?.joint === "butted";
  const half = halfOverlap(butted ? 0 : rules.overlap);
  const row = fullPanels(parts, across, half);
  if (row === null || row.panels === 0) return null;
  const [low, high] = sidesOf(axis).u;
  const { box } = elevation;
  // A fill may be of film that laps where the panels' own is butted.
  const lapped = halfOverlap(rules.overlap);
  const depth = (reached: Ticks, edge: Ticks) => Math.ceil((edge + lapped - reached) / grid) * grid;
  const [from, to] = axis === "x" ? [box.x0, box.x1] : [box.y0, box.y1];
  const [start, end] = axis === "x" ? [section.box.x0, section.box.x1] : [section.box.y0, section.box.y1];
  const back = fullPanels(turnedRound(parts), across, half);
  return {
    panels: row.panels,
    short: row.short,
    edges: [
      ...(start === from && back !== null ? [{ edge: low, depth: depth(back.reached, -from) }] : []),
      ...(end === to ? [{ edge: high, depth: depth(row.reached, to) }] : []),
    ].filter((strip) => strip.depth > 0),
  };
}

interface Row {
  readonly panels: number;
  readonly short: Ticks;
  /** Where the last full panel ends. */
  readonly reached: Ticks;
}

/** Full panels from the low end on, all but the one that would come to the high end; null when they can't get ahead. */
function fullPanels(parts: readonly Part[], across: Ticks, half: Ticks): Row | null {
  const last = parts.at(-1);
  if (last === undefined || across <= 2 * half) return null;
  let [panels, reached] = [0, -Infinity];
  for (;;) {
    const part = parts.find(({ hi }) => hi > reached) as Part;
    const seam = reached > part.lo;
    const ends = (seam ? reached - 2 * half : part.lo) + across;
    if (ends >= last.hi) return { panels, short: last.hi - (seam ? reached : part.lo), reached };
    reached = ends;
    panels++;
  }
}

const turnedRound = (parts: readonly Part[]): Part[] =>
  parts.map(({ from, to, lo, hi }) => ({ from: 0 - to, to: 0 - from, lo: 0 - hi, hi: 0 - lo })).reverse();
