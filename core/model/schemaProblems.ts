import type { z } from "../../shared/zod.ts";
import { expectation } from "./expectation.ts";
import type { Problem } from "./problem.ts";
import { type Place, pathOf, shown } from "./problemLog.ts";
import { schemaAt } from "./schemaWalk.ts";

type Issue = z.core.$ZodIssue;

/**
 * Every schema issue as a problem in trade words.
 *
 * @param schema what the document should be
 * @param data the document as it was read
 * @param issues what the schema said of it
 * @param whole name of the whole file in a path ("job", "plan")
 * @returns one problem for each place, in the schema's order
 */
export function schemaProblems(
  schema: z.core.$ZodType,
  data: unknown,
  issues: readonly Issue[],
  whole: string,
): Problem[] {
  const problems = issues.flatMap((issue) => problemsOf(schema, data, issue, [], whole));
  const seen = new Set<string>();
  return problems.filter(({ path }) => !seen.has(path) && seen.add(path));
}

function problemsOf(schema: z.core.$ZodType, data: unknown, issue: Issue, before: Place, whole: string): Problem[] {
  const place = [...before, ...issue.path.map((step) => (typeof step === "symbol" ? String(step) : step))];
  const value = valueAt(data, place);
  if (issue.code === "invalid_union" && isGroup(value)) {
    // The value is a group, so what the group's own schema says is what helps.
    const inner = issue.errors.filter((branch) => branch.some((one) => one.path.length > 0));
    const nearest = inner[0];
    if (nearest) return nearest.flatMap((one) => problemsOf(schema, data, one, place, whole));
  }
  const field = schemaAt(schema, place);
  const last = place.at(-1);
  const name = typeof last === "string" ? `"${last}"` : `entry ${Number(last) + 1}`;
  const taken = field ? expectation(field) : "another value";
  return [
    { path: pathOf(place, whole), value: shown(value), why: reason(issue, name, value), mend: mend(issue, taken) },
  ];
}

function reason(issue: Issue, name: string, value: unknown): string {
  if (value === undefined) return `${name} is missing.`;
  if (typeof value === "number" && !Number.isFinite(value)) return `${name} is not a finite number.`;
  switch (issue.code) {
    case "invalid_type":
      if (issue.expected === "int" && typeof value === "number") return `${name} must be a whole number.`;
      return `${name} is ${kindOf(value)}, which can't be read here.`;
    case "too_small":
      return issue.origin === "array"
        ? `${name} has ${sizeOf(value)} entries, too few.`
        : issue.origin === "string"
          ? `${name} is empty.`
          : `${name} is too small.`;
    case "too_big":
      return issue.origin === "array"
        ? `${name} has ${sizeOf(value)} entries; the limit is ${group(Number(issue.maximum))}.`
        : `${name} is too large; the limit is ${group(Number(issue.maximum))}.`;
    case "invalid_format":
      return `${name} holds one of the marks / : |, which join ids in panel and cut names.`;
    case "custom":
      return `${name} begins with "fill-", which is kept for fill pieces.`;
    case "invalid_value":
      return `${name} is not one of the choices.`;
    default:
      return `${name} is ${kindOf(value)}, which can't be read here.`;
  }
}

function mend(issue: Issue, taken: string): string {
  if (issue.code === "too_big" && issue.origin === "array")
    return `Give ${taken}; leave out points that lie on a straight line.`;
  if (issue.code === "custom" || issue.code === "invalid_format") return "Give it another id.";
  return `Give ${taken}.`;
}

function kindOf(value: unknown): string {
  if (value === null) return "null";
  if (typeof value === "string") return "a text";
  if (typeof value === "number") return "a number";
  if (typeof value === "boolean") return "true or false";
  return Array.isArray(value) ? "a list" : "a group of values";
}

const group = (value: number): string => String(value).replace(/\B(?=(\d{3})+$)/g, ",");
const sizeOf = (value: unknown): string => (Array.isArray(value) ? group(value.length) : "0");
const isGroup = (value: unknown): boolean => typeof value === "object" && value !== null && !Array.isArray(value);

function valueAt(data: unknown, place: Place): unknown {
  let inner = data;
  for (const step of place) {
    if (typeof inner !== "object" || inner === null || !Object.hasOwn(inner, step)) return undefined;
    inner = (inner as Record<string | number, unknown>)[step];
  }
  return inner;
}
