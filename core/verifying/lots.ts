import type { Elevation } from "../model/instance.ts";
import type { Load } from "../model/plan.ts";
import type { Job } from "./job.ts";
import type { LayoutView } from "./layoutView.ts";

/** What must come from one lot: one copy of an elevation, of a subject or of elevations held together, on one film. */
export interface CopyGroup {
  /** The name that it has in the job: the elevation's, the subject's or that of the elevations held together. */
  readonly name: string;
  readonly copy: number;
  readonly film: string;
  readonly loads: ReadonlySet<Load>;
  /** Ids and names of the elevations whose panels are in it. */
  readonly elevations: ReadonlySet<string>;
}

/** Every group of the layout; where lots may be mixed freely only those that the job holds together by name. */
export function copyGroups({ job, placed }: LayoutView): CopyGroup[] {
  const bonds = bondsOf(job);
  const groups = new Map<string, CopyGroup & { readonly loads: Set<Load>; readonly elevations: Set<string> }>();
  for (const { load, piece, panel } of placed) {
    const elevation = panel === null ? undefined : job.elevations.get(panel.elevation)?.elevation;
    if (elevation === undefined) continue;
    for (const { kind, name } of bonds.get(elevation.id) ?? []) {
      const key = JSON.stringify([kind, name, piece.copy, load.film]);
      const group = groups.get(key) ?? {
        name,
        copy: piece.copy,
        film: load.film,
        loads: new Set<Load>(),
        elevations: new Set<string>(),
      };
      group.loads.add(load);
      group.elevations.add(elevation.id).add(elevation.name);
      groups.set(key, group);
    }
  }
  return [...groups.values()];
}

interface Bond {
  readonly kind: "elevation" | "subject" | "held";
  readonly name: string;
}

/** What each elevation shares its lots with: by the rule for all, and with those that it is named together with. */
function bondsOf({ instance: { elevations, sameLot, rules } }: Job): ReadonlyMap<string, readonly Bond[]> {
  const byRule = ({ id, subject }: Elevation): Bond[] => {
    if (rules.oneLot === "none") return [];
    return rules.oneLot === "subject" && subject !== null
      ? [{ kind: "subject", name: subject }]
      : [{ kind: "elevation", name: id }];
  };
  return new Map(
    elevations.map((elevation) => [
      elevation.id,
      [
        ...byRule(elevation),
        ...sameLot
          .filter((entry) => entry.elevations.includes(elevation.id))
          .map(({ id }): Bond => ({ kind: "held", name: id })),
      ],
    ]),
  );
}

/** A name for the lot of a load: stock without a lot is one of its own, all new rolls of a film are one. */
export function lotOf(load: Load, job: Job): string {
  if (load.stock === null) return `new ${load.film}`;
  const lot = job.stock.get(load.stock)?.lot ?? null;
  return lot === null ? `entry ${load.stock}` : `lot ${lot}`;
}
