import { type Dimension, type DimensionWish, dimension } from "./dimensions.ts";
import { type Frame, polygonPath, screenBox, screenX, screenY } from "./frame.ts";
import { panelKey, seamKey, zoneKey } from "./ids.ts";
import { type LabelForm, type LabelLine, type LabelWish, type PlacedLabel, placeInPasses, textSize } from "./labels.ts";
import { figure, lengthText, TICKS_PER, ticksFrom, type Unit } from "./lengths.ts";
import type { Box, Break, Elevation, PlanLayout, PlanPanel, PlanSeam, SeamKind } from "./model.ts";
import { inPolygon, type Spot } from "./polygon.ts";
import { grown, meet, middle, type Rectangle, rectangle, shared } from "./rectangle.ts";
import { type Line, type TopSide, teethBoxes } from "./strokes.ts";
import { figureWidth, fitted } from "./textWidth.ts";
import { breakHint, obstacleSentence, panelSentence, seamSentence, sizeText, zoneSentence } from "./words.ts";

/** Everything one elevation's drawing shows, in pixels, ready to be set down. */
export interface ElevationScene {
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
  readonly dimensions: readonly Dimension[];
  readonly labels: readonly PlacedLabel[];
  /** Those that lie across a zone, an opening or a seam for want of free paper, and need a halo. */
  readonly labelsOver: readonly PlacedLabel[];
  readonly arrows: readonly Arrow[];
  readonly front: Front | null;
}

export interface PanelShape {
  readonly key: string;
  readonly role: "panel" | "fill";
  readonly box: Rectangle;
  readonly says: string;
}

export interface SeamShape {
  readonly key: string;
  readonly kind: SeamKind;
  readonly border: boolean;
  readonly line: Line;
  readonly top: TopSide;
  /** What both films cover, one rectangle per pair of facing windows. */
  readonly bands: readonly Rectangle[];
  readonly says: string;
}

export interface ZoneShape {
  readonly key: string;
  readonly kind: "keepClear" | "obstacle";
  readonly rule: "never" | "avoid";
  readonly label: string;
  readonly box: Rectangle;
  readonly says: string;
}

/** Something that may guide a seam but carries none. */
export interface FaintLine {
  readonly key: string;
  readonly kind: "gap" | "moulding" | "bodyLine" | "colourEdge";
  readonly line: Line;
  readonly says: string;
}

/** Which way the roll runs on a panel: from its tail to its head. */
export interface Arrow {
  readonly key: string;
  readonly tail: { readonly x: number; readonly y: number };
  readonly head: { readonly x: number; readonly y: number };
}

export interface Front {
  readonly way: "left" | "right" | "up" | "down";
  readonly box: Rectangle;
}

const row = 22;
const scaleStrip = 34;

type Margins = { readonly left: number; readonly right: number; readonly top: number; readonly bottom: number };

/** A panel's window in ticks. */
function windowTicks(panel: PlanPanel, unit: Unit): Box {
  const [x0, y0, x1, y1] = panel.window;
  return { x0: ticksFrom(x0, unit), y0: ticksFrom(y0, unit), x1: ticksFrom(x1, unit), y1: ticksFrom(y1, unit) };
}

/**
 * The drawing of one elevation.
 *
 * @param elevation in ticks
 * @param layout in the job's unit; null while no plan is there: then the elevation alone is drawn
 * @param pixelsPerUnit pixels per unit of the job
 */
export function elevationScene(
  elevation: Elevation,
  layout: PlanLayout | null,
  unit: Unit,
  pixelsPerUnit: number,
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
      says: panelSentence(panel, planSeams, unit),
    }),
  );
  const seams = planSeams.map((seam) => seamShape(seam, elevation, panels, windows, frame, unit));
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
    bands,
    says: seamSentence(seam, unit),
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

type ChainSide = "left" | "right" | "bottom" | "top";
interface Chain {
  readonly side: ChainSide;
  readonly panels: readonly PlanPanel[];
}

/**
 * Panel widths stand along the side of the elevation that their section touches, upright panels' below rather than above,
 * level ones' right rather than left; in order along the side. A width that is too short for its number is left out.
 */
function dimensionChains(elevation: Elevation, panels: readonly PlanPanel[], unit: Unit, scale: number): Chain[] {
  const bySide = new Map<ChainSide, PlanPanel[]>();
  for (const panel of panels) {
    const side = sideOf(windowTicks(panel, unit), panel.direction, elevation.box);
    if (side) bySide.set(side, [...(bySide.get(side) ?? []), panel]);
  }
  const legible = (panel: PlanPanel): boolean => {
    const size = ticksFrom(panel.across, unit);
    return size * scale >= figureWidth(lengthText(size, unit), textSize) + 30;
  };
  return [...bySide]
    .map(([side, group]) => [side, group.filter(legible)] as const)
    .filter(([, group]) => group.length > 0)
    .map(([side, group]) => {
      const along = side === "left" || side === "right" ? 1 : 0;
      return { side, panels: group.sort((a, b) => a.window[along] - b.window[along]) };
    });
}

