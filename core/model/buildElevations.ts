import type { ElevationEntry } from "../../shared/jobFile.ts";
import { type Box, boundingBox } from "../geometry/box.ts";
import { neededRegion } from "../geometry/region.ts";
import type { Ticks } from "../units/ticks.ts";
import { checkIds } from "./checkIds.ts";
import type { Bleed, Elevation, FillChoice, Heads, Opening, Rules, Section } from "./instance.ts";
import type { LengthReader } from "./lengthReader.ts";
import { type Mirrored, mirrorElevation } from "./mirrorElevation.ts";
import type { Place } from "./problemLog.ts";
import { type Features, readFeatures } from "./readFeatures.ts";
import { readHolds } from "./readHolds.ts";
import { readOutline } from "./readOutline.ts";
import { readSeamMap } from "./readSeamMap.ts";
import { tilingFaults } from "./tiling.ts";

/**
 * All elevations of a job, in its order, with mirrors worked out.
 *
 * @returns what could be built; one with a problem, or that mirrors one with a problem, is left out
 *
 * Time: the outlines' self-crossing tests, and one needed region for each elevation that is no mirror.
 */
export function buildElevations(
  read: LengthReader,
  entries: readonly ElevationEntry[],
  rules: Rules,
  clearances: ReadonlyMap<string, Ticks>,
): Elevation[] {
  const places = new Map<string, number>();
  entries.forEach(({ id }, index) => void (places.has(id) || places.set(id, index)));
  const built = new Map<number, Elevation | null>();
  const features = entries.map((entry, index) => readFeatures(read, entry, ["elevations", index], clearances));

  const build = (index: number, entry: ElevationEntry): Elevation | null => {
    const place = ["elevations", index];
    const own = features[index] as Features;
    const common = { id: entry.id, name: entry.name || entry.id, count: entry.count, subject: entry.subject ?? null };
    if (entry.mirrorOf == null) {
      const shape = buildShape(read, entry, place, rules);
      if (entry.film == null) {
        read.log.problem(
          [...place, "film"],
          null,
          `Elevation "${entry.id}" names no film.`,
          "Give the id of the film it is covered with.",
        );
      }
      if (shape === null || entry.film == null) return null;
      return {
        ...common,
        film: entry.film,
        travel: entry.travel ?? "none",
        mirrorOf: null,
        mirror: "exact",
        ...shape,
        ...own,
        straight: straightOf(read, entry, place, own.keepClear),
        seamMap: readSeamMap(read, entry.seamMap ?? null, [...place, "seamMap"]),
        holds: readHolds(read, entry, place, shape.sections),
      };
    }
    const source = built.get(places.get(entry.mirrorOf) ?? -1) ?? null;
    if (source === null) return null;
    const mirrored: Mirrored = mirrorElevation(source, source.box);
    const holds = readHolds(read, entry, place, mirrored.sections);
    const keepClear = own.keepClear.length > 0 ? own.keepClear : mirrored.keepClear;
    return {
      ...common,
      film: entry.film ?? source.film,
      mirrorOf: entry.mirrorOf,
      mirror: entry.mirror,
      box: source.box,
      findSections: source.findSections,
      heads: source.heads,
      ground: source.ground,
      ...mirrored,
      straight: entry.straight == null ? source.straight : straightOf(read, entry, place, keepClear),
      seamMap: readSeamMap(read, entry.seamMap ?? null, [...place, "seamMap"]) ?? mirrored.seamMap,
      // What follows another has only what was settled for itself; what repeats it shares its windows and so its holds.
      holds: holds.length > 0 || entry.mirror === "follow" ? holds : mirrored.holds,
      travel: entry.travel ?? mirrored.travel,
      keepClear,
      breaks: own.breaks.length > 0 ? own.breaks : mirrored.breaks,
      colourEdges: own.colourEdges.length > 0 ? own.colourEdges : mirrored.colourEdges,
      obstacles: own.obstacles.length > 0 ? own.obstacles : mirrored.obstacles,
    };
  };

  // A source is built before what mirrors it: each chain is followed to its end, then worked off backwards.
  const cyclesTold = new Set<number>();
  entries.forEach((start, startIndex) => {
    const chain: number[] = [];
    let [index, entry]: [number, ElevationEntry | undefined] = [startIndex, start];
    while (entry !== undefined && !built.has(index)) {
      if (chain.includes(index)) {
        if (!cyclesTold.has(index)) reportCycle(read, entries, chain.slice(chain.indexOf(index)));
        for (const member of chain) cyclesTold.add(member);
        break;
      }
      chain.push(index);
      checkMirror(read, entry, ["elevations", index], places);
      if (entry.mirrorOf == null) break;
      index = places.get(entry.mirrorOf) ?? -1;
      entry = entries[index];
    }
    for (const member of chain.reverse()) {
      built.set(member, cyclesTold.has(member) ? null : build(member, entries[member] as ElevationEntry));
    }
  });
  return entries.flatMap((_, index) => built.get(index) ?? []);
}

