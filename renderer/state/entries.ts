/** A job document read loosely: an unfinished or wrong job is shown and edited too, so nothing in it is taken for granted. */
export type Entry = Record<string, unknown>;

/** The entries of a list; none where no list stands. */
export const listIn = (value: unknown): Entry[] => (Array.isArray(value) ? (value as Entry[]) : []);

/** What an entry goes by: its name, else its id, else its number. */
export const titleOf = (entry: Entry, place: number): string => String(entry.name || entry.id || place + 1);

/**
 * An elevation and what it mirrors, what that mirrors, and so on to the one with an outline of its own. Ends early where
 * one is missing or they go round in a circle.
 *
 * @returns places in the job's list, the asked one first
 */
export function mirrorChain(elevations: readonly Entry[], id: string): number[] {
  const chain: number[] = [];
  for (let here: unknown = id; typeof here === "string"; ) {
    const place = elevations.findIndex((entry) => entry.id === here);
    if (place < 0 || chain.includes(place)) break;
    chain.push(place);
    here = elevations[place]?.mirrorOf;
  }
  return chain;
}

/** A list of features as the reader takes it: an elevation's own unless empty, else that of the one it mirrors. */
export function featuresOf(elevations: readonly Entry[], id: string, key: string): Entry[] {
  for (const place of mirrorChain(elevations, id)) {
    const own = listIn(elevations[place]?.[key]);
    if (own.length > 0) return own;
  }
  return [];
}

/** Sections that an elevation is given, by id: its own or those it mirrors; `whole` where none are. */
export function sectionIds(elevations: readonly Entry[], id: string): string[] {
  const root = elevations[mirrorChain(elevations, id).at(-1) ?? -1];
  const given = listIn(root?.sections).map((section) => String(section.id));
  return given.length === 0 ? ["whole"] : given;
}
