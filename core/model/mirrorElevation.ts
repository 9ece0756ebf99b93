import { type Box, mirrorBox, mirrorX, type Point, type Polygon, type Side } from "../geometry/box.ts";
import type { ColourEdge, Elevation, Hold, SeamMap, Travel } from "./instance.ts";

/** What of an elevation is reflected when another mirrors it. */
export type Mirrored = Pick<
  Elevation,
  | "travel"
  | "outline"
  | "openings"
  | "sections"
  | "keepClear"
  | "breaks"
  | "colourEdges"
  | "obstacles"
  | "fill"
  | "bleed"
  | "seamMap"
  | "holds"
>;

const opposite: Readonly<Record<Side, Side>> = { left: "right", right: "left", bottom: "bottom", top: "top" };
const turned: Readonly<Record<Travel, Travel>> = { left: "right", right: "left", up: "up", down: "down", none: "none" };

/**
 * An elevation reflected left to right in the middle of its own box, in ticks: exact, and twice over the same again.
 * Lists keep their order; the points of an outline go the other way round.
 */
export function mirrorElevation(source: Mirrored, frame: Box): Mirrored {
  const outline = (polygon: Polygon): Polygon => polygon.map(({ x, y }) => ({ x: mirrorX(x, frame), y }));
  const boxed = <T extends { readonly box: Box }>(item: T): T => ({ ...item, box: mirrorBox(item.box, frame) });
  const line = <
    T extends { readonly axis: "x" | "y"; readonly at: number; readonly from: number; readonly to: number },
  >(
    item: T,
  ): T =>
    item.axis === "x"
      ? { ...item, at: mirrorX(item.at, frame) }
      : { ...item, from: mirrorX(item.to, frame), to: mirrorX(item.from, frame) };
  return {
    travel: turned[source.travel],
    outline: outline(source.outline),
    openings: source.openings.map((opening) => ({ ...opening, outline: outline(opening.outline) })),
    sections: source.sections.map(boxed),
    keepClear: source.keepClear.map(boxed),
    breaks: source.breaks.map(line),
    colourEdges: source.colourEdges.map((edge) => ({ ...line(edge), path: mirrorPath(edge, frame) })),
    obstacles: source.obstacles.map(boxed),
    fill: source.fill.map((choice) => ({ ...choice, edge: opposite[choice.edge] })),
    bleed: { ...source.bleed, left: source.bleed.right, right: source.bleed.left },
    seamMap: source.seamMap === null ? null : mirrorMap(source.seamMap, frame),
    holds: source.holds.map((hold) => mirrorHold(hold, frame)),
  };
}

/** The corners of a colour edge reflected, again by ascending place along its line. */
export function mirrorPath({ axis, path }: ColourEdge, frame: Box): readonly Point[] | null {
  if (path === null) return null;
  const turned = path.map(({ x, y }) => ({ x: mirrorX(x, frame), y }));
  return axis === "x" ? turned : turned.reverse();
}

function mirrorMap(map: SeamMap, frame: Box): SeamMap {
  const { x0, cell, columns, rows } = map;
  const turned = (values: Uint8Array): Uint8Array =>
    Uint8Array.from(values, (_, i) => {
      const column = i % columns;
      return values[i - column + (columns - 1 - column)] as number;
    });
  return {
    ...map,
    rows,
    x0: mirrorX(x0 + cell * columns, frame),
    upright: turned(map.upright),
    level: turned(map.level),
  };
}

/** A hold reflected left to right: only places on the axis x change. */
export function mirrorHold(hold: Hold, frame: Box): Hold {
  if (hold.kind === "direction" || hold.axis === "y") return hold;
  if (hold.kind === "noSeam") return { ...hold, from: mirrorX(hold.to, frame), to: mirrorX(hold.from, frame) };
  return { ...hold, at: mirrorX(hold.at, frame) };
}
