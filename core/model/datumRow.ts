import type { Axis, Side } from "../geometry/box.ts";
import type { Ticks } from "../units/ticks.ts";
import type { Break } from "./instance.ts";

/** Distances from the edges of the body, to the nearest 1/16 in or 1 mm, halves up; null where none is to be measured. */
export type FromEdges = Readonly<Record<Side, Ticks | null>>;

/**
 * One line of the datum sheet: where lettering, a logo or a seam lies, as a fitter measures it off the body. Of a zone each
 * side is measured to the edge of the body on that side; of an upright seam left and right, of a level one bottom and top.
 */
export interface DatumRow {
  readonly elevation: string;
  readonly kind: "lettering" | "logo" | "seam";
  /** Id of the zone or the seam. */
  readonly id: string;
  readonly label: string;
  /** Of a seam; null for a zone. */
  readonly axis: Axis | null;
  readonly fromEdges: FromEdges;
  /** Height at which left and right are measured, in the elevation's own frame, to a mark of the tape; null without. */
  readonly atHeight: Ticks | null;
  /** Place from left to right at which bottom and top are measured, likewise. */
  readonly atPlace: Ticks | null;
  readonly nearestBreak: NearestBreak | null;
  readonly otherSide: OtherSide | null;
}

/** The gap, moulding or body line that lies nearest. */
export interface NearestBreak {
  readonly id: string;
  readonly type: Break["type"];
  readonly axis: Axis;
  /** On which side of the lettering or seam it lies; "through" where it runs through or on it. */
  readonly side: Side | "through";
  /** To the nearest end of the lettering or to the seam; of one that runs through lettering, from its left or lower end. */
  readonly distance: Ticks;
}

/** The same lettering or seam on the elevation that shows the body's other side. */
export interface OtherSide {
  readonly elevation: string;
  readonly id: string;
  /** Measured in the same way there, with left and right changed over, so that each compares with its own. */
  readonly fromEdges: FromEdges;
  /** The most that two of these measures differ. */
  readonly difference: Ticks;
}
