import type { JobJson } from "../../shared/host.ts";
import type { PlanLayout } from "../../shared/planFile.ts";
import { type Entry, listIn, mirrorChain } from "./entries.ts";

type Found = NonNullable<PlanLayout["sections"]>[number];

/** The sections that a layout found for an elevation, as they lie on the one whose geometry it takes over. */
export function foundAtRoot(job: JobJson, layout: PlanLayout | null, elevation: string): readonly Found[] {
  const root = rootOf(job, elevation);
  return root === null ? [] : (layout?.sections?.filter((section) => section.elevation === root.id) ?? []);
}

/**
 * Makes the sections that a layout found the elevation's own, so that something can be settled for one of them. Changes
 * its argument, a draft; nothing where the layout found none. A part stays as narrow across as the narrowest section that
 * it overlaps asks for.
 */
export function keepFound(draft: JobJson, layout: PlanLayout | null, elevation: string): void {
  const found = foundAtRoot(draft, layout, elevation);
  const root = rootOf(draft, elevation);
  if (root === null || found.length === 0) return;
  const given = listIn(root.sections);
  // Kept before, and perhaps changed since, while the layout is still the old one.
  if (found.every(({ id }) => given.some((section) => section.id === id))) return;
  root.sections = found.map(({ id, box, direction }) => {
    const widest = given.flatMap((section) =>
      typeof section.maxAcross === "number" && overlap(section.box, box) ? [section.maxAcross] : [],
    );
    return { id, box, direction, ...(widest.length > 0 ? { maxAcross: Math.min(...widest) } : {}) };
  });
}

/** The elevation whose outline and sections this one has or takes over. */
function rootOf(job: JobJson, elevation: string): Entry | null {
  const elevations = listIn(job.elevations);
  return elevations[mirrorChain(elevations, elevation).at(-1) ?? -1] ?? null;
}

const overlap = (one: unknown, [left, bottom, right, top]: Found["box"]): boolean => {
  if (!Array.isArray(one)) return false;
  const [x0, y0, x1, y1] = one as number[];
  return Number(x0) < right && left < Number(x1) && Number(y0) < top && bottom < Number(y1);
};
