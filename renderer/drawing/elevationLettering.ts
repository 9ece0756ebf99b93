import type { Arrow, SeamShape, ZoneShape } from "./elevationShapes.ts";
import { type Frame, screenBox, screenX, screenY } from "./frame.ts";
import { panelKey } from "./ids.ts";
import { type LabelForm, type LabelWish, type PlacedLabel, placeInPasses, textSize } from "./labels.ts";
import type { Unit } from "./lengths.ts";
import type { Elevation, PlanLayout, PlanPanel } from "./model.ts";
import { panelForms, upright } from "./panelForms.ts";
import { inPolygon, type Spot } from "./polygon.ts";
import { grown, meet, middle, type Rectangle, rectangle, shared } from "./rectangle.ts";
import { type Line, teethBoxes } from "./strokes.ts";
import { fitted, textWidth } from "./textWidth.ts";

export interface Lettering {
  readonly labels: readonly PlacedLabel[];
  /** Those that lie across a zone, an opening or a seam for want of free paper, and need a halo. */
  readonly labelsOver: readonly PlacedLabel[];
  readonly arrows: readonly Arrow[];
}

/** Labels of zones and panels, and the arrows along the roll, each clear of all others. */
export function lettering(
  elevation: Elevation,
  layout: PlanLayout | null,
  panels: readonly PlanPanel[],
  windows: ReadonlyMap<string, Rectangle>,
  seams: readonly SeamShape[],
  zones: readonly ZoneShape[],
  openings: readonly { readonly box: Rectangle }[],
  frame: Frame,
  unit: Unit,
): Lettering {
  const whole = screenBox(frame, elevation.box);
  const corners = elevation.outline.map(({ x, y }) => ({ x: screenX(frame, x), y: screenY(frame, y) }));
  const edge = outlineEdges(corners);
  const lines = seams.flatMap((seam) => [lineBox(seam.line), ...teethBoxes(seam.line, seam.top)]);
  const bands = [...lines, ...seams.flatMap((seam) => seam.bands)];
  const obstacleBoxes = zones.filter((zone) => zone.kind === "obstacle").map((zone) => zone.box);
  const openingBoxes = openings.map((opening) => grown(opening.box, 3));
  const drawnLines = [...elevation.breaks, ...elevation.colourEdges].map(({ axis, at, from, to }) =>
    axis === "x"
      ? lineBox({ x1: screenX(frame, at), x2: screenX(frame, at), y1: screenY(frame, from), y2: screenY(frame, to) })
      : lineBox({ x1: screenX(frame, from), x2: screenX(frame, to), y1: screenY(frame, at), y2: screenY(frame, at) }),
  );
  const clear = [...bands, ...obstacleBoxes, ...openingBoxes, ...zoneEdges(zones), ...edge];
  // Whole inside the zone, whole beside it, then as much of it as there is room for.
  const zonesClear = placeInPasses(zones.filter(isKeepClear).map(insideWish), [
    [...clear, ...drawnLines],
    clear,
  ]).flat();
  const clearOf = (labels: readonly PlacedLabel[]): ((zone: ZoneShape) => boolean) => {
    const keys = new Set(labels.map(({ key }) => key));
    return (zone) => !keys.has(zone.key);
  };
  zonesClear.push(
    ...placeInPasses(
      zones.filter(clearOf(zonesClear)).map((zone) => besideWish(zone, corners)),
      [[...clear, ...drawnLines], clear].map((taken) => [...taken, ...zonesClear.map(({ box }) => box)]),
    ).flat(),
  );
  // A word across seams is better than a nameless zone; small obstacles say theirs when pointed at.
  const zonesOver = placeInPasses(zones.filter(isKeepClear).filter(clearOf(zonesClear)).map(acrossWish), [
    [...obstacleBoxes, ...zonesClear.map(({ box }) => box)],
  ]).flat();
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

const isKeepClear = (zone: ZoneShape): boolean => zone.kind === "keepClear";

const quiet = (...lines: readonly string[]): LabelForm => upright(lines.map((text) => ({ text, style: "quiet" })));

/** The whole label inside its zone, in one line or two, in a corner before the middle. */
function insideWish(zone: ZoneShape): LabelWish {
  return {
    key: zone.key,
    room: grown(zone.box, -5),
    forms: zone.label === "" ? [] : [quiet(zone.label), ...inTwoLines(zone.label)],
    anchors: [
      [0, 0],
      [0, 1],
      [1, 0],
      [1, 1],
      [0.5, 0.5],
    ],
  };
}

/** The whole label above, below or beside its zone and on the elevation; an obstacle's may be shortened. */
function besideWish(zone: ZoneShape, corners: readonly Spot[]): LabelWish {
  const { x, y, width, height } = zone.box;
  const reach = textWidth(zone.label, textSize) + 8;
  // A zone has room of its own for part of its label; what stands in the way has none.
  const short = zone.kind === "obstacle" ? fitted(zone.label, textSize, width + 110) : "";
  return {
    key: zone.key,
    room: { x: x - reach, y: y - 16, width: width + 2 * reach, height: height + 32 },
    forms:
      zone.label === "" ? [] : [quiet(zone.label), ...(short === zone.label || short === "" ? [] : [quiet(short)])],
    anchors: [
      [0.5, 0],
      [0.5, 1],
      [1, 0.5],
      [0, 0.5],
    ],
    allows: (box) => inPolygon(corners, middle(box)),
  };
}

/** The label across whatever its zone lies over, in the middle of it; above or below a zone too small for any of it. */
function acrossWish(zone: ZoneShape): LabelWish {
  const inside = grown(zone.box, -5);
  const word = fitted(zone.label, textSize, inside.width - 2);
  if (inside.height >= 12 && word !== "") {
    const forms = [quiet(zone.label), ...inTwoLines(zone.label), quiet(word)];
    return { key: zone.key, room: inside, forms, anchors: [[0.5, 0.5]] };
  }
  const { x, y, width, height } = zone.box;
  return {
    key: zone.key,
    room: { x: x - 60, y: y - 16, width: width + 120, height: height + 32 },
    forms: [quiet(fitted(zone.label, textSize, width + 110))],
    anchors: [
      [0.5, 0],
      [0.5, 1],
    ],
  };
}

/** Parted at the blank that leaves the longer line shortest; none for a single word. */
function inTwoLines(label: string): LabelForm[] {
  const words = label.split(" ").filter((word) => word !== "");
  const partings = words.slice(1).map((_, at) => [words.slice(0, at + 1).join(" "), words.slice(at + 1).join(" ")]);
  const longer = (lines: readonly string[]): number => Math.max(...lines.map((line) => textWidth(line, textSize)));
  const [best] = partings.sort((a, b) => longer(a) - longer(b));
  return best === undefined ? [] : [quiet(...best)];
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
