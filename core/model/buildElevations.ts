import type { ElevationEntry } from "../../shared/jobFile.ts";
import { type Box, boundingBox } from "../geometry/box.ts";
import { neededRegion } from "../geometry/region.ts";
import type {
  Bleed,
  Break,
  ColourEdge,
  Elevation,
  FillChoice,
  KeepClear,
  Obstacle,
  Opening,
  Rules,
  Section,
} from "./instance.ts";
import type { LengthReader } from "./lengthReader.ts";
import { type Mirrored, mirrorElevation } from "./mirrorElevation.ts";
import type { Place } from "./problemLog.ts";
import { readOutline } from "./readOutline.ts";
import { tilingFaults } from "./tiling.ts";

/**
 * All elevations of a job, in its order, with mirrors worked out.
 *
 * @returns what could be built; one with a problem, or that mirrors one with a problem, is left out
 *
 * Time: the outlines' self-crossing tests, and one needed region for each elevation that is no mirror.
 */
export function buildElevations(read: LengthReader, entries: readonly ElevationEntry[], rules: Rules): Elevation[] {
  const places = new Map<string, number>();
  entries.forEach(({ id }, index) => void (places.has(id) || places.set(id, index)));
  const built = new Map<number, Elevation | null>();
  const lists = entries.map((entry, index) => readLists(read, entry, ["elevations", index]));

  const build = (index: number, entry: ElevationEntry): Elevation | null => {
    const place = ["elevations", index];
    const own = lists[index] as Lists;
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
      return { ...common, film: entry.film, travel: entry.travel ?? "none", mirrorOf: null, ...shape, ...own };
    }
    const source = built.get(places.get(entry.mirrorOf) ?? -1) ?? null;
    if (source === null) return null;
    const mirrored: Mirrored = mirrorElevation(source, source.box);
    return {
      ...common,
      film: entry.film ?? source.film,
      mirrorOf: entry.mirrorOf,
      box: source.box,
      ...mirrored,
      travel: entry.travel ?? mirrored.travel,
      keepClear: own.keepClear.length > 0 ? own.keepClear : mirrored.keepClear,
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
  for (const key of ["openings", "sections", "fill", "bleed"] as const) {
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

interface Lists {
  readonly keepClear: readonly KeepClear[];
  readonly breaks: readonly Break[];
  readonly colourEdges: readonly ColourEdge[];
  readonly obstacles: readonly Obstacle[];
}

/** The lists that a mirror may have of its own. */
function readLists(read: LengthReader, entry: ElevationEntry, place: Place): Lists {
  for (const key of ["keepClear", "breaks", "colourEdges", "obstacles"] as const) {
    checkIds(
      read,
      [...place, key],
      (entry[key] ?? []).map(({ id }) => id),
    );
  }
  return {
    keepClear: (entry.keepClear ?? []).flatMap(({ id, label, box, rule, reason }, index) => {
      const read_ = read.box([...place, "keepClear", index, "box"], box);
      return read_ === null ? [] : [{ id, label: label || id, box: read_, rule, reason }];
    }),
    breaks: (entry.breaks ?? []).map((item, index) => {
      const here = [...place, "breaks", index];
      const { id, type, mustSplit } = item;
      return { id, ...readLine(read, here, item), type, width: read.length([...here, "width"], item.width), mustSplit };
    }),
    colourEdges: (entry.colourEdges ?? []).map((item, index) => ({
      id: item.id,
      ...readLine(read, [...place, "colourEdges", index], item),
    })),
    obstacles: (entry.obstacles ?? []).flatMap(({ id, kind, box, rule, clearance }, index) => {
      const here = [...place, "obstacles", index];
      const grown = read.length([...here, "clearance"], clearance);
      const read_ = read.box([...here, "box"], box, grown > 0);
      return read_ === null ? [] : [{ id, kind, box: read_, rule, clearance: grown }];
    }),
  };
}

type Line = Pick<ColourEdge, "axis" | "at" | "from" | "to">;

function readLine(read: LengthReader, place: Place, item: Line): Line {
  const at = read.length([...place, "at"], item.at);
  const [from, to] = [read.length([...place, "from"], item.from), read.length([...place, "to"], item.to)];
  if (from > to)
    read.log.problem(
      [...place, "from"],
      item.from,
      `The line runs backwards: from ${read.say(from)} is beyond to ${read.say(to)}.`,
      "Change from and to about.",
    );
  else if (from === to)
    read.log.warning(
      [...place, "from"],
      item.from,
      "The line has no length, so no seam can use it.",
      "Give from and to the ends of the line.",
    );
  return { axis: item.axis, at, from, to };
}

type Shape = Pick<Elevation, "outline" | "box" | "openings" | "sections" | "fill" | "bleed">;

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
  const sections = readSections(read, entry, [...place, "sections"], box);
  const fill = readFill(read, entry, [...place, "fill"]);
  const bleed = readBleed(read, entry, [...place, "bleed"], rules);
  if (outline === null || box === null || read.log.problems.length > problemsBefore) return null;
  warnOfOpenings(read, entry, place, outline, box, openings);
  return { outline, box, openings, sections, fill, bleed };
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

function readSections(read: LengthReader, entry: ElevationEntry, place: Place, frame: Box | null): Section[] {
  const entries = entry.sections ?? [];
  if (entries.length === 0)
    return frame === null ? [] : [{ id: "whole", box: frame, direction: "either", maxAcross: null }];
  checkIds(
    read,
    place,
    entries.map(({ id }) => id),
  );
  const sections = entries.map(({ id, box, direction, maxAcross }, index) => {
    const boxRead = read.box([...place, index, "box"], box);
    return boxRead === null
      ? null
      : { id, box: boxRead, direction, maxAcross: read.optionalSize([...place, index, "maxAcross"], maxAcross) };
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
  const side = (key: keyof Bleed): number => {
    if (given == null) return rules.bleed;
    if (typeof given === "number") return read.length(place, given);
    const value = given[key];
    return value === undefined ? rules.bleed : read.length([...place, key], value);
  };
  return {
    left: side("left"),
    right: side("right"),
    bottom: side("bottom"),
    top: side("top"),
    openings: side("openings"),
  };
}

/** Reports every id that stands in its list a second time. */
export function checkIds(read: LengthReader, place: Place, ids: readonly string[]): void {
  const seen = new Set<string>();
  ids.forEach((id, index) => {
    if (seen.has(id))
      read.log.problem(
        [...place, index, "id"],
        id,
        `The id "${id}" stands in this list twice.`,
        "Give each entry an id of its own.",
      );
    seen.add(id);
  });
}
