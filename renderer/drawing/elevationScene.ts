import type { Dimension } from "./dimensions.ts";
import { dimensionChains, dimensionsOf, type Margins, marginsOf } from "./elevationDimensions.ts";
import { type Lettering, lettering } from "./elevationLettering.ts";
import {
  type EdgePath,
  type FaintLine,
  type FoundShape,
  type Front,
  type PanelShape,
  type SeamShape,
  type StretchShape,
  windowTicks,
  type ZoneShape,
} from "./elevationShapes.ts";
import { type Frame, polygonPath, screenBox, screenX, screenY } from "./frame.ts";
import { edgePaths, foundShapes, freeStretches, isHeld, isWidthHeld } from "./held.ts";
import { panelKey, seamKey, zoneKey } from "./ids.ts";
import { figure, lengthText, TICKS_PER, ticksFrom, type Unit } from "./lengths.ts";
import type { Break, Elevation, Hold, PlanLayout, PlanPanel, PlanSeam } from "./model.ts";
import { type Rectangle, rectangle, shared } from "./rectangle.ts";
import type { Line } from "./strokes.ts";
import { breakHint, obstacleSentence, panelSentence, seamSentence, zoneSentence } from "./words.ts";

/** Everything one elevation's drawing shows, in pixels, ready to be set down. */
export interface ElevationScene extends Lettering {
  readonly width: number;
  readonly height: number;
  readonly frame: Frame;
  readonly outline: string;
  readonly outlineBox: Rectangle;
  readonly openings: readonly { readonly id: string; readonly path: string; readonly box: Rectangle }[];
  readonly panels: readonly PanelShape[];
  readonly seams: readonly SeamShape[];
  readonly zones: readonly ZoneShape[];
  readonly faint: readonly FaintLine[];
  readonly edgePaths: readonly EdgePath[];
  readonly found: readonly FoundShape[];
  readonly freeOfSeams: readonly StretchShape[];
  readonly dimensions: readonly Dimension[];
  readonly front: Front | null;
}

/**
 * The drawing of one elevation.
 *
 * @param elevation in ticks
 * @param layout in the job's unit; null while no plan is there: then the elevation alone is drawn
 * @param pixelsPerUnit pixels per unit of the job
 * @param holds all that bind the elevation: its own, and those of what shares its windows
 */
export function elevationScene(
  elevation: Elevation,
  layout: PlanLayout | null,
  unit: Unit,
  pixelsPerUnit: number,
  holds: readonly Hold[] = elevation.holds,
): ElevationScene {
  const scale = pixelsPerUnit / TICKS_PER[unit];
  const panels = layout?.panels.filter((panel) => panel.elevation === elevation.id) ?? [];
  const planSeams = layout?.seams.filter((seam) => seam.elevation === elevation.id) ?? [];
  const chains = dimensionChains(elevation, panels, unit, scale);
  const margins = marginsOf(elevation, panels, unit, scale, chains);
  const { box } = elevation;
  const frame: Frame = { scale, x0: box.x0, y1: box.y1, left: margins.left, top: margins.top };
  const drawn = { width: (box.x1 - box.x0) * scale, height: (box.y1 - box.y0) * scale };

  const windows = new Map(panels.map((panel) => [panel.id, screenBox(frame, windowTicks(panel, unit))]));
  const panelShapes = panels.map(
    (panel): PanelShape => ({
      key: panelKey(panel.id),
      role: panel.role,
      box: windows.get(panel.id) as Rectangle,
      says: `${panelSentence(panel, planSeams, unit)}${isWidthHeld(panel, holds, unit) ? ", width held" : ""}`,
    }),
  );
  const seams = planSeams.map((seam) =>
    seamShape(seam, elevation, panels, windows, frame, unit, isHeld(seam, holds, unit)),
  );
  const openings = elevation.openings.map(({ id, outline }) => ({
    id,
    path: polygonPath(frame, outline),
    box: boxOfPoints(frame, outline),
  }));
  const zones: ZoneShape[] = [
    ...elevation.keepClear.map(
      (zone): ZoneShape => ({
        key: zoneKey(elevation.id, "keepClear", zone.id),
        kind: "keepClear",
        rule: zone.rule,
        label: zone.label || zone.id,
        box: screenBox(frame, zone.box),
        says: zoneSentence(zone, unit),
      }),
    ),
    ...elevation.obstacles.map(
      (obstacle): ZoneShape => ({
        key: zoneKey(elevation.id, "obstacle", obstacle.id),
        kind: "obstacle",
        rule: obstacle.rule,
        label: obstacle.kind,
        box: screenBox(frame, obstacle.box),
        says: obstacleSentence(obstacle, unit),
      }),
    ),
  ];
  const lettered = lettering(elevation, layout, panels, windows, seams, zones, openings, frame, unit);
  const outlineBox = screenBox(frame, box);
  return {
    width: Math.ceil(Math.max(margins.left + drawn.width + margins.right, 220)),
    height: Math.ceil(margins.top + drawn.height + margins.bottom),
    frame,
    outline: polygonPath(frame, elevation.outline),
    outlineBox,
    openings,
    panels: panelShapes,
    seams,
    zones,
    faint: faintLines(elevation, planSeams, frame, unit),
    edgePaths: edgePaths(elevation, frame, unit),
    found: foundShapes(elevation, layout, frame, unit),
    freeOfSeams: freeStretches(elevation, holds, frame, unit),
    dimensions: dimensionsOf(elevation, panels, chains, unit, outlineBox, windows),
    ...lettered,
    front: frontOf(elevation, margins, drawn.width),
  };
}

