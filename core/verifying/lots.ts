import type { Load } from "../model/plan.ts";
import type { Job } from "./job.ts";
import type { LayoutView } from "./layoutView.ts";

/** What must come from one lot: one copy of an elevation, or of a subject, on one film. */
export interface CopyGroup {
  /** The elevation's or the subject's name in the job. */
  readonly name: string;
  readonly copy: number;
  readonly film: string;
  readonly loads: ReadonlySet<Load>;
}

/** Every group of the layout; none when lots may be mixed freely. */
export function copyGroups({ job, placed }: LayoutView): CopyGroup[] {
  const { oneLot } = job.instance.rules;
  if (oneLot === "none") return [];
  const groups = new Map<string, CopyGroup & { readonly loads: Set<Load> }>();
  for (const { load, piece, panel } of placed) {
    const elevation = panel === null ? undefined : job.elevations.get(panel.elevation)?.elevation;
    if (elevation === undefined) continue;
    const bySubject = oneLot === "subject" && elevation.subject !== null;
    const name = bySubject ? (elevation.subject as string) : elevation.id;
    const key = JSON.stringify([bySubject, name, piece.copy, load.film]);
    const group = groups.get(key) ?? { name, copy: piece.copy, film: load.film, loads: new Set<Load>() };
    group.loads.add(load);
    groups.set(key, group);
  }
  return [...groups.values()];
}

/** A name for the lot of a load: stock without a lot is one of its own, all new rolls of a film are one. */
export function lotOf(load: Load, job: Job): string {
  if (load.stock === null) return `new ${load.film}`;
  const lot = job.stock.get(load.stock)?.lot ?? null;
  return lot === null ? `entry ${load.stock}` : `lot ${lot}`;
}
