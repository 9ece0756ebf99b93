import { type Box, boundingBox } from "../geometry/box.ts";
import type { Elevation, Instance, LoosePiece } from "../model/instance.ts";
import type { FittingStep, Panel, Seam } from "../model/plan.ts";
import type { Unit } from "../units/ticks.ts";
import { lapOrder, type Sequence, straightPanel } from "./lapOrder.ts";
import { type Lap, lapsOf } from "./laps.ts";
import { lengthIn } from "./words.ts";

/**
 * What a fitter does on one copy of each elevation, step by step: inlays and whatever lies under the panels, the panels and
 * fills, then overlays and decals.
 *
 * @param panels of all elevations, each once
 * @param seams with `top` naming a panel inside a section, a section at a border
 * @returns every panel and fill and every loose piece that names the elevation once, elevations in the job's order, loose
 *   pieces in the order of the job, each with its reason; or a circle of laps, for which no order exists
 *
 * Of two panels that lap the one under goes first, but for breaks: there both films are trimmed in the gap, neither stays
 * on the other, and so the order is free. Of those free to go next, see `lapOrder`. Time O(panels squared + panels x laps)
 * per elevation. Inlays before and overlays after the panels: common practice, no source.
 */
export function fittingSteps(
  instance: Instance,
  panels: readonly Panel[],
  seams: readonly Seam[],
): Sequence<FittingStep> {
  const steps: FittingStep[] = [];
  for (const elevation of instance.elevations) {
    const own = panels.filter((panel) => panel.elevation === elevation.id);
    const laps = lapsOf(
      own,
      seams.filter((seam) => seam.elevation === elevation.id),
    );
    const straight = straightPanel(elevation, own);
    const binding = laps.filter((lap) => !isTrimmed(lap));
    const ordered = lapOrder(elevation, own, binding, straight);
    if ("circle" in ordered) return ordered;
    const loose = instance.pieces.filter((piece) => piece.elevation === elevation.id);
    steps.push(
      ...loose.filter(isUnder).map((piece) => looseStep(elevation, piece, own)),
      ...ordered.steps.map((panel) => ({
        elevation: elevation.id,
        item: panel.id,
        role: panel.role,
        why: reason(elevation, panel, panel === straight, laps, instance.unit),
      })),
      ...loose.filter((piece) => !isUnder(piece)).map((piece) => looseStep(elevation, piece, own)),
    );
  }
  return { steps };
}

const isTrimmed = ({ seam }: Lap): boolean => seam.kind === "break";

/** An inlay lies in its recess under the panels, whatever layer it gives. */
const isUnder = ({ role, layer }: LoosePiece): boolean => role === "inlay" || layer === -1;

function looseStep(elevation: Elevation, piece: LoosePiece, panels: readonly Panel[]): FittingStep {
  const { at, outline } = piece;
  const box = at === null ? null : moved(boundingBox(outline), at.x, at.y);
  const met = box === null ? [] : panels.filter(({ window }) => overlap(window, box)).map(({ id }) => id);
  const which = met.length > 0 ? met.join(", ") : "the panels";
  const why = isUnder(piece)
    ? `${piece.role === "inlay" ? "Goes into its recess" : "Lies"} under ${which}, so it goes on before the panels`
    : `Lies over ${which}, so it goes on after the panels`;
  return { elevation: elevation.id, item: piece.id, role: piece.role, why };
}

const moved = (box: Box, x: number, y: number): Box => ({
  x0: box.x0 + x,
  y0: box.y0 + y,
  x1: box.x1 + x,
  y1: box.y1 + y,
});

const overlap = (a: Box, b: Box): boolean => a.x0 < b.x1 && b.x0 < a.x1 && a.y0 < b.y1 && b.y0 < a.y1;

function reason(elevation: Elevation, panel: Panel, isStraight: boolean, laps: readonly Lap[], unit: Unit): string {
  const parts: string[] = [];
  if (isStraight) {
    const label = elevation.keepClear.find(({ id }) => id === elevation.straight)?.label ?? elevation.straight;
    parts.push(`carries "${label}", which must be straight, so it goes on as early as laps allow`);
  }
  const bound = laps.filter((lap) => !isTrimmed(lap));
  const above = bound.filter(({ under }) => under === panel);
  if (above.length > 0) {
    const covers = above.map(({ over, shared }) => `${over.id}, which laps over it by ${lengthIn(shared, unit)}`);
    parts.push(`lies under ${covers.join(" and ")}`);
  }
  const below = [...new Set(bound.filter(({ over }) => over === panel).map(({ under }) => under.id))];
  if (below.length > 0) parts.push(`laps over ${below.join(", ")}`);
  const trimmed = laps.filter((lap) => isTrimmed(lap) && (lap.under === panel || lap.over === panel));
  const places = new Set(trimmed.map(({ seam }) => placeOf(elevation, seam, unit)));
  for (const place of places) parts.push(`trimmed ${place}, so either side may go first`);
  if (parts.length === 0) return "Laps no other panel";
  const said = parts.join("; ");
  return said.charAt(0).toUpperCase() + said.slice(1);
}

/** Where both films end: "in the gap at 110 1/2 in". */
function placeOf({ breaks }: Elevation, seam: Seam, unit: Unit): string {
  const spanning = breaks.filter(
    ({ axis, at, from, to, type }) =>
      type !== "bodyLine" && axis === seam.axis && at === seam.at && from <= seam.from && to >= seam.to,
  );
  const isMoulding = spanning.length > 0 && spanning.every(({ type }) => type === "moulding");
  return `${isMoulding ? "at the moulding" : "in the gap"} at ${lengthIn(seam.at, unit)}`;
}
