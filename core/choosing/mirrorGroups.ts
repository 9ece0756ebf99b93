import type { Elevation } from "../model/instance.ts";

/** An elevation with all that repeat it, directly or through another: they share one split. */
export interface MirrorGroup {
  readonly source: Elevation;
  readonly mirrors: readonly Elevation[];
}

/** The groups in the order of their sources; members in the order of the job. */
export function mirrorGroups(elevations: readonly Elevation[]): MirrorGroup[] {
  const byId = new Map(elevations.map((elevation) => [elevation.id, elevation]));
  const sourceOf = (elevation: Elevation): Elevation => {
    let here = elevation;
    while (here.mirrorOf !== null) here = byId.get(here.mirrorOf) as Elevation;
    return here;
  };
  return elevations
    .filter(({ mirrorOf }) => mirrorOf === null)
    .map((source) => ({
      source,
      mirrors: elevations.filter((elevation) => elevation !== source && sourceOf(elevation) === source),
    }));
}
