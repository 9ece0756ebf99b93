import type { Elevation } from "../model/instance.ts";

/** An elevation with all that repeat it, directly or through another: they share one split. */
export interface MirrorGroup {
  readonly source: Elevation;
  readonly mirrors: readonly Elevation[];
  /** The source of the group that holds the elevation which `source` follows; null where it follows none. */
  readonly follows: string | null;
}

/**
 * The groups in the order of their sources, but for those that follow another: they come after it.
 *
 * A source mirrors nothing, or follows what it mirrors as far as its own features allow. Members in the order of the job.
 */
export function mirrorGroups(elevations: readonly Elevation[]): MirrorGroup[] {
  const byId = new Map(elevations.map((elevation) => [elevation.id, elevation]));
  const sourceOf = (elevation: Elevation): Elevation => {
    let here = elevation;
    while (here.mirrorOf !== null && here.mirror === "exact") here = byId.get(here.mirrorOf) as Elevation;
    return here;
  };
  const groups = elevations
    .filter((elevation) => sourceOf(elevation) === elevation)
    .map((source): MirrorGroup => {
      const leader = source.mirrorOf === null ? undefined : byId.get(source.mirrorOf);
      return {
        source,
        mirrors: elevations.filter((elevation) => elevation !== source && sourceOf(elevation) === source),
        follows: leader === undefined ? null : sourceOf(leader).id,
      };
    });
  const placed: MirrorGroup[] = [];
  for (let left = groups; left.length > 0; ) {
    const next = left.find(({ follows }) => follows === null || placed.some(({ source }) => source.id === follows));
    if (next === undefined) throw new RangeError(`${left[0]?.source.id} follows itself`);
    placed.push(next);
    left = left.filter((group) => group !== next);
  }
  return placed;
}