function reportCycle(read: LengthReader, entries: readonly ElevationEntry[], members: readonly number[]): void {
  const ids = members.map((member) => entries[member]?.id);
  const place = ["elevations", members[0] ?? 0, "mirrorOf"];
  const why =
    ids.length === 1
      ? `Elevation "${ids[0]}" mirrors itself.`
      : `Elevations mirror one another in a circle: ${[...ids, ids[0]].join(", ")}.`;
  read.log.problem(
    place,
    entries[members[0] ?? 0]?.mirrorOf,
    why,
    "Give one of them an outline of its own and take its mirrorOf away.",
  );
}

function checkMirror(
  read: LengthReader,
  entry: ElevationEntry,
  place: Place,
  places: ReadonlyMap<string, number>,
): void {
  if (entry.mirrorOf == null) return;
  if (!places.has(entry.mirrorOf)) {
    read.log.problem(
      [...place, "mirrorOf"],
      entry.mirrorOf,
      `Elevation "${entry.id}" mirrors "${entry.mirrorOf}", which is not in the job.`,
      "Name an elevation of this job.",
    );
  }
  if (entry.outline != null) {
    read.log.problem(
      [...place, "outline"],
      entry.outline,
      `Elevation "${entry.id}" mirrors another and has an outline too.`,
      "Take away the outline, or mirrorOf.",
    );
  }
  for (const key of ["openings", "sections", "fill", "bleed", "heads", "ground"] as const) {
    const value = entry[key];
    if (value == null || (Array.isArray(value) && value.length === 0)) continue;
    read.log.warning(
      [...place, key],
      value,
      `"${key}" of elevation "${entry.id}" has no effect: it is taken over from "${entry.mirrorOf}".`,
      `Remove it, or give "${entry.id}" an outline instead of mirrorOf.`,
    );
  }
}

/** The zone named as the one to be straight, or the largest lettering or logo; null without any. */
function straightOf(
  read: LengthReader,
  entry: ElevationEntry,
  place: Place,
  keepClear: Elevation["keepClear"],
): string | null {
  if (entry.straight != null) {
    if (keepClear.some(({ id }) => id === entry.straight)) return entry.straight;
    read.log.problem(
      [...place, "straight"],
      entry.straight,
      `Elevation "${entry.id}" has no keep-clear zone "${entry.straight}" to be put up straight.`,
      "Name one of its keep-clear zones, or none.",
    );
    return null;
  }
  const area = ({ box }: { readonly box: Box }) => (box.x1 - box.x0) * (box.y1 - box.y0);
  const marked = keepClear.filter(({ reason }) => reason === "lettering" || reason === "logo");
  return (
    marked.reduce<(typeof marked)[number] | null>(
      (most, zone) => (most === null || area(zone) > area(most) ? zone : most),
      null,
    )?.id ?? null
  );
}

type Shape = Pick<
  Elevation,
  "outline" | "box" | "openings" | "sections" | "fill" | "bleed" | "findSections" | "heads" | "ground"
>;

/** The parts that belong to an elevation with an outline of its own. */
function buildShape(read: LengthReader, entry: ElevationEntry, place: Place, rules: Rules): Shape | null {
  const problemsBefore = read.log.problems.length;
  if (entry.outline == null) {
    read.log.problem(
      [...place, "outline"],
      null,
      `Elevation "${entry.id}" has no outline and mirrors no other.`,
      "Give its outline as a list of points [x, y], or mirrorOf.",
    );
  }
  const outline =
    entry.outline == null
      ? null
      : readOutline(read, [...place, "outline"], entry.outline, `The outline of "${entry.id}"`);
  const openings = readOpenings(read, entry, [...place, "openings"]);
  const box = outline === null ? null : boundingBox(outline);
  const heads = entry.heads ?? "same";
  const sections = readSections(read, entry, [...place, "sections"], box, heads);
  const fill = readFill(read, entry, [...place, "fill"]);
  const bleed = readBleed(read, entry, [...place, "bleed"], rules);
  if (outline === null || box === null || read.log.problems.length > problemsBefore) return null;
  warnOfOpenings(read, entry, place, outline, box, openings);
  const ground = entry.ground == null ? box.y0 : read.length([...place, "ground"], entry.ground);
  return { outline, box, openings, sections, fill, bleed, findSections: entry.findSections, heads, ground };
}

