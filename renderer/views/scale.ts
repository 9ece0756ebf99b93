import { type Elevation, ticksTo, type Unit } from "../../core/index.ts";
import { useSheet } from "../state/context.ts";

/** Room for dimensions beside a drawing, and the tallest an elevation is drawn when it is fitted, in pixels. */
const roomBeside = 72;
const tallest = 280;

/** Pixels per unit at which the widest elevation fills the band and none grows too tall. */
export function fittingScale(elevations: readonly Elevation[], unit: Unit, width: number): number {
  if (elevations.length === 0) return unit === "in" ? 2 : 0.1;
  const across = Math.max(...elevations.map(({ box }) => ticksTo(box.x1 - box.x0, unit)));
  const up = Math.max(...elevations.map(({ box }) => ticksTo(box.y1 - box.y0, unit)));
  return Math.max(1e-6, Math.min((width - roomBeside) / across, tallest / up));
}

/** Elevation and film are drawn at one scale, so that what looks larger is larger. */
export function useScale(elevations: readonly Elevation[], unit: Unit, width: number): { pixelsPerUnit: number } {
  const zoom = useSheet((state) => state.view.zoom);
  return { pixelsPerUnit: zoom ?? fittingScale(elevations, unit, width) };
}
