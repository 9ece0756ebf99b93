import { mirrorX } from "../geometry/box.ts";
import type { Region } from "../geometry/region.ts";
import type { Elevation, Instance } from "../model/instance.ts";
import type { FoundSection, Panel, Seam } from "../model/plan.ts";
import { printableWidth } from "../model/printableWidth.ts";
import type { Ticks } from "../units/ticks.ts";
import { breakOf, breakWords, colourEdgeOf, isDemanded, seamHold, zonesOf } from "./features.ts";
import { mirrorFrames, reflectedSection } from "./mirrorFrames.ts";
import { type OpenSeam, openPlace } from "./openPlace.ts";
import { panelStretches } from "./panelStretches.ts";
import { rangeOn, shared } from "./ranges.ts";
import { axisOfSide, neededParts, type SectionInUse, sectionsInUse } from "./sectionsInUse.ts";
import { onTape } from "./tape.ts";

/**
 * Why each seam of a layout lies where it does, a sentence each: what hides it, who put it there, or, where it is open,
 * what keeps it from lying elsewhere.
 *
 * @param regions what is needed of each elevation, by id
 * @param panels of all elevations; `seams` likewise; `found` the sections found, where there are any
 * @param widthByFilm full roll width by film id on which its panels lie, ticks
 * @returns one sentence for each seam in their order, without its full stop
 * @throws Error naming an elevation that the job or `regions` lacks
 *
 * Each sentence is true of the plan and the job as they are; it does not ask how the seam was found. Lengths as read off a
 * tape. Time O(seams squared) within a mirror group, for open seams alone.
 */
export function seamReasons(
  instance: Instance,
  regions: ReadonlyMap<string, Region>,
  panels: readonly Panel[],
  seams: readonly Seam[],
  widthByFilm: ReadonlyMap<string, Ticks>,
  found: readonly FoundSection[] = [],
): string[] {
  const reasons = new Reasons(instance, regions, panels, seams, widthByFilm, found);
  return seams.map((seam) => reasons.of(seam));
}

interface ElevationParts {
  readonly elevation: Elevation;
  readonly region: Region;
  readonly seams: readonly Seam[];
  readonly sections: readonly SectionInUse[];
  readonly found: readonly FoundSection[];
  /** By seam id: the seam with the panels on both sides of it. */
  readonly open: ReadonlyMap<string, OpenSeam>;
}

class Reasons {
  private readonly instance: Instance;
  private readonly regions: ReadonlyMap<string, Region>;
  private readonly panels: readonly Panel[];
  private readonly seams: readonly Seam[];
  private readonly widthByFilm: ReadonlyMap<string, Ticks>;
  private readonly found: readonly FoundSection[];
  private readonly frames: ReturnType<typeof mirrorFrames>;
  private readonly known = new Map<string, ElevationParts>();

  constructor(
    instance: Instance,
    regions: ReadonlyMap<string, Region>,
    panels: readonly Panel[],
    seams: readonly Seam[],
    widthByFilm: ReadonlyMap<string, Ticks>,
    found: readonly FoundSection[],
  ) {
    this.instance = instance;
    this.regions = regions;
    this.panels = panels;
    this.seams = seams;
    this.widthByFilm = widthByFilm;
    this.found = found;
    this.frames = mirrorFrames(instance.elevations);
  }

  of(seam: Seam): string {
    const parts = this.partsOf(seam.elevation);
    const { elevation } = parts;
    const said = seam.border
      ? `${borderWords(parts, seam, this.instance)}${hidingWords(elevation, seam, ", ")}`
      : seam.kind === "open"
        ? this.openWords(parts, seam)
        : hidingWords(elevation, seam, "");
    const also: string[] = [];
    if (isDemanded(elevation, seam)) also.push("the job asks for a seam here");
    const hold = seam.kind === "open" && !seam.border ? null : seamHold(elevation, seam);
    if (hold !== null) also.push(`held here by '${hold.id}'`);
    const crossed = crossedZones(elevation, seam);
    if (crossed.length > 0) also.push(`crosses ${crossed.join(" and ")}, which it should avoid`);
    const sentence = [said, ...also].join("; ");
    return sentence.charAt(0).toUpperCase() + sentence.slice(1);
  }

  private openWords(parts: ElevationParts, seam: Seam): string {
    const { elevation } = parts;
    const hold = seamHold(elevation, seam);
    if (hold !== null) return `open: held here by '${hold.id}'`;
    const twin = this.hiddenTwin(elevation, seam);
    if (twin !== null) {
      const [name, words] = twin;
      return `open here, as it repeats '${name}', where it lies ${words}`;
    }
    const followed = this.followed(elevation, seam);
    if (followed !== null) return `open: at the same place as on '${followed}'`;
    const open = parts.open.get(seam.id);
    return open === undefined ? "open" : `open: ${openPlace(open, elevation, parts.region, this.instance)}`;
  }

  /** Where an elevation with the very same windows hides this seam: its name, and what hides it there. */
  private hiddenTwin(elevation: Elevation, seam: Seam): readonly [string, string] | null {
    for (const other of this.instance.elevations) {
      if (other === elevation || this.frame(other).source !== this.frame(elevation).source) continue;
      const isFlipped = this.frame(other).flipped !== this.frame(elevation).flipped;
      const there = this.partsOf(other.id).seams.find(
        (candidate) => candidate.kind !== "open" && isImage(seam, candidate, elevation, isFlipped),
      );
      if (there !== undefined) return [other.name, hidingWords(other, there, "")];
    }
    return null;
  }

