import type { FilmEntry, JobFile, RulesEntry } from "../../shared/jobFile.ts";
import type { Ticks } from "../units/ticks.ts";
import type { Film, HeightZone, Rules, StockEntry } from "./instance.ts";
import type { LengthReader } from "./lengthReader.ts";

/** Panels narrower than this are avoided when the job doesn't say: 6 in (common practice, no source). */
const sliverDefault = 6 * 1_016_000;
/** A seam in the busiest artwork counts five times one in plain colour when the job doesn't say: our own choice. */
const artworkDefault = 4;

/**
 * The job's rules in ticks.
 *
 * Reports overlaps that are not in their order: trimmed at a break >= plain >= finished at a colour edge.
 */
export function buildRules(read: LengthReader, entry: RulesEntry): Rules {
  const at = (key: "bleed" | "overlap" | "colourEdgeOverlap" | "trimOverlap" | "cutGap" | "leader" | "trailer") =>
    read.length(["rules", key], entry[key]);
  const leastSlack = entry.leastSlack == null ? 0 : read.length(["rules", "leastSlack"], entry.leastSlack);
  const stated = { overlap: at("overlap"), trimOverlap: at("trimOverlap"), colourEdgeOverlap: at("colourEdgeOverlap") };
  const shiftable = stated.colourEdgeOverlap + leastSlack;
  const rules: Rules = {
    bleed: Math.max(at("bleed"), leastSlack),
    overlap: leastSlack > 0 ? Math.max(stated.overlap, shiftable) : stated.overlap,
    colourEdgeOverlap: stated.colourEdgeOverlap,
    trimOverlap: leastSlack > 0 ? Math.max(stated.trimOverlap, shiftable) : stated.trimOverlap,
    cutGap: at("cutGap"),
    leader: at("leader"),
    trailer: at("trailer"),
    maxOpenSeams: entry.maxOpenSeams,
    seamPricePerLength: entry.seamPricePerLength,
    avoidPenalty: entry.avoidPenalty,
    panelPrice: entry.panelPrice,
    oneLot: entry.oneLot,
    sliverUnder: entry.sliverUnder == null ? sliverDefault : read.length(["rules", "sliverUnder"], entry.sliverUnder),
    heightZones: readHeightZones(read, entry),
    artworkWeight: entry.artworkWeight ?? artworkDefault,
    leastSlack,
    keepLength: entry.keepLength == null ? null : read.length(["rules", "keepLength"], entry.keepLength),
    currency: entry.currency,
  };
  if (stated.trimOverlap < stated.overlap) {
    read.log.problem(
      ["rules", "trimOverlap"],
      entry.trimOverlap,
      `The overlap trimmed at a break (${read.say(stated.trimOverlap)}) is less than the plain overlap (${read.say(stated.overlap)}).`,
      "Raise trimOverlap, or lower overlap.",
    );
  }
  if (stated.overlap < stated.colourEdgeOverlap) {
    read.log.problem(
      ["rules", "colourEdgeOverlap"],
      entry.colourEdgeOverlap,
      `The overlap left at a colour edge (${read.say(stated.colourEdgeOverlap)}) is more than the plain overlap (${read.say(stated.overlap)}) that it is trimmed from.`,
      "Lower colourEdgeOverlap, or raise overlap.",
    );
  }
  return rules;
}

function readHeightZones(read: LengthReader, entry: RulesEntry): HeightZone[] {
  return (entry.heightZones ?? []).map(({ from, to, weight }, index) => {
    const here = ["rules", "heightZones", index];
    const zone = { from: read.length([...here, "from"], from), to: read.length([...here, "to"], to), weight };
    if (zone.from >= zone.to) {
      const why = `The height zone has no height: from ${read.say(zone.from)} is not below to ${read.say(zone.to)}.`;
      read.log.problem([...here, "from"], from, why, "Give from the lower and to the upper height over the ground.");
    }
    return zone;
  });
}

