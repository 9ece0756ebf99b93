import type { Side } from "../geometry/box.ts";
import type { Panel, PlacedPiece } from "../model/plan.ts";

/**
 * How far the artwork is turned on the roll, counter-clockwise, print face up and looking along the feed: a vertical
 * panel or a loose piece lies as drawn at turn 0, a horizontal panel a quarter turn on.
 */
export function artworkTurn(piece: PlacedPiece, panel: Panel | null): 0 | 90 | 180 | 270 {
  const base = panel?.direction === "horizontal" ? 90 : 0;
  return ((base + piece.turn) % 360) as 0 | 90 | 180 | 270;
}

/** The edge of the artwork that lies toward the roll's start, so that the printer prints it first. */
export const printedFirst: Readonly<Record<0 | 90 | 180 | 270, Side>> = {
  0: "bottom",
  90: "left",
  180: "top",
  270: "right",
};

/** The edge of the artwork that lies toward the roll's left edge. */
export const atRollLeft: Readonly<Record<0 | 90 | 180 | 270, Side>> = {
  0: "left",
  90: "top",
  180: "right",
  270: "bottom",
};
