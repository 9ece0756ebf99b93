import type { Elevation, Instance } from "../model/instance.ts";

/** Elevations that belong together, by id, and what to call them. */
export interface Bond {
  readonly name: string;
  readonly elevations: readonly string[];
}

/** The job's elevations by subject; one without a subject stays by itself and is left out. */
export function subjectBonds({ elevations }: Pick<Instance, "elevations">): Bond[] {
  const bySubject = new Map<string, string[]>();
  for (const { id, subject } of elevations) {
    if (subject !== null) bySubject.set(subject, [...(bySubject.get(subject) ?? []), id]);
  }
  return [...bySubject].map(([name, ids]) => ({ name, elevations: ids }));
}

/**
 * Elevations joined by bonds: two that one bond names are in one group, and so are all that hang together by such pairs.
 *
 * @returns every elevation in one group; groups in the order of their first elevations, members in the order given
 */
export function joinedBy(elevations: readonly Elevation[], bonds: readonly Bond[]): (readonly Elevation[])[] {
  let groups: (readonly Elevation[])[] = elevations.map((elevation) => [elevation]);
  for (const bond of bonds) {
    const met = groups.filter((group) => group.some(({ id }) => bond.elevations.includes(id)));
    if (met.length < 2) continue;
    const whole = elevations.filter((elevation) => met.some((group) => group.includes(elevation)));
    groups = groups.flatMap((group) => (group === met[0] ? [whole] : met.includes(group) ? [] : [group]));
  }
  return groups;
}
