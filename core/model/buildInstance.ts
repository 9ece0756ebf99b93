import type { JobFile } from "../../shared/jobFile.ts";
import { buildElevations } from "./buildElevations.ts";
import { buildFilms, buildRules, buildStock, readClearances } from "./buildFilms.ts";
import { checkIds } from "./checkIds.ts";
import type { Elevation, Film, Instance, LoosePiece, Rules } from "./instance.ts";
import { type LengthReader, lengthReader } from "./lengthReader.ts";
import { nearestKey } from "./nearestKey.ts";
import type { Problem } from "./problem.ts";
import type { Place } from "./problemLog.ts";
import { readOutline } from "./readOutline.ts";

export type Built =
  | { readonly instance: Instance; readonly warnings: readonly Problem[] }
  | { readonly problems: readonly Problem[]; readonly warnings: readonly Problem[] };

/** Most panels and loose pieces in all. */
const mostPieces = 200_000;

/**
 * Turns a job that was read into the instance: lengths in ticks, mirrors worked out, defaults filled in.
 *
 * @param job what `readJob` gave
 * @returns the instance with warnings, or every problem that takes two fields together to see. An empty job is an empty
 *   instance. Problems come in the order rules, films, stock, elevations, pieces, then what is counted over all.
 *
 * Time: see `selfCrossing` and `neededRegion`; all else is linear in the size of the job.
 */
export function buildInstance(job: JobFile): Built {
  const read = lengthReader(job.units);
  const rules = buildRules(read, job.rules);
  checkIds(
    read,
    ["films"],
    job.films.map(({ id }) => id),
  );
  const films = buildFilms(read, job, rules);
  checkIds(
    read,
    ["stock"],
    (job.stock ?? []).map(({ id }) => id),
  );
  const stock = buildStock(read, job, films, rules);
  checkIds(
    read,
    ["elevations"],
    job.elevations.map(({ id }) => id),
  );
  const elevations = buildElevations(read, job.elevations, rules, readClearances(read, job.rules));
  checkIds(
    read,
    ["pieces"],
    (job.pieces ?? []).map(({ id }) => id),
  );
  const pieces = buildPieces(read, job);
  checkFilms(read, job);
  checkSubjects(read, job);
  checkAmount(read, job, elevations);
  const sameLot = readSameLot(read, job);
  checkHeads(read, elevations, films);
  checkSlack(read, elevations, films, rules);
  const { problems, warnings } = read.log;
  if (problems.length > 0) return { problems, warnings };
  return { instance: { name: job.name, unit: job.units, elevations, pieces, films, stock, sameLot, rules }, warnings };
}

/** Groups of elevations that share a lot: each is in the job, and all are made equally often. */
function readSameLot(read: LengthReader, job: JobFile): { id: string; elevations: string[] }[] {
  const entries = job.sameLot ?? [];
  checkIds(
    read,
    ["sameLot"],
    entries.map(({ id }) => id),
  );
  const counts = new Map(job.elevations.map(({ id, count }) => [id, count]));
  for (const [index, { id, elevations }] of entries.entries()) {
    const missing = elevations.find((name) => !counts.has(name));
    if (missing !== undefined) {
      const place = ["sameLot", index, "elevations", elevations.indexOf(missing)];
      const why = `Same lot "${id}" names elevation "${missing}", which is not in the job.`;
      read.log.problem(place, missing, why, "Name an elevation of this job.");
    } else if (new Set(elevations.map((name) => counts.get(name))).size > 1) {
      const why = `The elevations of same lot "${id}" are not made equally often, so their copies can't be paired.`;
      read.log.problem(["sameLot", index, "elevations"], elevations, why, "Give them the same count.");
    }
  }
  return entries.map(({ id, elevations }) => ({ id, elevations: [...elevations] }));
}

/** Panels and fills cannot be turned head to foot on film that lies one way only. */
function checkHeads(read: LengthReader, elevations: readonly Elevation[], films: readonly Film[]): void {
  const oneWay = new Set(films.filter(({ lay }) => lay === "one-way").map(({ id }) => id));
  for (const [index, { id, film, heads, sections, fill, mirrorOf }] of elevations.entries()) {
    const turned = heads === "alternate" || sections.some((section) => section.heads === "alternate");
    const ofPanels = turned ? [film] : [];
    const ofFills = heads === "alternate" ? fill.map((choice) => choice.film) : [];
    const found = [...ofPanels, ...ofFills].find((candidate) => oneWay.has(candidate));
    if (found === undefined) continue;
    const why = `Elevation "${id}" turns every second panel head to foot, but film "${found}" lies one way only.`;
    const mend = 'Set heads to "same", or choose film whose lay is two-way or any.';
    read.log.problem(["elevations", index, mirrorOf === null ? "heads" : "film"], "alternate", why, mend);
  }
}

