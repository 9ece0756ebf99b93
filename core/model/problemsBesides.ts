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
  for (const place of faulty) mended = withValue(mended, place, (schema) => standIn(schema, place), JobFile);
  const parsed = JobFile.safeParse(mended);
  if (!parsed.success) return []; // A field inside a field: telling the first ones has to do.
  const built = buildInstance(parsed.data);
  if ("instance" in built) return [];
  const entries = faulty.map(entryOf);
  const touches = (list: string): boolean =>
    entries.some((entry) => entry === "job" || entry === list || entry.startsWith(`${list}[`));
  const wholeEntry = (list: string): boolean =>
    entries.some((entry) => entry === "job" || entry === list || new RegExp(`^${list}\\[\\d+\\]$`).test(entry));
  return built.problems.filter(({ path }) => {
    if (path === "job" || entries.some((entry) => isWithin(path, entry))) return false;
    if (touches("rules") && (path.startsWith("rules") || /^films\[\d+\]\.(?:rollLength|maxRun)$/.test(path)))
      return false;
    if (wholeEntry("films") && path.endsWith(".film")) return false;
    return !(wholeEntry("elevations") && /\.(?:mirrorOf|elevation|count)$/.test(path));
  });
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
  value: (schema: z.core.$ZodType) => unknown,
  schema: z.core.$ZodType,
): unknown {
  const [step, ...rest] = place;
  if (step === undefined) return value(schema);
  const inner = bare(schema);
  if (inner instanceof z.ZodArray && Array.isArray(data)) {
    return data.map((item, index) => (index === step ? withValue(item, rest, value, inner.element) : item));
  }
  if (inner instanceof z.ZodObject && typeof data === "object" && data !== null && Object.hasOwn(inner.shape, step)) {
    const here = data as Record<string, unknown>;
    return { ...here, [step]: withValue(here[step], rest, value, inner.shape[step] as z.core.$ZodType) };
  }
  return value(schema);
}

/** The simplest value that a schema takes. An id is made of its place, so that none is twice there. */
function standIn(schema: z.core.$ZodType, place: Place): unknown {
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
  if (inner instanceof z.ZodUnion) return standIn(inner.options[0] as z.core.$ZodType, place);
  if (inner instanceof z.ZodLiteral) return inner.value;
  if (inner instanceof z.ZodEnum) return inner.options[0];
  if (inner instanceof z.ZodNumber) return 1;
  if (inner === Id || inner instanceof z.ZodString) return place.join(" ");
  if (inner instanceof z.ZodBoolean) return false;
  if (inner instanceof z.ZodArray) return inner.safeParse([]).success ? [] : [standIn(inner.element, place)];
  if (!(inner instanceof z.ZodObject)) return null;
  return Object.fromEntries(
    Object.entries(inner.shape)
      .filter(([, field]) => !(field as z.ZodType).safeParse(undefined).success)
      .map(([key, field]) => [key, standIn(field as z.core.$ZodType, [...place, key])]),
  );
}
