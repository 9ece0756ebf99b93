import type { Problem } from "../../shared/problem.ts";
import { textAtDoor } from "./jobAtDoor.ts";

/** One published instance as the file holds it. */
export interface NamedInstance {
  readonly name: string;
  /** Absent in the file: a rectangular strip. */
  readonly kind: string;
  /** Where its data stands in the file. */
  readonly path: string;
  readonly fields: Readonly<Record<string, unknown>>;
}

/** Names shown when none or a wrong one is asked for. */
const NAMES_SHOWN = 12;

type Found = { readonly instance: NamedInstance } | { readonly problems: readonly Problem[] };

const isObject = (value: unknown): value is Record<string, unknown> =>
  typeof value === "object" && value !== null && !Array.isArray(value);

/**
 * Picks one instance of a file that holds a list of them, or an object whose `examples` is that list and where each has
 * its data under `data`.
 *
 * @param name null when none is asked for, which is enough where the file holds a single instance
 */
export async function instanceAtDoor(path: string, name: string | null): Promise<Found> {
  const read = await textAtDoor(path);
  if ("problem" in read) return { problems: [read.problem] };
  let content: unknown;
  try {
    content = JSON.parse(read.text.replace(/^\uFEFF/, ""));
  } catch (cause) {
    const why = `The file is not JSON: ${(cause as SyntaxError).message}`;
    return { problems: [{ path, value: read.text.slice(0, 40), why, mend: "Name a file with published instances" }] };
  }
  return pick(content, name);
}

function pick(content: unknown, name: string | null): Found {
  const inExamples = isObject(content) && Array.isArray(content.examples);
  const list: unknown = inExamples ? content.examples : content;
  if (!Array.isArray(list) || list.length === 0) {
    const mend = "Give a list of instances, or an object whose examples is one";
    return { problems: [{ path: "file", value: kindOf(content), why: "The file holds no list of instances", mend }] };
  }
  const all = list.map((entry: unknown, i) => named(entry, `${inExamples ? "examples" : ""}[${i}]`));
  const chosen = name === null ? all : all.filter((entry) => "instance" in entry && entry.instance.name === name);
  const [only] = chosen;
  if (only !== undefined && chosen.length === 1) return only;
  const names = all.flatMap((entry) => ("instance" in entry ? [entry.instance.name] : []));
  const shown = names.slice(0, NAMES_SHOWN).join(", ") + (names.length > NAMES_SHOWN ? ", ..." : "");
  const why =
    name === null
      ? `The file holds ${all.length} instances`
      : chosen.length === 0
        ? "The file holds no instance of this name"
        : `The file holds ${chosen.length} instances of this name`;
  return { problems: [{ path: "--name", value: name, why, mend: `Name one of ${names.length}: ${shown}` }] };
}

function named(entry: unknown, path: string): Found {
  if (!isObject(entry)) {
    const why = "This is no instance";
    return { problems: [{ path, value: kindOf(entry), why, mend: "Give an object with name, kind and data" }] };
  }
  const name = entry.name ?? entry.id;
  if (typeof name !== "string") {
    const why = "This instance has no name";
    return { problems: [{ path, value: name ?? null, why, mend: "Give it a name or an id" }] };
  }
  const kind = typeof entry.kind === "string" ? entry.kind : "rectangular strip";
  const [fields, at] = isObject(entry.data) ? [entry.data, `${path}.data`] : [entry, path];
  return { instance: { name, kind, path: at, fields } };
}

const kindOf = (value: unknown): string =>
  value === null ? "null" : Array.isArray(value) ? `list of ${value.length}` : typeof value;
