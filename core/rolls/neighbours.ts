import { boundingBox } from "../geometry/box.ts";
import type { Elevation, Instance } from "../model/instance.ts";
import type { Panel } from "../model/plan.ts";
import { joinedBy, subjectBonds } from "./together.ts";

/** One copy of a panel or loose piece. `rank` is ascending in the order in which neighbours follow one another. */
export interface Item {
  readonly id: string;
  readonly copy: number;
  readonly rank: readonly number[];
  /** Turned head to foot against its neighbours; it takes the same box. */
  readonly headToFoot: boolean;
}

/** Compares ranks number by number. */
export function compareRanks(a: readonly number[], b: readonly number[]): number {
  for (let i = 0; i < Math.min(a.length, b.length); i++) {
    const difference = (a[i] as number) - (b[i] as number);
    if (difference !== 0) return difference;
  }
  return a.length - b.length;
}

/**
 * Ranks that bring neighbours together: first what belongs to one vehicle or room, then its copy, its elevations in the
 * job's order, sections in that of `panels` (fills last), panels from left to right or bottom to top.
 *
 * @param panels all that are to be ranked, those of one section together
 */
export function panelRank(instance: Instance, panels: readonly Panel[]): (panel: Panel, copy: number) => number[] {
  const places = new Map(instance.elevations.map(({ id }, index) => [id, index]));
  const sections = new Map<string, number>();
  for (const panel of panels) if (!sections.has(sectionOf(panel))) sections.set(sectionOf(panel), sections.size);
  const groups = groupRanks(instance);
  return (panel, copy) => {
    const { x0, y0 } = panel.window;
    return [
      groups.get(panel.elevation) as number,
      copy,
      places.get(panel.elevation) as number,
      sections.get(sectionOf(panel)) as number,
      panel.direction === "vertical" ? x0 : y0,
    ];
  };
}

const sectionOf = ({ elevation, section }: Panel): string => `${elevation}/${section}`;

/** After every place in a list; finite, so that ranks can be subtracted. */
const LAST = Number.MAX_SAFE_INTEGER;

/**
 * Loose pieces lie with the elevation they belong to, after its panels; those of none come last. Among them size goes
 * before the job's order, so that listing the pieces in another order moves no cut.
 */
export function looseRank(instance: Instance): (piece: number, copy: number) => number[] {
  const groups = groupRanks(instance);
  const sizes = instance.pieces.map(({ outline }) => {
    const { x0, y0, x1, y1 } = boundingBox(outline);
    return [y0 - y1, x0 - x1] as const;
  });
  return (piece, copy) => {
    const elevation = instance.pieces[piece]?.elevation ?? null;
    const group = elevation === null ? undefined : groups.get(elevation);
    const size = sizes[piece] ?? [];
    return group === undefined ? [LAST, ...size, piece, copy] : [group, copy, LAST, ...size, piece];
  };
}

/** By elevation: the place in the job of the first elevation of its subject, or of those that share a lot with it. */
export function groupRanks(instance: Instance): Map<string, number> {
  const { elevations, sameLot } = instance;
  const bonds = [...subjectBonds(instance), ...sameLot.map(({ id, elevations }) => ({ name: id, elevations }))];
  return new Map(
    joinedBy(elevations, bonds).flatMap((members) => {
      const first = elevations.indexOf(members[0] as Elevation);
      return members.map(({ id }) => [id, first] as const);
    }),
  );
}
