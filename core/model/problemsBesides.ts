import { BoxTuple, Id, JobFile, Outline, Point } from "../../shared/jobFile.ts";
import { z } from "../../shared/zod.ts";
import { buildInstance } from "./buildInstance.ts";
import type { Problem } from "./problem.ts";
import { type Place, pathOf } from "./problemLog.ts";
import { bare } from "./schemaWalk.ts";

/**
 * What is wrong with a job besides the fields that can't be read, so that both are told at once: each faulty field gets a
 * stand-in, the job is built, and every problem that a stand-in may have caused is left out.
 *
 * @param data the document, known to be refused by the schema
 * @param faulty places of the fields that it refused
 * @returns problems that would be there whatever the faulty fields held; perhaps not all, never a false one
 */
export function problemsBesides(data: unknown, faulty: readonly Place[]): Problem[] {
  let mended = data;
  for (const place of faulty)
    mended = withValue(mended, place, (schema, found) => standIn(schema, place, found), JobFile);
  const parsed = JobFile.safeParse(mended);
  if (!parsed.success) return []; // A field inside a field: telling the first ones has to do.
  const built = buildInstance(parsed.data);
  if ("instance" in built) return [];
  const spoiled = faulty.map(spoiledBy);
  return built.problems.filter(({ path }) => path !== "job" && !spoiled.some((spoils) => spoils(path)));
}

/** Fields that no other problem of their entry depends on, but for references to an id and counts of a subject. */
const independent: Readonly<Record<string, readonly string[]>> = {
  elevations: ["id", "name", "count", "subject", "film", "travel", "bleed"],
  pieces: ["id", "role", "label", "count", "film", "turn", "elevation", "at", "layer"],
  films: ["id", "name", "newRolls", "lengthFactor", "pricePerArea", "laminatePricePerArea", "inkPricePerArea", "lay"],
  stock: ["id", "film", "lot", "kind"],
};
const overlaps = ["overlap", "colourEdgeOverlap", "trimOverlap"];
const ends = ["leader", "trailer"];
/** Paths of fields that name an entry of the list, or must agree with others that do. */
const references: Readonly<Record<string, RegExp>> = {
  films: /\.film$/,
  elevations: /\.(?:mirrorOf|elevation|count|subject)$/,
};
const runLengths = /^films\[\d+\]\.(?:rollLength|maxRun)$/;

/** Which problems, by their path, a stand-in at this place may have caused. */
function spoiledBy(place: Place): (path: string) => boolean {
  const [list, entry, field] = place;
  const own = pathOf(place);
  const others = ((): ((path: string) => boolean) => {
    if (list === "rules") return (path) => spoiledByRule(entry, path);
    const named = references[String(list)];
    if (typeof field === "string" && independent[String(list)]?.includes(field)) {
      const referred = field === "id" || field === "count" || field === "subject";
      return (path) => referred && named?.test(path) === true;
    }
    const around = entryOf(place);
    const whole = place.length < 3;
    return (path) => isWithin(path, around) || (whole && named?.test(path) === true);
  })();
  return (path) => isWithin(path, own) || others(path);
}

/** With `field` undefined all rules are stand-ins. */
function spoiledByRule(field: string | number | undefined, path: string): boolean {
  const spoils = (fields: readonly string[]) => field === undefined || fields.includes(String(field));
  if (spoils(ends) && runLengths.test(path)) return true;
  return spoils(overlaps) && overlaps.some((name) => path === `rules.${name}` || path === "rules");
}

/**
 * The list entry, or else the top-level key, that a place lies in: what a stand-in there may spoil. Sections have to tile
 * and fills to share the edges, so one of them spoils its whole list.
 */
function entryOf(place: Place): string {
  const last = place.findLastIndex((step, index) => typeof step === "number" && isEntry(place, index));
  const list = place[last - 1];
  return pathOf(place.slice(0, last < 0 ? 1 : list === "sections" || list === "fill" ? last : last + 1));
}

const namedLists = new Set([
  "elevations",
  "openings",
  "sections",
  "keepClear",
  "breaks",
  "colourEdges",
  "obstacles",
  "fill",
  "pieces",
  "films",
  "stock",
]);
const isEntry = (place: Place, index: number): boolean => namedLists.has(String(place[index - 1]));

const isWithin = (path: string, entry: string): boolean =>
  path === entry || path.startsWith(`${entry}.`) || path.startsWith(`${entry}[`);

/** The data with one value changed; the rest is shared. Left as it is where the schema speaks of no such place. */
function withValue(
  data: unknown,
  place: Place,
  value: (schema: z.core.$ZodType, found: unknown) => unknown,
  schema: z.core.$ZodType,
): unknown {
  const [step, ...rest] = place;
  if (step === undefined) return value(schema, data);
  const inner = bare(schema);
  if (inner instanceof z.ZodArray && Array.isArray(data)) {
    return data.map((item, index) => (index === step ? withValue(item, rest, value, inner.element) : item));
  }
  if (inner instanceof z.ZodObject && typeof data === "object" && data !== null && Object.hasOwn(inner.shape, step)) {
    const here = data as Record<string, unknown>;
    return { ...here, [step]: withValue(here[step], rest, value, inner.shape[step] as z.core.$ZodType) };
  }
  return value(schema, data);
}

/**
 * The simplest value that a schema takes. An id is what was found without its forbidden marks, or else its place; the
 * words behind it make sure that it is nowhere twice.
 */
function standIn(schema: z.core.$ZodType, place: Place, found: unknown): unknown {
  const inner = bare(schema);
  if (inner === BoxTuple) return [0, 0, 1, 1];
  if (inner === Point) return [0, 0];
  if (inner === Outline) {
    return [
      [0, 0],
      [1, 0],
      [0, 1],
    ];
  }
  if (inner instanceof z.ZodUnion) return standIn(inner.options[0] as z.core.$ZodType, place, found);
  if (inner instanceof z.ZodLiteral) return inner.value;
  if (inner instanceof z.ZodEnum) return inner.options[0];
  if (inner instanceof z.ZodNumber) return 1;
  if (inner === Id && typeof found === "string" && found !== "") return `${found.replace(/[/:|]/g, "-")} (${place[1]})`;
  if (inner === Id || inner instanceof z.ZodString) return place.join(" ");
  if (inner instanceof z.ZodBoolean) return false;
  if (inner instanceof z.ZodArray) return inner.safeParse([]).success ? [] : [standIn(inner.element, place, undefined)];
  if (!(inner instanceof z.ZodObject)) return null;
  return Object.fromEntries(
    Object.entries(inner.shape)
      .filter(([, field]) => !(field as z.ZodType).safeParse(undefined).success)
      .map(([key, field]) => [key, standIn(field as z.core.$ZodType, [...place, key], undefined)]),
  );
}