  /** The name of the elevation that this one follows, if that has a seam at the reflected place. */
  private followed(elevation: Elevation, seam: Seam): string | null {
    if (elevation.mirror !== "follow" || elevation.mirrorOf === null) return null;
    const leader = this.instance.elevations.find(({ id }) => id === elevation.mirrorOf);
    if (leader === undefined) return null;
    const isThere = this.partsOf(leader.id).seams.some((candidate) => isImage(seam, candidate, elevation, true));
    return isThere ? leader.name : null;
  }

  private frame({ id }: Elevation): { readonly source: string; readonly flipped: boolean } {
    return this.frames.get(id) ?? { source: id, flipped: false };
  }

  private partsOf(id: string): ElevationParts {
    const known = this.known.get(id);
    if (known !== undefined) return known;
    const elevation = this.instance.elevations.find((candidate) => candidate.id === id);
    const region = this.regions.get(id);
    if (elevation === undefined || region === undefined) throw new Error(`no elevation or region "${id}"`);
    const isOwn = (item: { readonly elevation: string }): boolean => item.elevation === id;
    const [seams, found] = [this.seams.filter(isOwn), this.found.filter(isOwn)];
    const sections = sectionsInUse(elevation, region, this.panels.filter(isOwn), seams, found);
    const open = new Map(sections.flatMap((section) => this.seamsWithin(elevation, section, seams, region)));
    const parts = { elevation, region, seams, sections, found, open };
    this.known.set(id, parts);
    return parts;
  }

  private seamsWithin(
    elevation: Elevation,
    section: SectionInUse,
    seams: readonly Seam[],
    region: Region,
  ): [string, OpenSeam][] {
    const stretches = panelStretches(section, seams, neededParts(region, section.box, section.axis));
    const widest = this.widestIn(elevation, section);
    return stretches.flatMap((before, i): [string, OpenSeam][] => {
      const [seam, after] = [before.seamAfter, stretches[i + 1]];
      if (seam === null || after === undefined) return [];
      return [[seam.id, { seam, section, before, after, ...widest }]];
    });
  }

  /** The widest panel that a section takes, and whether the section itself says so and not the film. */
  private widestIn(
    { sections }: Elevation,
    { id, role, box, panels }: SectionInUse,
  ): { widest: Ticks; isOfSection: boolean } {
    const film = this.instance.films.find((candidate) => candidate.id === panels[0]?.film);
    const width = film && this.widthByFilm.get(film.id);
    const printable = film === undefined || width === undefined ? Infinity : printableWidth(film, width);
    // A section found is as narrow as the narrowest given one that it overlaps; a given one overlaps itself alone.
    const limits = sections
      .filter((given) => given.id === id || insidesMeet(given.box, box))
      .map(({ maxAcross }) => maxAcross ?? Infinity);
    const own = role === "fill" ? Infinity : Math.min(Infinity, ...limits);
    return { widest: Math.min(printable, own), isOfSection: own < printable };
  }
}

const insidesMeet = (a: SectionInUse["box"], b: SectionInUse["box"]): boolean =>
  a.x0 < b.x1 && b.x0 < a.x1 && a.y0 < b.y1 && b.y0 < a.y1;

/** Whether a seam of another elevation lies at the image of this one. Both elevations have the same box. */
function isImage(seam: Seam, other: Seam, { box }: Elevation, isFlipped: boolean): boolean {
  if (seam.axis !== other.axis || seam.border !== other.border) return false;
  const section = isFlipped && other.section !== null ? reflectedSection(other.section) : other.section;
  const at = isFlipped && other.axis === "x" ? mirrorX(other.at, box) : other.at;
  return section === seam.section && at === seam.at;
}

/** What hides a seam, after `joint`: "in gap 'door-1', where both films are trimmed"; "" where nothing does. */
function hidingWords(elevation: Elevation, seam: Seam, joint: string): string {
  const line = breakOf(elevation, seam);
  if (line !== null) {
    const name = `${breakWords[line.type]} '${line.id}'`;
    if (line.type === "bodyLine") return `${joint}on ${name}, which hides it`;
    return line.type === "gap"
      ? `${joint}in ${name}, where both films are trimmed`
      : `${joint}at ${name}, where both films end`;
  }
  const edge = colourEdgeOf(elevation, seam);
  if (edge === null) return "";
  return `${joint}${edge.path === null ? "along" : "over"} colour edge '${edge.id}', which hides it`;
}

/** Whose border a seam is: "border of sections 'lower' and 'upper' as given". */
function borderWords({ elevation, found }: ElevationParts, { between, at, axis }: Seam, { unit }: Instance): string {
  const fill = elevation.fill.find(({ edge }) => axisOfSide(edge) === axis && between.includes(`fill-${edge}`));
  if (fill !== undefined) {
    const { from, to } = rangeOn(axis, elevation.box);
    const depth = fill.edge === "left" || fill.edge === "bottom" ? at - from : to - at;
    return `inner edge of the ${fill.edge} fill, ${onTape(depth, unit)} deep`;
  }
  const names = `sections '${between[0]}' and '${between[1]}'`;
  return found.length > 0 ? `border of the ${names} found` : `border of ${names} as given`;
}

/** Avoided zones that a seam runs through: a break by its line, any other by half its overlap on both sides of it. */
function crossedZones(elevation: Elevation, { axis, at, from, to, kind, overlap }: Seam): string[] {
  const half = kind === "break" ? 0 : overlap / 2;
  return zonesOf(elevation)
    .filter(({ box, rule }) => {
      const along = shared(rangeOn(axis === "x" ? "y" : "x", box), { from, to });
      const across = rangeOn(axis, box);
      return rule === "avoid" && along.from < along.to && across.from < at + half && at - half < across.to;
    })
    .map(({ words }) => words);
}