function sideOf(window: Box, direction: PlanPanel["direction"], box: Box): ChainSide | null {
  if (direction === "vertical") return window.y0 <= box.y0 ? "bottom" : window.y1 >= box.y1 ? "top" : null;
  return window.x1 >= box.x1 ? "right" : window.x0 <= box.x0 ? "left" : null;
}

/** Windows overlap, so neighbours' widths stand in two rows. */
const rowsOf = (chain: Chain | undefined): number => (chain ? Math.min(2, chain.panels.length) : 0);

function marginsOf(
  elevation: Elevation,
  panels: readonly PlanPanel[],
  unit: Unit,
  scale: number,
  chains: readonly Chain[],
): Margins {
  const { box } = elevation;
  const boxes = panels.map((panel) => windowTicks(panel, unit));
  const past = (values: readonly number[]): number => Math.max(0, ...values) * scale;
  const rows = (side: ChainSide): number => rowsOf(chains.find((chain) => chain.side === side)) * row;
  return {
    left: past(boxes.map((one) => box.x0 - one.x0)) + rows("left") + row + 12,
    right: past(boxes.map((one) => one.x1 - box.x1)) + rows("right") + 14,
    top: past(boxes.map((one) => one.y1 - box.y1)) + rows("top") + (elevation.travel === "none" ? 0 : 24) + 10,
    bottom: past(boxes.map((one) => box.y0 - one.y0)) + rows("bottom") + row + scaleStrip + 8,
  };
}