/** The greatest scale, in pixels per unit, at which the drawing with its dimensions stays within width and height. */
export function fitElevation(
  elevation: Elevation,
  layout: PlanLayout | null,
  unit: Unit,
  width: number,
  height: number,
): number {
  const panels = layout?.panels.filter((panel) => panel.elevation === elevation.id) ?? [];
  const wide = (elevation.box.x1 - elevation.box.x0) / TICKS_PER[unit];
  const high = (elevation.box.y1 - elevation.box.y0) / TICKS_PER[unit];
  const fits = (pixels: number): boolean => {
    const scale = pixels / TICKS_PER[unit];
    const margins = marginsOf(elevation, panels, unit, scale, dimensionChains(elevation, panels, unit, scale));
    return (
      Math.ceil(wide * pixels + margins.left + margins.right) <= width &&
      Math.ceil(high * pixels + margins.top + margins.bottom) <= height
    );
  };
  // Never smaller than 8 pixels: in no room at all it scrolls.
  let low = 8 / Math.max(wide, high);
  let highest = Math.max(low, Math.min(width / wide, height / high));
  for (let halving = 0; halving < 24; halving++) {
    const middleOf = (low + highest) / 2;
    if (fits(middleOf)) low = middleOf;
    else highest = middleOf;
  }
  return low;
}

function boxOfPoints(frame: Frame, points: Elevation["outline"]): Rectangle {
  const xs = points.map(({ x }) => screenX(frame, x));
  const ys = points.map(({ y }) => screenY(frame, y));
  const x = Math.min(...xs);
  const y = Math.min(...ys);
  return { x, y, width: Math.max(...xs) - x, height: Math.max(...ys) - y };
}

function seamShape(
  seam: PlanSeam,
  elevation: Elevation,
  panels: readonly PlanPanel[],
  windows: ReadonlyMap<string, Rectangle>,
  frame: Frame,
  unit: Unit,
  held: boolean,
): SeamShape {
  const at = ticksFrom(seam.at, unit);
  const from = ticksFrom(seam.from, unit);
  const to = ticksFrom(seam.to, unit);
  const upright = seam.axis === "x";
  const line: Line = upright
    ? { x1: screenX(frame, at), x2: screenX(frame, at), y1: screenY(frame, to), y2: screenY(frame, from) }
    : { x1: screenX(frame, from), x2: screenX(frame, to), y1: screenY(frame, at), y2: screenY(frame, at) };
  const side = (name: string) => panels.filter((panel) => (seam.border ? panel.section : panel.id) === name);
  const bands: Rectangle[] = [];
  for (const low of side(seam.between[0])) {
    for (const high of side(seam.between[1])) {
      const band = shared(windows.get(low.id) as Rectangle, windows.get(high.id) as Rectangle);
      if (band) bands.push(band);
    }
  }
  const topIsHigh = seam.top === seam.between[1];
  return {
    key: seamKey(elevation.id, seam.id),
    kind: seam.kind,
    border: seam.border,
    line,
    top: upright ? (topIsHigh ? "right" : "left") : topIsHigh ? "up" : "down",
    held,
    bands,
    says: held ? `${seamSentence(seam, unit)}, held here` : seamSentence(seam, unit),
  };
}

function faintLines(elevation: Elevation, seams: readonly PlanSeam[], frame: Frame, unit: Unit): FaintLine[] {
  const line = (mark: Pick<Break, "axis" | "at" | "from" | "to">): Line =>
    mark.axis === "x"
      ? {
          x1: screenX(frame, mark.at),
          x2: screenX(frame, mark.at),
          y1: screenY(frame, mark.to),
          y2: screenY(frame, mark.from),
        }
      : {
          x1: screenX(frame, mark.from),
          x2: screenX(frame, mark.to),
          y1: screenY(frame, mark.at),
          y2: screenY(frame, mark.at),
        };
  const carries = (mark: Pick<Break, "axis" | "at">): boolean =>
    seams.some((seam) => seam.axis === mark.axis && ticksFrom(seam.at, unit) === mark.at);
  return [
    ...elevation.breaks
      .filter((mark) => !carries(mark))
      .map(
        (mark): FaintLine => ({
          key: `break:${mark.id}`,
          kind: mark.type,
          line: line(mark),
          says: breakHint(mark, unit),
        }),
      ),
    ...elevation.colourEdges
      .filter((edge) => !carries(edge))
      .map(
        (edge): FaintLine => ({
          key: `colourEdge:${edge.id}`,
          kind: "colourEdge",
          line: line(edge),
          says: `Colour edge ${edge.id} at ${lengthText(edge.at, unit)}, no seam on it`,
        }),
      ),
  ];
}

function frontOf(elevation: Elevation, margins: Margins, width: number): Front | null {
  const { travel } = elevation;
  if (travel === "none") return null;
  const long = 76;
  const x =
    travel === "left"
      ? margins.left
      : travel === "right"
        ? margins.left + width - long
        : margins.left + width / 2 - long / 2;
  return { way: travel, box: rectangle(Math.max(4, x), 6, long, 18) };
}

/** For the heading of the drawing: its size in words. */
export const elevationSize = (elevation: Elevation, unit: Unit): string =>
  `${figure(elevation.box.x1 - elevation.box.x0, unit)} × ${lengthText(elevation.box.y1 - elevation.box.y0, unit)}`;
