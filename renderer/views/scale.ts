import { type Elevation, ticksTo, type Unit } from "../../core/index.ts";
import { useSheet } from "../state/context.ts";

/** Room for dimensions beside a drawing, in pixels. */
const roomBeside = 72;
/** The tallest an elevation is drawn when it is fitted: this share of the window, and never less than so many pixels. */
const shareOfWindow = 0.38;
const leastTall = 220;
/** Pixels between two drawings, and how much of its size a drawing keeps at least to let another stand beside it. */
const between = 16;
const leastShare = 0.8;

/** Pixels per unit at which the widest elevation fills the band, or a share of it, and none grows too tall. */
export function fittingScale(
  elevations: readonly Elevation[],
  unit: Unit,
  width: number,
  windowHeight: number,
): number {
  if (elevations.length === 0) return unit === "in" ? 2 : 0.1;
  const across = Math.max(...elevations.map(({ box }) => ticksTo(box.x1 - box.x0, unit)));
  const up = Math.max(...elevations.map(({ box }) => ticksTo(box.y1 - box.y0, unit)));
  const fitted = Math.min((width - roomBeside) / across, Math.max(leastTall, shareOfWindow * windowHeight) / up);
  // A little smaller, and one more stands beside the others: worth it as long as little is lost.
  const abreast = Math.floor((width + between) / (fitted * across + roomBeside + between)) + 1;
  const oneMore = ((width + between) / abreast - between - roomBeside) / across;
  const worthIt = abreast <= elevations.length && oneMore >= leastShare * fitted;
  return Math.max(1e-6, worthIt ? oneMore : fitted);
}

/** Elevation and film are drawn at one scale, so that what looks larger is larger. */
export function useScale(elevations: readonly Elevation[], unit: Unit, width: number): { pixelsPerUnit: number } {
  const zoom = useSheet((state) => state.view.zoom);
  return { pixelsPerUnit: zoom ?? fittingScale(elevations, unit, width, window.innerHeight) };
}
