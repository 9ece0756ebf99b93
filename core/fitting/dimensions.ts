import type { Axis, Interval, Side } from "../geometry/box.ts";
import type { Region } from "../geometry/region.ts";
import type { Elevation, Instance } from "../model/instance.ts";
import type { Dimension, FoundSection, Panel, Seam } from "../model/plan.ts";
import type { Ticks } from "../units/ticks.ts";
import { breakOf, breaksOf, breakWords } from "./features.ts";
import { type PanelStretch, panelStretches } from "./panelStretches.ts";
import { boxOf, otherAxis, rangeOn, shared } from "./ranges.ts";
import { goesOnBeyond, neededParts, type SectionInUse, sectionsInUse } from "./sectionsInUse.ts";

/**
 * Which measures of the body a layout hangs on, and how much longer each may turn out at the vehicle before film falls
 * short or a seam stops lapping.
 *
 * @param regions what is needed of each elevation, by id
 * @param panels of all elevations; `seams` likewise; `found` the sections found, where there are any
 * @returns elevations in the job's order, their sections in theirs, fills last. In each section first, from the left or
 *   from below, the measures across its panels: from end to end, parted at bare gaps and at seams in gaps and mouldings,
 *   which lie where the body has them. Then one along its panels.
 * @throws Error naming the elevation whose region is missing
 *
 * The slack of a measure across is what its first and last film reach past its ends beyond the least they must, and what
 * the seams between share beyond the overlap left at a colour edge; of one along, the least of its panels'. A panel that
 * spans a bare gap gives nothing there, since it is bound to what it covers on the other side. Sloped edges are rounded
 * outward to a tick, so a slack is never too large. Time O(panels x seams) and one look at the region for each panel.
 */
export function dimensionsOf(
  instance: Instance,
  regions: ReadonlyMap<string, Region>,
  panels: readonly Panel[],
  seams: readonly Seam[],
  found: readonly FoundSection[] = [],
): Dimension[] {
  return instance.elevations.flatMap((elevation) => {
    const region = regions.get(elevation.id);
    if (region === undefined) throw new Error(`no region of elevation "${elevation.id}"`);
    const isOwn = (item: { readonly elevation: string }): boolean => item.elevation === elevation.id;
    const own = { panels: panels.filter(isOwn), seams: seams.filter(isOwn) };
    const sections = sectionsInUse(elevation, region, own.panels, own.seams, found.filter(isOwn));
    const measured = { instance, elevation, region, seams: own.seams, sections };
    return sections.flatMap((section) => [...measuresAcross(measured, section), ...measuresAlong(measured, section)]);
  });
}

interface Measured {
  readonly instance: Instance;
  readonly elevation: Elevation;
  readonly region: Region;
  readonly seams: readonly Seam[];
  readonly sections: readonly SectionInUse[];
}

/** A place on the body that stays where it is however the film is laid, and how far film must reach past it. */
interface FixedLine {
  readonly at: Ticks;
  readonly reach: Ticks;
  readonly name: string;
}

function measuresAcross(measured: Measured, section: SectionInUse): Dimension[] {
  const { elevation, region, seams } = measured;
  const { axis, box } = section;
  const parts = neededParts(region, box, axis);
  const stretches = panelStretches(section, seams, parts);
  const least = leastShared(measured, section.panels);
  return parts.flatMap((part, i): Dimension[] => {
    const [before, after] = [parts[i - 1], parts[i + 1]];
    const seamsHere = stretches.flatMap(({ seamAfter }) => (seamAfter?.kind === "break" ? [seamAfter] : []));
    const lines: FixedLine[] = [
      before === undefined
        ? endOf(measured, section, axis, "low", part.from)
        : gapSide(elevation, axis, before.to, part.from, part.from),
      ...seamsHere.filter(({ at }) => part.from < at && at < part.to).map((seam) => breakLine(elevation, seam)),
      after === undefined
        ? endOf(measured, section, axis, "high", part.to)
        : gapSide(elevation, axis, part.to, after.from, part.to),
    ];
    // A break at the very side of a bare gap asks what it asks anywhere.
    const reachOf = (line: FixedLine): FixedLine => {
      const seam = seamsHere.find(({ at }) => at === line.at);
      return seam === undefined ? line : { ...line, reach: Math.max(line.reach, breakLine(elevation, seam).reach) };
    };
    const fixed = lines.map(reachOf);
    return fixed.slice(1).map((to, k) => {
      const from = fixed[k] as FixedLine;
      const between = stretches.filter((stretch) => stretch.from < to.at && stretch.to > from.at);
      return {
        elevation: elevation.id,
        name: `${prefixOf(measured, section)}${from.name} to ${to.name}`,
        axis,
        from: from.at,
        to: to.at,
        slack: slackBetween(from, to, axis, between, least),
      };
    });
  });
}

function slackBetween(
  from: FixedLine,
  to: FixedLine,
  axis: Axis,
  between: readonly PanelStretch[],
  least: Ticks,
): Ticks {
  const [first, last] = [between[0], between.at(-1)];
  if (first === undefined || last === undefined) return 0;
  // A seam at the very side of a bare gap holds its two panels together as well as the body does.
  const tied = (seam: Seam | null, at: Ticks, line: FixedLine): Ticks =>
    seam === null || at !== line.at || seam.kind === "break" ? Infinity : seam.overlap - least;
  const low =
    first.from < from.at
      ? 0
      : Math.min(
          from.at - rangeOn(axis, first.panel.window).from - from.reach,
          tied(first.seamBefore, first.from, from),
        );
  const high =
    last.to > to.at
      ? 0
      : Math.min(rangeOn(axis, last.panel.window).to - to.at - to.reach, tied(last.seamAfter, last.to, to));
  const seams = between.slice(0, -1).reduce((sum, { seamAfter }) => sum + (seamAfter?.overlap ?? least) - least, 0);
  // Where films that lap and films that do not meet one side, what the side asks may be more than a window there reaches.
  return Math.max(0, low + high + seams);
}

