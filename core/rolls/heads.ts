import type { Instance } from "../model/instance.ts";
import type { Panel, PlacedPiece } from "../model/plan.ts";

/**
 * Which panels lie head to foot: of a section with alternating heads those with even numbers, so that the odd ones share
 * one turn and the even ones the other. Fills, and sections that the elevation does not list, go by the elevation.
 */
export function headToFoot({ elevations }: Instance): (panel: Panel) => boolean {
  const byId = new Map(elevations.map((elevation) => [elevation.id, elevation]));
  return ({ id, elevation, section, role }) => {
    const of = byId.get(elevation);
    if (of === undefined) throw new Error(`no elevation "${elevation}" in this job`);
    const listed = role === "fill" ? undefined : of.sections.find((candidate) => candidate.id === section);
    return (listed ?? of).heads === "alternate" && numberOf(id) % 2 === 0;
  };
}

/** The number at the end of a panel's id. */
const numberOf = (id: string): number => Number(id.slice(id.lastIndexOf("/") + 1));

/** A turn with half a turn more. */
export const turnedOver = (turn: PlacedPiece["turn"]): PlacedPiece["turn"] =>
  ((turn + 180) % 360) as PlacedPiece["turn"];
