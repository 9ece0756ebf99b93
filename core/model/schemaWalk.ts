import { z } from "../../shared/zod.ts";
import type { Place } from "./problemLog.ts";

type Schema = z.core.$ZodType;

/** A key that its place does not know. */
export interface UnknownKey {
  readonly place: Place;
  readonly value: unknown;
  readonly key: string;
  readonly known: readonly string[];
}

/** The schema below "may be left out", "may be null" and "has a default". */
export function bare(schema: Schema): Schema {
  let inner = schema;
  while (inner instanceof z.ZodOptional || inner instanceof z.ZodNullable || inner instanceof z.ZodDefault)
    inner = inner.unwrap();
  return inner;
}

/** The schema of the value at a place, or null where the file has something no schema speaks of. */
export function schemaAt(schema: Schema, place: Place): Schema | null {
  let inner: Schema | undefined = schema;
  for (const step of place) {
    const here: Schema = bare(inner);
    const group: Schema | undefined =
      here instanceof z.ZodUnion ? here.options.find((o) => o instanceof z.ZodObject) : here;
    if (group instanceof z.ZodObject) inner = group.shape[step] as Schema | undefined;
    else if (here instanceof z.ZodArray) inner = here.element;
    else if (here instanceof z.ZodTuple) inner = here.def.items[Number(step)];
    else inner = undefined;
    if (inner === undefined) return null;
  }
  return inner;
}

/**
 * Goes through data and schema together: tells every key that the schema does not know, and gives the data back with a
 * `null` left out where the field may be left out but not be null. People who write files by hand use null for "none".
 *
 * @returns the data, new objects only where something was inside to walk; unknown keys stay
 */
export function walkSchema(schema: Schema, data: unknown, place: Place, found: (unknown: UnknownKey) => void): unknown {
  const inner = bare(schema);
  if (inner instanceof z.ZodArray) {
    if (!Array.isArray(data) || !(bare(inner.element) instanceof z.ZodObject)) return data;
    return data.map((item, index) => walkSchema(inner.element, item, [...place, index], found));
  }
  const group = inner instanceof z.ZodUnion ? inner.options.find((option) => option instanceof z.ZodObject) : inner;
  if (!(group instanceof z.ZodObject) || typeof data !== "object" || data === null || Array.isArray(data)) return data;
  const known = Object.keys(group.shape);
  const kept: [string, unknown][] = [];
  for (const [key, value] of Object.entries(data)) {
    const field = Object.hasOwn(group.shape, key) ? group.shape[key] : undefined;
    if (field === undefined) {
      found({ place: [...place, key], value, key, known });
      kept.push([key, value]);
    } else if (value !== null || field.safeParse(null).success || !field.safeParse(undefined).success) {
      kept.push([key, walkSchema(field, value, [...place, key], found)]);
    }
  }
  return Object.fromEntries(kept);
}
