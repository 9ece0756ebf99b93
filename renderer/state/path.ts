/** A place in a job document, as problems name it: `elevations[0].sections[1].box`. */
export type Step = string | number;

/** The steps of a written path. Keys after a dot, places in a list in brackets. */
export function stepsOf(path: string): Step[] {
  return [...path.matchAll(/([^.[\]]+)|\[(\d+)\]/g)].map((found) =>
    found[2] === undefined ? (found[1] as string) : Number(found[2]),
  );
}

/** The written form of some steps. */
export function pathOf(steps: readonly Step[]): string {
  return steps
    .map((step, place) => (typeof step === "number" ? `[${step}]` : place === 0 ? step : `.${step}`))
    .join("");
}

/** What stands at a path, or undefined where nothing does. */
export function valueAt(document: unknown, path: string): unknown {
  let here = document;
  for (const step of stepsOf(path)) {
    if (typeof here !== "object" || here === null) return undefined;
    here = (here as Record<Step, unknown>)[step];
  }
  return here;
}

/**
 * Puts a value at a path, in place; missing objects and lists on the way are made. `undefined` takes the key out.
 * Changes its argument: meant for the drafts that an edit is given.
 */
export function putAt(document: object, path: string, value: unknown): void {
  const steps = stepsOf(path);
  const last = steps.pop();
  if (last === undefined) throw new RangeError("An empty path has no place to put a value.");
  let here = document as Record<Step, unknown>;
  steps.forEach((step, place) => {
    const next = here[step];
    if (typeof next !== "object" || next === null) {
      const following = steps[place + 1] ?? last;
      here[step] = typeof following === "number" ? [] : {};
    }
    here = here[step] as Record<Step, unknown>;
  });
  if (value === undefined) delete here[last];
  else here[last] = value;
}

/** True when `path` is `place` itself or stands inside it. */
export function isWithin(path: string, place: string): boolean {
  return path === place || (path.startsWith(place) && /^[.[]/.test(path.slice(place.length)));
}
