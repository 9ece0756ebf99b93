import type { Instance } from "../model/instance.ts";
import type { Load, Panel } from "../model/plan.ts";

/**
 * In what order the cuts are printed: load after load, since a load once threaded is printed to its end.
 *
 * @param rolls in any order; the cuts of a load in the order in which they lie on it
 * @returns `loadId:cutNumber`, every cut once, cut numbers from 1 and ascending within a load
 *
 * Loads of one film follow one another, within them those of one width and then of one lot, so that film is changed
 * seldom and one colour is printed in one go; then by the panel that comes first on them: vehicle or room, copy,
 * elevation. Ties: as listed. Time O(pieces + loads log loads).
 */
export function printOrder(instance: Instance, panels: readonly Panel[], rolls: readonly Load[]): readonly string[] {
  const ranks = firstRanks(instance, panels, rolls);
  const film = new Map(instance.films.map(({ id }, i) => [id, i]));
  const order = rolls.map((load, index) => ({ load, rank: ranks[index] as Rank }));
  order.sort((a, b) => compare(a.rank, b.rank));
  const seen = new Map<string, number>();
  const key = ({ film, width, lot, stock }: Load) =>
    `${film} ${width} ${lot ?? (stock === null ? "new" : `entry ${stock}`)}`;
  for (const { load } of order) if (!seen.has(key(load))) seen.set(key(load), seen.size);
  const widthPlace = new Map<string, number>();
  const widthKey = ({ film, width }: Load) => `${film} ${width}`;
  for (const { load } of order) if (!widthPlace.has(widthKey(load))) widthPlace.set(widthKey(load), widthPlace.size);
  order.sort(
    (a, b) =>
      (film.get(a.load.film) ?? 0) - (film.get(b.load.film) ?? 0) ||
      (widthPlace.get(widthKey(a.load)) as number) - (widthPlace.get(widthKey(b.load)) as number) ||
      (seen.get(key(a.load)) as number) - (seen.get(key(b.load)) as number),
  );
  return order.flatMap(({ load }) => load.cuts.map((_, i) => `${load.id}:${i + 1}`));
}

/** Group of elevations, copy, elevation; what belongs to no elevation comes last. */
type Rank = readonly [number, number, number];

const LAST: Rank = [Number.MAX_SAFE_INTEGER, 0, 0];

const compare = (a: Rank, b: Rank): number => a[0] - b[0] || a[1] - b[1] || a[2] - b[2];

/** For each load the rank of the panel on it that comes first. */
function firstRanks(instance: Instance, panels: readonly Panel[], rolls: readonly Load[]): Rank[] {
  const groups = groupsOf(instance);
  const places = new Map(instance.elevations.map(({ id }, i) => [id, i]));
  const elevationOf = new Map(panels.map(({ id, elevation }) => [id, elevation]));
  for (const { id, elevation } of instance.pieces) if (elevation !== null) elevationOf.set(id, elevation);
  return rolls.map(({ cuts }) => {
    let first = LAST;
    for (const { pieces } of cuts) {
      for (const { id, copy } of pieces) {
        const elevation = elevationOf.get(id);
        if (elevation === undefined) continue;
        const rank: Rank = [groups.get(elevation) ?? 0, copy, places.get(elevation) ?? 0];
        if (compare(rank, first) < 0) first = rank;
      }
    }
    return first;
  });
}

/** By elevation: the place of the first elevation of its vehicle or room. */
function groupsOf({ elevations }: Instance): Map<string, number> {
  const first = new Map<string, number>();
  return new Map(
    elevations.map(({ id, subject }, i) => {
      const place = subject === null ? i : (first.get(subject) ?? i);
      if (subject !== null) first.set(subject, place);
      return [id, place];
    }),
  );
}