function dimensionsOf(
  elevation: Elevation,
  panels: readonly PlanPanel[],
  chains: readonly Chain[],
  unit: Unit,
  outline: Rectangle,
  windows: ReadonlyMap<string, Rectangle>,
): Dimension[] {
  const all = [outline, ...panels.map((panel) => windows.get(panel.id) as Rectangle)];
  const reach = {
    left: Math.min(...all.map((one) => one.x)),
    right: Math.max(...all.map((one) => one.x + one.width)),
    top: Math.min(...all.map((one) => one.y)),
    bottom: Math.max(...all.map((one) => one.y + one.height)),
  };
  const wishes: DimensionWish[] = [];
  for (const chain of chains) {
    chain.panels.forEach((panel, index) => {
      const box = windows.get(panel.id) as Rectangle;
      const away = row * (0.75 + (index % 2));
      const level = chain.side === "bottom" || chain.side === "top";
      const near = chain.side === "left" || chain.side === "top" ? -1 : 1;
      wishes.push({
        key: panelKey(panel.id),
        text: lengthText(ticksFrom(panel.across, unit), unit),
        axis: level ? "x" : "y",
        from: level ? box.x : box.y,
        to: level ? box.x + box.width : box.y + box.height,
        at: reach[chain.side] + near * away,
        edge: reach[chain.side],
      });
    });
  }
  const rowsAt = (side: ChainSide): number => rowsOf(chains.find((chain) => chain.side === side)) * row;
  const { box } = elevation;
  wishes.push(
    {
      key: "overall:width",
      text: lengthText(box.x1 - box.x0, unit),
      axis: "x",
      from: outline.x,
      to: outline.x + outline.width,
      at: reach.bottom + rowsAt("bottom") + row * 0.8,
      edge: outline.y + outline.height,
      outside: true,
    },
    {
      key: "overall:height",
      text: lengthText(box.y1 - box.y0, unit),
      axis: "y",
      from: outline.y,
      to: outline.y + outline.height,
      at: reach.left - rowsAt("left") - row * 0.8,
      edge: outline.x,
      outside: true,
    },
  );
  return wishes.flatMap((wish) => dimension(wish) ?? []);
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

/** Names of a panel from the fullest to its bare number; the elevation goes without saying on its own drawing. */
export function panelNames(panel: PlanPanel): { full: string; section: string; number: string } {
  const parts = panel.id.split("/");
  const number = parts.at(-1) ?? panel.id;
  return { full: panel.id, section: parts.length > 2 ? parts.slice(1).join("/") : panel.id, number };
}

const upright = (lines: readonly LabelLine[]): LabelForm => ({ lines, turned: false });
const turned = (lines: readonly LabelLine[]): LabelForm => ({ lines, turned: true });

/** Name and size together where there is room, then the name alone down to its number, then the size, then nothing. */
export function panelForms(panel: PlanPanel, unit: Unit): LabelForm[] {
  const names = panelNames(panel);
  const size: LabelLine = { text: sizeText(panel.across, panel.along, unit), style: "figures" };
  const name = (text: string): LabelLine => ({ text, style: "name" });
  return [
    upright([name(names.full), size]),
    upright([name(names.section), size]),
    turned([name(names.full), size]),
    turned([name(names.section), size]),
    upright([name(names.section)]),
    turned([name(names.section)]),
    upright([name(names.number)]),
    turned([name(names.number)]),
    upright([size]),
    turned([size]),
  ];
}

function lettering(
  elevation: Elevation,
  layout: PlanLayout | null,
  panels: readonly PlanPanel[],
  windows: ReadonlyMap<string, Rectangle>,
  seams: readonly SeamShape[],
  zones: readonly ZoneShape[],
  openings: readonly { readonly box: Rectangle }[],
  frame: Frame,
  unit: Unit,
): Pick<ElevationScene, "labels" | "labelsOver" | "arrows"> {
  const whole = screenBox(frame, elevation.box);
  const corners = elevation.outline.map(({ x, y }) => ({ x: screenX(frame, x), y: screenY(frame, y) }));
  const edge = outlineEdges(corners);
  const lines = seams.flatMap((seam) => [lineBox(seam.line), ...teethBoxes(seam.line, seam.top)]);
  const bands = [...lines, ...seams.flatMap((seam) => seam.bands)];
  const obstacleBoxes = zones.filter((zone) => zone.kind === "obstacle").map((zone) => zone.box);
  const openingBoxes = openings.map((opening) => grown(opening.box, 3));
  const [zonesClear = []] = placeInPasses(
    zones.map((zone) => zoneWish(zone)),
    [[...bands, ...obstacleBoxes, ...openingBoxes, ...zoneEdges(zones), ...edge]],
  );
  // A word across seams is better than a nameless zone; small obstacles say theirs when pointed at.
  const [zonesOver = []] = placeInPasses(
    zones
      .filter((zone) => zone.kind === "keepClear" && !zonesClear.some(({ key }) => key === zone.key))
      .map((zone) => zoneWish(zone)),
    [[...obstacleBoxes, ...zonesClear.map(({ box }) => box)]],
  );
  const zoneLabels = [...zonesClear, ...zonesOver].map((label) => label.box);
  const panelWishes = panels.map((panel): LabelWish => {
    const inside = shared(windows.get(panel.id) as Rectangle, whole) ?? whole;
    return {
      key: panelKey(panel.id),
      room: grown(freeOf(inside, panel, layout, windows), -1.5),
      forms: panelForms(panel, unit),
      allows: (box) => inPolygon(corners, middle(box)),
    };
  });
  const firm = [...bands, ...zoneLabels, ...obstacleBoxes, ...edge];
  const careful = [...firm, ...zones.map((zone) => grown(zone.box, 2)), ...openingBoxes];
  // Where nothing is free of lettering zones and openings, a name across them is better than none.
  const [panelsClear = [], panelsOver = []] = placeInPasses(panelWishes, [careful, firm]);
  const taken = [...careful, ...panelsClear.map((label) => label.box), ...panelsOver.map((label) => label.box)];
  return {
    labels: [...zonesClear, ...panelsClear],
    labelsOver: [...zonesOver, ...panelsOver],
    arrows: directionArrows(panels, layout, panelWishes, taken),
  };
}

/** A zone's label sits in its corner; where the zone is too small for any of it, just above or below, as an obstacle's does. */
function zoneWish(zone: ZoneShape): LabelWish {
  const inside = grown(zone.box, -5);
  const word = fitted(zone.label, textSize, inside.width - 2);
  const form = (text: string): LabelForm => upright([{ text, style: "quiet" }]);
  if (zone.kind === "keepClear" && inside.height >= 12 && word !== "") {
    return {
      key: zone.key,
      room: inside,
      forms: [form(word)],
      anchors: [
        [0, 0],
        [0, 1],
        [1, 0],
        [1, 1],
        [0.5, 0.5],
      ],
    };
  }
  const { x, y, width, height } = zone.box;
  return {
    key: zone.key,
    room: { x: x - 60, y: y - 16, width: width + 120, height: height + 32 },
    forms: [form(fitted(zone.label, textSize, width + 110))],
    anchors: [
      [0.5, 0],
      [0.5, 1],
    ],
  };
}

const lineBox = (line: Line): Rectangle => ({
  x: Math.min(line.x1, line.x2) - 2,
  y: Math.min(line.y1, line.y2) - 2,
  width: Math.abs(line.x2 - line.x1) + 4,
  height: Math.abs(line.y2 - line.y1) + 4,
});

/** The outlines of keep-clear zones, as four thin boxes each. */
const zoneEdges = (zones: readonly ZoneShape[]): Rectangle[] =>
  zones
    .filter((zone) => zone.kind === "keepClear")
    .flatMap(({ box: { x, y, width, height } }) => [
      rectangle(x - 2, y - 2, width + 4, 4),
      rectangle(x - 2, y + height - 2, width + 4, 4),
      rectangle(x - 2, y - 2, 4, height + 4),
      rectangle(x + width - 2, y - 2, 4, height + 4),
    ]);

/** The outline's edges as a string of small boxes, for lettering to keep clear of. */
function outlineEdges(corners: readonly Spot[]): Rectangle[] {
  const boxes: Rectangle[] = [];
  corners.forEach((from, index) => {
    const to = corners[(index + 1) % corners.length] ?? from;
    const steps = Math.min(400, Math.ceil(Math.hypot(to.x - from.x, to.y - from.y) / 6));
    for (let step = 0; step <= steps; step++) {
      const share = steps === 0 ? 0 : step / steps;
      boxes.push(rectangle(from.x + (to.x - from.x) * share - 1.5, from.y + (to.y - from.y) * share - 1.5, 3, 3));
    }
  });
  return boxes;
}

/** The part of a panel that no neighbour of its own section covers. */
function freeOf(
  box: Rectangle,
  panel: PlanPanel,
  layout: PlanLayout | null,
  windows: ReadonlyMap<string, Rectangle>,
): Rectangle {
  let { x, y, width, height } = box;
  for (const seam of layout?.seams ?? []) {
    if (seam.border || !seam.between.includes(panel.id)) continue;
    const isLow = seam.between[0] === panel.id;
    const other = windows.get(isLow ? seam.between[1] : seam.between[0]);
    if (!other) continue;
    if (seam.axis === "x") {
      const left = isLow ? x : Math.max(x, other.x + other.width);
      const right = isLow ? Math.min(x + width, other.x) : x + width;
      x = left;
      width = Math.max(0, right - left);
    } else {
      const top = isLow ? Math.max(y, other.y + other.height) : y;
      const bottom = isLow ? y + height : Math.min(y + height, other.y);
      y = top;
      height = Math.max(0, bottom - top);
    }
  }
  return { x, y, width, height };
}

/** A small arrow along the roll, where the panel has room for it; it points the way the film is fed, copy 1. */
function directionArrows(
  panels: readonly PlanPanel[],
  layout: PlanLayout | null,
  rooms: readonly LabelWish[],
  taken: readonly Rectangle[],
): Arrow[] {
  const turns = new Map<string, number>();
  for (const load of layout?.rolls ?? []) {
    for (const cut of load.cuts) for (const piece of cut.pieces) if (piece.copy === 1) turns.set(piece.id, piece.turn);
  }
  const arrows: Arrow[] = [];
  for (const [index, panel] of panels.entries()) {
    const room = rooms[index]?.room;
    if (!room) continue;
    const up = panel.direction === "vertical";
    const width = up ? 9 : 30;
    const height = up ? 30 : 9;
    if (room.width < width || room.height < height) continue;
    const spots = up ? [0.92, 0.8, 0.08, 0.3, 0.65] : [0.04, 0.15, 0.96, 0.7];
    const sides = [0.5, 0.25, 0.75, 0.08, 0.92];
    const found = spots
      .flatMap((along) => sides.map((aside) => (up ? [aside, along] : [along, aside]) as readonly [number, number]))
      .map(([x, y]) => rectangle(room.x + (room.width - width) * x, room.y + (room.height - height) * y, width, height))
      .find((box) => !taken.some((other) => meet(other, box)));
    if (!found) continue;
    const reversed = turns.get(panel.id) === 180;
    const start = up ? { x: found.x + 4.5, y: found.y + 30 } : { x: found.x, y: found.y + 4.5 };
    const end = up ? { x: found.x + 4.5, y: found.y } : { x: found.x + 30, y: found.y + 4.5 };
    arrows.push({ key: panelKey(panel.id), tail: reversed ? end : start, head: reversed ? start : end });
  }
  return arrows;
}

/** For the heading of the drawing: its size in words. */
export const elevationSize = (elevation: Elevation, unit: Unit): string =>
  `${figure(elevation.box.x1 - elevation.box.x0, unit)} × ${lengthText(elevation.box.y1 - elevation.box.y0, unit)}`;
