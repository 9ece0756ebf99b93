import type { Problem } from "./problem.ts";

/** Steps to a place in a file: keys and list positions. */
export type Place = readonly (string | number)[];

/** "elevations[0].sections[1].box"; the whole file is "job". */
export function pathOf(place: Place, whole = "job"): string {
  const path = place.map((step) => (typeof step === "number" ? `[${step}]` : `.${step}`)).join("");
  return path === "" ? whole : path.replace(/^\./, "");
}

const mostShown = 12;

/** A value as it is quoted in a problem: long lists and texts are cut, and what JSON can't hold is named. */
export function shown(value: unknown): unknown {
  if (value === undefined) return null;
  if (typeof value === "number") return Number.isFinite(value) ? value : String(value);
  if (typeof value === "string") return value.length > 80 ? `${value.slice(0, 79)}…` : value;
  if (Array.isArray(value)) return value.length > mostShown ? `list of ${value.length}` : value.map(shown);
  if (typeof value === "object" && value !== null) {
    const entries = Object.entries(value);
    if (entries.length > mostShown) return `group of ${entries.length} values`;
    return Object.fromEntries(
      entries.map(([key, inner]) => [key, typeof inner === "object" ? brief(inner) : shown(inner)]),
    );
  }
  return typeof value === "boolean" || value === null ? value : String(value);
}

function brief(value: unknown): unknown {
  if (Array.isArray(value))
    return value.every((inner) => typeof inner === "number") ? shown(value) : `list of ${value.length}`;
  return value === null ? null : "…";
}

/** Gathers what is wrong and what is worth knowing, so that a reader can go on and find everything. */
export interface ProblemLog {
  readonly problems: Problem[];
  readonly warnings: Problem[];
  readonly problem: (place: Place, value: unknown, why: string, mend: string) => void;
  readonly warning: (place: Place, value: unknown, why: string, mend: string) => void;
}

export function problemLog(): ProblemLog {
  const [problems, warnings]: [Problem[], Problem[]] = [[], []];
  return {
    problems,
    warnings,
    problem: (place, value, why, mend) => void problems.push({ path: pathOf(place), value: shown(value), why, mend }),
    warning: (place, value, why, mend) => void warnings.push({ path: pathOf(place), value: shown(value), why, mend }),
  };
}
