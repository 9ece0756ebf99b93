import type { Instance } from "../../../core/model/instance.ts";
import { readPlan } from "../../../core/model/planDocument.ts";
import { verifyPlan } from "../../../core/verifying/verifyPlan.ts";
import { type Document, TICK } from "./support.ts";

/** Places of a plan document. */
export type Place = readonly (string | number)[];

/** Every single value of a document, with its place. */
export function leaves(value: Document, place: Place = []): { place: Place; value: unknown }[] {
  if (typeof value !== "object" || value === null) return [{ place, value }];
  return Object.entries(value).flatMap(([key, inner]) =>
    leaves(inner, [...place, Array.isArray(value) ? Number(key) : key]),
  );
}

/** The plan with one value replaced. Only the layout that is changed matters, but for the ids that frontier names. */
export function changed(plan: Document, place: Place, value: unknown): Document {
  const copy = structuredClone(plan);
  let holder = copy;
  for (const key of place.slice(0, -1)) holder = holder[key];
  holder[place[place.length - 1] as string] = value;
  return copy;
}

/** What stands at a place. */
export const at = (plan: Document, place: Place): Document => place.reduce((holder, key) => holder[key], plan);

const lengthSteps = [TICK, 1 / 16, 0.5, 1, 7, 1000];
/** Areas of some ten thousand agree within a hundredth (1e-6 of them), everything else far closer. */
const areaSteps = [0.05, 0.5, 20, 1e6];
const amountSteps = [0.001, 0.5, 20, 1e6];
const amounts = /\.(cost|wasteBy|bound)\.|Percent$/;
const counts = /Count$|Seams$|\.copy$|^seed$|^shortfalls\..*panels$/;

function numbersNear(path: string, value: number): number[] {
  if (path.endsWith(".turn")) return [0, 90, 180, 270];
  if (path.endsWith(".copy")) return [1, 2, 3, 10_000];
  const steps = counts.test(path)
    ? [1, 2, 100]
    : path.endsWith("Area")
      ? areaSteps
      : amounts.test(path)
        ? amountSteps
        : lengthSteps;
  return [...steps.flatMap((step) => [value + step, value - step]), 0, -value];
}

const enumerations: Readonly<Record<string, readonly string[]>> = {
  nesting: ["crosscut", "free"],
  role: ["panel", "fill", "inlay", "overlay", "decal"],
  direction: ["vertical", "horizontal"],
  axis: ["x", "y"],
  kind: ["break", "bodyLine", "colourEdge", "open"],
  units: ["in", "mm"],
  way: ["onePanelMore", "widerRoll", "otherDirection", "fillSameFilm", "fillOtherFilm"],
};

/** Other texts for a place: the other words of its list, else an unknown id and a known one of each sort. */
function textsFor(key: string): readonly (string | null)[] {
  if (key in enumerations) return enumerations[key] as readonly string[];
  if (key === "section" || key === "stock" || key === "lot") {
    return [null, "none such", "whole", "lower", "fill-bottom", "S1", "S2", "L1", "L2"];
  }
  const known = ["A", "B", "A/1", "A/2", "C/lower", "D/1", "D/fill", "a1", "c", "f", "g", "lower", "whole", "flag"];
  return ["none such", " ", ...known, "r1", "r1:1", "r2:3", "tight", "looser", "E", "F", "low", "high"];
}

/** Everything a value may be changed to. */
function othersThan(place: Place, value: unknown): readonly unknown[] {
  const key = String(place.findLast((part) => typeof part === "string"));
  const path = place.join(".");
  if (typeof value === "number") return [...new Set(numbersNear(path, value))].filter((other) => other !== value);
  if (typeof value === "boolean") return [!value];
  return textsFor(key).filter((other) => other !== value);
}

/** Why a change keeps the contract; null where it must be refused. */
export type Allowed = (plan: Document, place: Place, value: unknown) => string | null;

/**
 * Changes one value of a plan to everything near it or like it, and judges each such plan.
 *
 * @returns changes that break the contract and are not caught, and changes refused though they keep it
 */
export const misjudgedBy =
  (instance: Instance, allowed: Allowed) =>
  (plan: Document, place: Place, value: unknown): string[] => {
    if (place.length === 1 && (place[0] === "format" || place[0] === "version")) return [];
    return othersThan(place, value).flatMap((other) => {
      const reason = allowed(plan, place, other);
      const reading = readPlan(changed(plan, place, other));
      if (reading.plan === null) return []; // refused before it is judged
      const violations = verifyPlan(instance, reading.plan);
      const said = `${place.join(".")}: ${JSON.stringify(value)} -> ${JSON.stringify(other)}`;
      if (reason === null && violations.length === 0) return [`${said} is not caught`];
      if (reason !== null && violations.length > 0) {
        return [`${said} is refused though ${reason}: ${violations[0]?.says}`];
      }
      return [];
    });
  };