/** Film that meets edge to edge, be it of panels or of fills, has no overlap to shift a panel by. */
function checkSlack(
  read: LengthReader,
  elevations: readonly Elevation[],
  films: readonly Film[],
  { leastSlack }: Rules,
): void {
  if (leastSlack === 0) return;
  const covering = new Set(elevations.flatMap(({ film, fill }) => [film, ...fill.map((choice) => choice.film)]));
  const butted = films.find(({ id, joint }) => joint === "butted" && covering.has(id));
  if (butted === undefined) return;
  const why = `The panels of film "${butted.id}" meet edge to edge, so none of them can be shifted by ${read.say(leastSlack)}.`;
  read.log.problem(["rules", "leastSlack"], read.say(leastSlack), why, "Set leastSlack to 0, or let the film lap.");
}

function buildPieces(read: LengthReader, job: JobFile): LoosePiece[] {
  const elevationIds = new Set(job.elevations.map(({ id }) => id));
  return (job.pieces ?? []).flatMap((entry, index) => {
    const place = ["pieces", index];
    const outline = readOutline(read, [...place, "outline"], entry.outline, `The outline of piece "${entry.id}"`);
    const at =
      entry.at === null
        ? null
        : { x: read.length([...place, "at", 0], entry.at[0]), y: read.length([...place, "at", 1], entry.at[1]) };
    if (entry.elevation !== null && !elevationIds.has(entry.elevation)) {
      read.log.problem(
        [...place, "elevation"],
        entry.elevation,
        `Piece "${entry.id}" belongs to elevation "${entry.elevation}", which is not in the job.`,
        "Name an elevation of this job, or none.",
      );
    }
    if (entry.elevation === null && at !== null) {
      read.log.warning(
        [...place, "at"],
        entry.at,
        `Piece "${entry.id}" has a place but no elevation to be placed on.`,
        "Name its elevation, or take the place away.",
      );
    }
    if (outline === null) return [];
    const { id, role, label, count, film, turn, elevation, layer } = entry;
    return [{ id, role, label: label || id, count, film, outline, turn, elevation, at, layer }];
  });
}

/** Every film that is named must be there. */
function checkFilms(read: LengthReader, job: JobFile): void {
  const known = job.films.map(({ id }) => id);
  const check = (place: Place, film: string | null | undefined, what: string): void => {
    if (film == null || known.includes(film)) return;
    const near = nearestKey(film, known);
    const mend = near
      ? `Did you mean "${near}"?`
      : known.length > 0
        ? `Name one of the job's films: ${known.slice(0, 10).join(", ")}.`
        : "Add the film to the job's films.";
    read.log.problem(place, film, `${what} is of film "${film}", which is not in the job.`, mend);
  };
  job.elevations.forEach((elevation, index) => {
    check(["elevations", index, "film"], elevation.film, `Elevation "${elevation.id}"`);
    if (elevation.mirrorOf != null) return;
    (elevation.fill ?? []).forEach(
      ({ film, edge }, i) =>
        void check(["elevations", index, "fill", i, "film"], film, `The ${edge} fill of "${elevation.id}"`),
    );
  });
  (job.pieces ?? []).forEach(({ id, film }, index) => void check(["pieces", index, "film"], film, `Piece "${id}"`));
  (job.stock ?? []).forEach(({ id, film }, index) => void check(["stock", index, "film"], film, `Roll "${id}"`));
}

/** Elevations of one subject are made equally often. */
function checkSubjects(read: LengthReader, job: JobFile): void {
  const first = new Map<string, { id: string; count: number }>();
  job.elevations.forEach(({ id, subject, count }, index) => {
    if (subject == null) return;
    const other = first.get(subject);
    if (other === undefined) first.set(subject, { id, count });
    else if (other.count !== count) {
      read.log.problem(
        ["elevations", index, "count"],
        count,
        `Elevation "${id}" is made ${count} times, but "${other.id}" of the same subject "${subject}" ${other.count} times.`,
        "Give all elevations of one subject the same count.",
      );
    }
  });
}

/** Each section of each copy takes a panel at least, unless openings take it all away. */
function checkAmount(read: LengthReader, job: JobFile, elevations: readonly Elevation[]): void {
  const panels = elevations.reduce((sum, { count, sections }) => sum + count * sections.length, 0);
  const loose = (job.pieces ?? []).reduce((sum, { count }) => sum + count, 0);
  if (panels + loose <= mostPieces) return;
  read.log.problem(
    [],
    panels + loose,
    `The job comes to at least ${panels + loose} pieces; the limit is 200,000.`,
    "Lower the counts, or plan it as several jobs.",
  );
}
