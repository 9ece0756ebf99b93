import { useMemo } from "react";
import { type Elevation, ticksTo, type Unit } from "../../core/index.ts";
import type { PlanLayout } from "../../shared/planFile.ts";
import { fitElevation } from "../drawing/index.ts";
import { useSheet } from "../state/context.ts";

/** The tallest a drawing is when it is fitted: this share of the window, and never less than so many pixels. */
const shareOfWindow = 0.5;
const leastTall = 320;
/** Pixels between two drawings, and how much of its size a drawing keeps at least to let another stand beside it. */
const between = 16;
const leastShare = 0.8;

/**
 * Pixels per unit at which the widest elevation with its dimensions fills the band, or a share of it, and none grows too
 * tall.
 */
export function fittingScale(
  elevations: readonly Elevation[],
  layout: PlanLayout | null,
  unit: Unit,
  width: number,
  windowHeight: number,
): number {
  if (elevations.length === 0) return unit === "in" ? 2 : 0.1;
  const tall = Math.max(leastTall, shareOfWindow * windowHeight);
  const fitted = (room: number): number =>
    Math.min(...elevations.map((elevation) => fitElevation(elevation, layout, unit, room, tall)));
  const alone = fitted(width);
  // A little smaller, and one more stands beside the others: worth it as long as little is lost.
  const widest = Math.max(...elevations.map(({ box }) => ticksTo(box.x1 - box.x0, unit)));
  const abreast = Math.floor((width + between) / (alone * widest + between)) + 1;
  if (abreast > elevations.length) return alone;
  const oneMore = fitted((width - between * (abreast - 1)) / abreast);
  return oneMore >= leastShare * alone ? oneMore : alone;
}

/** Elevation and film are drawn at one scale, so that what looks larger is larger. */
export function useScale(
  elevations: readonly Elevation[],
  layout: PlanLayout | null,
  unit: Unit,
  width: number,
): { pixelsPerUnit: number } {
  const zoom = useSheet((state) => state.view.zoom);
  const fitting = useMemo(
    () => fittingScale(elevations, layout, unit, width, window.innerHeight),
    [elevations, layout, unit, width],
  );
  return { pixelsPerUnit: zoom ?? fitting };
}