/** Clearances that obstacles of a kind have unless they give their own. */
export function readClearances(read: LengthReader, entry: RulesEntry): ReadonlyMap<string, Ticks> {
  const kinds = Object.entries(entry.clearances ?? {});
  return new Map(kinds.map(([kind, value]) => [kind, read.length(["rules", "clearances", kind], value)]));
}

/**
 * The job's films, in its order, with roll widths narrowest first and without repeats, and `newRolls` worked out.
 *
 * Reports widths that the edge margins use up, and loads too short for leader and trailer.
 */
export function buildFilms(read: LengthReader, job: JobFile, rules: Rules): Film[] {
  const stocked = new Set((job.stock ?? []).map(({ film }) => film));
  return job.films.map((entry, index) => buildFilm(read, entry, index, rules, stocked.has(entry.id)));
}

function buildFilm(read: LengthReader, entry: FilmEntry, index: number, rules: Rules, stocked: boolean): Film {
  const place = ["films", index];
  const edgeMargin = read.length([...place, "edgeMargin"], entry.edgeMargin);
  const widths = entry.rollWidths.map((value, position) => {
    const width = read.size([...place, "rollWidths", position], value);
    if (width <= 2 * edgeMargin) {
      read.log.problem(
        [...place, "rollWidths", position],
        value,
        `Film "${entry.id}": edge margins of ${read.say(edgeMargin)} on both sides leave nothing to print on a roll ${read.say(width)} wide.`,
        "Lower edgeMargin, or correct the roll width.",
      );
    }
    return width;
  });
  const film: Film = {
    id: entry.id,
    name: entry.name || entry.id,
    rollWidths: [...new Set(widths)].sort((a, b) => a - b),
    edgeMargin,
    rollLength: read.optionalSize([...place, "rollLength"], entry.rollLength),
    maxRun: read.optionalSize([...place, "maxRun"], entry.maxRun),
    newRolls: entry.newRolls === undefined ? (stocked ? 0 : null) : entry.newRolls,
    laminateWidth: read.optionalSize([...place, "laminateWidth"], entry.laminateWidth),
    lengthFactor: entry.lengthFactor,
    pricePerArea: entry.pricePerArea,
    laminatePricePerArea: entry.laminatePricePerArea,
    inkPricePerArea: entry.inkPricePerArea,
    lay: entry.lay,
    joint: entry.joint,
  };
  const ends = rules.leader + rules.trailer;
  for (const [key, what, limit] of [
    ["rollLength", "A new roll", film.rollLength],
    ["maxRun", "The longest run", film.maxRun],
  ] as const) {
    if (limit !== null && limit <= ends) {
      read.log.problem(
        [...place, key],
        entry[key],
        `${what} of film "${entry.id}" (${read.say(limit)}) is used up by leader and trailer (${read.say(ends)}).`,
        `Raise ${key}, or lower rules.leader or rules.trailer.`,
      );
    }
  }
  return film;
}

/** Rolls and offcuts in stock, in the job's order. Those that can hold nothing stay in the list, with a warning. */
export function buildStock(read: LengthReader, job: JobFile, films: readonly Film[], rules: Rules): StockEntry[] {
  const filmById = new Map(films.map((film) => [film.id, film]));
  return (job.stock ?? []).map((entry, index) => {
    const place = ["stock", index];
    const width = read.size([...place, "width"], entry.width);
    const length = read.size([...place, "length"], entry.length);
    const film = filmById.get(entry.film);
    if (film !== undefined && width <= 2 * film.edgeMargin) {
      read.log.warning(
        [...place, "width"],
        entry.width,
        `Roll "${entry.id}" is no wider than the edge margins of film "${film.id}" (${read.say(2 * film.edgeMargin)}), so nothing can be printed on it.`,
        "Correct its width, or remove it.",
      );
    }
    if (length <= rules.leader + rules.trailer) {
      read.log.warning(
        [...place, "length"],
        entry.length,
        `Roll "${entry.id}" is no longer than leader and trailer (${read.say(rules.leader + rules.trailer)}), so nothing can be printed on it.`,
        "Correct its length, or remove it.",
      );
    }
    return { id: entry.id, film: entry.film, lot: entry.lot, kind: entry.kind, width, length };
  });
}
