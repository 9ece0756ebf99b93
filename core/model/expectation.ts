import { BoxTuple, Id, Outline, Point } from "../../shared/jobFile.ts";
import { z } from "../../shared/zod.ts";
import { bare } from "./schemaWalk.ts";

/** What a field takes, in plain words, to be read after "give ". */
export function expectation(schema: z.core.$ZodType): string {
  const inner = bare(schema);
  if (inner === BoxTuple) return "a box as [left, bottom, right, top]";
  if (inner === Point) return "a point as [x, y]";
  if (inner === Outline) return "an outline as a list of 3 to 10,000 points [x, y]";
  if (inner instanceof z.ZodUnion) return inner.options.map((option) => expectation(option)).join(", or ");
  if (inner instanceof z.ZodLiteral) return [...inner.values].map((value) => JSON.stringify(value)).join(" or ");
  if (inner instanceof z.ZodEnum) return `one of ${inner.options.map((option) => JSON.stringify(option)).join(", ")}`;
  if (inner instanceof z.ZodNumber) return numberWords(inner);
  if (inner === Id || inner instanceof z.ZodString) {
    return inner._zod.def.checks?.length
      ? "an id: a text of at least one character, without / : |"
      : "a text in double quotes";
  }
  if (inner instanceof z.ZodBoolean) return "true or false";
  if (inner instanceof z.ZodArray) return "a list in square brackets";
  if (inner instanceof z.ZodTuple) return `a list of ${inner.def.items.length}`;
  if (inner instanceof z.ZodObject)
    return `a group of values in braces, such as { ${Object.keys(inner.shape).slice(0, 4).join(", ")} }`;
  return "another value";
}

function numberWords(schema: z.ZodNumber): string {
  const kind = schema.format === "safeint" ? "a whole number" : "a plain number";
  const bounds: string[] = [];
  for (const check of schema._zod.def.checks ?? []) {
    const limit = check._zod.def as { check: string; value?: unknown; inclusive?: boolean };
    if (limit.check === "greater_than")
      bounds.push(limit.inclusive ? `at least ${limit.value}` : `over ${limit.value}`);
    if (limit.check === "less_than") bounds.push(limit.inclusive ? `at most ${limit.value}` : `under ${limit.value}`);
  }
  return [kind, ...bounds].join(", ").replace(", at most", " and at most");
}