function measuresAlong(measured: Measured, section: SectionInUse): Dimension[] {
  const { elevation, region } = measured;
  const { box, axis, panels } = section;
  const along = otherAxis(axis);
  const whole = region.extent(box);
  if (whole === null) return [];
  const [lowSide, highSide] = sidesOn(along);
  const borders = sidesOn(along).filter((side) => goesOnBeyond(region, box, side));
  const reach = new Map(borders.map((side) => [side, borderReach(measured, section, side)]));
  const slacks = panels.flatMap(({ window }) => {
    const strip = shared(rangeOn(axis, window), rangeOn(axis, box));
    const needed = region.extent(boxOf(axis, strip, rangeOn(along, box)));
    if (needed === null) return [];
    const [film, covered] = [rangeOn(along, window), rangeOn(along, needed)];
    const due = (side: Side) => (goesOnBeyond(region, box, side, strip) ? (reach.get(side) ?? 0) : 0);
    return [film.to - covered.to - due(highSide) + (covered.from - film.from - due(lowSide))];
  });
  if (slacks.length === 0) return [];
  const size = along === "y" ? "height" : "length";
  const isOnly = measured.sections.length === 1;
  return [
    {
      elevation: elevation.id,
      name: isOnly ? `whole ${size}` : `${size} of ${sectionName(section)}`,
      axis: along,
      ...rangeOn(along, whole),
      slack: Math.max(0, Math.min(...slacks)),
    },
  ];
}

/** What films must go on sharing where these panels meet: nothing where all of them meet edge to edge. */
function leastShared({ instance: { films, rules } }: Measured, panels: readonly Panel[]): Ticks {
  const isButted = panels.every(({ film }) => films.find(({ id }) => id === film)?.joint === "butted");
  return isButted ? 0 : rules.colourEdgeOverlap;
}

const sidesOn = (axis: Axis): readonly [Side, Side] => (axis === "x" ? ["left", "right"] : ["bottom", "top"]);

/** An end of a section: its outermost needed place, or its edge where film goes on beyond. */
function endOf(measured: Measured, section: SectionInUse, axis: Axis, end: "low" | "high", needed: Ticks): FixedLine {
  const side = sidesOn(axis)[end === "low" ? 0 : 1];
  const isBorder = goesOnBeyond(measured.region, section.box, side);
  const edge = rangeOn(axis, section.box)[end === "low" ? "from" : "to"];
  const words = { left: "left end", right: "right end", bottom: "bottom edge", top: "top edge" }[side];
  return isBorder
    ? {
        at: edge,
        reach: borderReach(measured, section, side),
        name: neighbourName(measured, section, side),
      }
    : { at: needed, reach: 0, name: words };
}

/** What film must at least reach past a border of a section on one side. */
function borderReach(measured: Measured, section: SectionInUse, side: Side): Ticks {
  const panels = [section, ...neighboursOf(measured, section, side)].flatMap((one) => one.panels);
  return Math.ceil(leastShared(measured, panels) / 2);
}

/** The sections that meet one side of a section over some length. */
function neighboursOf({ sections }: Measured, section: SectionInUse, side: Side): SectionInUse[] {
  const axis = side === "left" || side === "right" ? "x" : "y";
  const [own, other] = side === "left" || side === "bottom" ? (["from", "to"] as const) : (["to", "from"] as const);
  const across = (box: SectionInUse["box"]): Interval => rangeOn(otherAxis(axis), box);
  return sections.filter(({ box }) => {
    const { from, to } = shared(across(box), across(section.box));
    return rangeOn(axis, box)[other] === rangeOn(axis, section.box)[own] && from < to;
  });
}

/** What lies beyond a border: "section 'lower'", or the side where several do. */
function neighbourName(measured: Measured, section: SectionInUse, side: Side): string {
  const met = neighboursOf(measured, section, side);
  const [only] = met;
  return only !== undefined && met.length === 1 ? sectionName(only) : `${side} border`;
}

/** One side of a stretch of a section in which nothing is needed, from low to high. */
function gapSide({ openings }: Elevation, axis: Axis, low: Ticks, high: Ticks, at: Ticks): FixedLine {
  const there = openings.find(({ outline }) => {
    const places = outline.map((point) => point[axis]);
    return Math.min(...places) < high && Math.max(...places) > low;
  });
  return { at, reach: 0, name: there === undefined ? "bare stretch" : `opening '${there.id}'` };
}

function breakLine(elevation: Elevation, seam: Seam): FixedLine {
  const widest = Math.max(0, ...breaksOf(elevation, seam).map(({ width }) => width));
  const line = breakOf(elevation, seam);
  return {
    at: seam.at,
    reach: Math.ceil(widest / 2),
    name: line === null ? "break" : `${breakWords[line.type]} '${line.id}'`,
  };
}

const prefixOf = ({ sections }: Measured, section: SectionInUse): string =>
  sections.length === 1 ? "" : `${sectionName(section)}: `;

const sectionName = ({ id, role }: SectionInUse): string =>
  role === "fill" ? `${id.slice("fill-".length)} fill` : `section '${id}'`;
