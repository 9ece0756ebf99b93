import {
  type Box,
  fitToBox,
  LEAST_APART,
  MOST_TURN,
  type Picture,
  pixelSize,
  placedByDistance,
  placedByTwo,
  type Registered,
  type Registration,
  TICKS_PER,
  type Ticks,
  type Unit,
} from "../../core/index.ts";
import { showNumber } from "../state/lengths.ts";

/** A marked place: in pixels from the picture's upper left corner, and on the elevation in ticks. */
export interface Mark {
  readonly pixel: { readonly x: number; readonly y: number };
  readonly place: { readonly x: Ticks; readonly y: Ticks };
}

/** How the user says a picture lies on its elevation. */
export interface Placing {
  /** fit: over the whole box; places: A and B by where they lie; distance: A by where it lies, B by how far it is. */
  readonly way: "fit" | "places" | "distance";
  readonly a: Mark;
  readonly b: Mark;
  readonly distance: Ticks;
}

/** Where a picture begins: over the whole box, A and B at its lower left and upper right corner. */
export function firstPlacing({ width, height }: Pick<Picture, "width" | "height">, box: Box): Placing {
  return {
    way: "fit",
    a: { pixel: { x: 0, y: height }, place: { x: box.x0, y: box.y0 } },
    b: { pixel: { x: width, y: 0 }, place: { x: box.x1, y: box.y1 } },
    distance: Math.round(Math.hypot(box.x1 - box.x0, box.y1 - box.y0)),
  };
}

/** The registration that a placing asks for with a sentence on it; or why there is none. */
export type Laid = { readonly registration: Registration; readonly says: string } | { readonly why: string };

export function lay(placing: Placing, picture: Pick<Picture, "width" | "height">, box: Box, unit: Unit): Laid {
  const fineness = (registration: Registration): string => {
    const [length, word] = unit === "in" ? [TICKS_PER.in, "an inch"] : [10 * TICKS_PER.mm, "a centimetre"];
    const pixels = showNumber(length / pixelSize(registration), 1);
    return `${pixels} ${pixels === "1" ? "pixel" : "pixels"} ${word}`;
  };
  if (placing.way === "fit") {
    const { registration, misfit } = fitToBox(picture, box);
    const sides =
      misfit < 0.05
        ? "Its sides are as the elevation's."
        : `Its sides differ from the elevation's by ${showNumber(misfit, 1)} %, so it is stretched by as much.`;
    return { registration, says: `${fineness(registration)}. ${sides}` };
  }
  const found: Registered =
    placing.way === "places"
      ? placedByTwo(placing.a, placing.b)
      : placedByDistance(placing.a, placing.b.pixel, placing.distance);
  if ("fault" in found) return { why: faultWords(found) };
  const turned = Math.abs(found.turn) < 0.05 ? "" : ` Turned by ${showNumber(found.turn, 1)}°.`;
  return { registration: found.registration, says: `${fineness(found.registration)}.${turned}` };
}

function faultWords({ fault, turn }: Extract<Registered, { fault: unknown }>): string {
  if (fault === "close") {
    return `A and B lie too close together. Take two places at least ${LEAST_APART} pixels apart, better at opposite ends.`;
  }
  return (
    `A and B would turn the picture by ${showNumber(Math.abs(turn), 1)}°; up to ${MOST_TURN}° are put right. ` +
    "Check that the two are not mixed up, or straighten the picture first."
  );
}