function readOpenings(read: LengthReader, entry: ElevationEntry, place: Place): Opening[] {
  const entries = entry.openings ?? [];
  checkIds(
    read,
    place,
    entries.map(({ id }) => id),
  );
  return entries.flatMap(({ id, outline }, index) => {
    const polygon = readOutline(read, [...place, index, "outline"], outline, `Opening "${id}"`);
    return polygon === null ? [] : [{ id, outline: polygon }];
  });
}

function warnOfOpenings(
  read: LengthReader,
  entry: ElevationEntry,
  place: Place,
  outline: Elevation["outline"],
  box: Box,
  openings: readonly Opening[],
): void {
  openings.forEach((opening, index) => {
    const { x0, y0, x1, y1 } = boundingBox(opening.outline);
    if (x1 > box.x0 && x0 < box.x1 && y1 > box.y0 && y0 < box.y1) return;
    read.log.warning(
      [...place, "openings", index, "outline"],
      entry.openings?.[index]?.outline,
      `Opening "${opening.id}" lies outside elevation "${entry.id}" and takes nothing away.`,
      "Move it onto the elevation, or remove it.",
    );
  });
  if (
    openings.length > 0 &&
    neededRegion(
      outline,
      openings.map((opening) => opening.outline),
    ).extent(box) === null
  ) {
    read.log.warning(
      [...place, "openings"],
      entry.openings,
      `The openings leave nothing of elevation "${entry.id}" to be covered.`,
      "Make them smaller, or remove the elevation.",
    );
  }
}

const mostTilingProblems = 20;

function readSections(
  read: LengthReader,
  entry: ElevationEntry,
  place: Place,
  frame: Box | null,
  common: Heads,
): Section[] {
  const entries = entry.sections ?? [];
  if (entries.length === 0)
    return frame === null ? [] : [{ id: "whole", box: frame, direction: "either", maxAcross: null, heads: common }];
  checkIds(
    read,
    place,
    entries.map(({ id }) => id),
  );
  const sections = entries.map(({ id, box, direction, maxAcross, heads }, index) => {
    const boxRead = read.box([...place, index, "box"], box);
    const widest = read.optionalSize([...place, index, "maxAcross"], maxAcross);
    return boxRead === null ? null : { id, box: boxRead, direction, maxAcross: widest, heads: heads ?? common };
  });
  const good = sections.filter((section) => section !== null);
  if (frame === null || good.length < sections.length) return good;
  const faults = tilingFaults(
    good.map(({ box }) => box),
    frame,
  );
  const size = `[${[frame.x0, frame.y0, frame.x1, frame.y1].map((side) => read.say(side)).join(", ")}]`;
  for (const fault of faults.slice(0, mostTilingProblems)) {
    if (fault.kind === "hole") {
      read.log.problem(
        place,
        entry.sections,
        `The sections of "${entry.id}" leave a hole at ${read.say(fault.x)}, ${read.say(fault.y)}.`,
        `Let them cover the outline's box ${size} without holes.`,
      );
      continue;
    }
    const [id, value, here] = [good[fault.box]?.id, entries[fault.box]?.box, [...place, fault.box, "box"]];
    if (fault.kind === "outside")
      read.log.problem(
        here,
        value,
        `Section "${id}" reaches outside the outline's box ${size}.`,
        "Keep it inside that box.",
      );
    else
      read.log.problem(
        here,
        value,
        `Section "${id}" overlaps section "${good[fault.other]?.id}".`,
        "Let the two meet at an edge.",
      );
  }
  return good;
}

function readFill(read: LengthReader, entry: ElevationEntry, place: Place): FillChoice[] {
  const edges = new Set<string>();
  return (entry.fill ?? []).map(({ edge, maxDepth, film }, index) => {
    if (edges.has(edge))
      read.log.problem(
        [...place, index, "edge"],
        edge,
        `The ${edge} edge of "${entry.id}" has two fills.`,
        "Keep one of them.",
      );
    edges.add(edge);
    return { edge, maxDepth: read.size([...place, index, "maxDepth"], maxDepth), film };
  });
}

function readBleed(read: LengthReader, entry: ElevationEntry, place: Place, rules: Rules): Bleed {
  const given = entry.bleed;
  const own = (key: keyof Bleed): number => {
    if (given == null) return rules.bleed;
    if (typeof given === "number") return read.length(place, given);
    const value = given[key];
    return value === undefined ? rules.bleed : read.length([...place, key], value);
  };
  const side = (key: keyof Bleed): number => Math.max(own(key), rules.leastSlack);
  return {
    left: side("left"),
    right: side("right"),
    bottom: side("bottom"),
    top: side("top"),
    openings: side("openings"),
  };
}
