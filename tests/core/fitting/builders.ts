import type { Axis, Box, Polygon } from "../../../core/geometry/box.ts";
import { neededRegion, type Region } from "../../../core/geometry/region.ts";
import type { Elevation } from "../../../core/model/instance.ts";
import type { Panel, Seam, Slack } from "../../../core/model/plan.ts";
import { elevationOf, inch } from "../panelling/builders.ts";

/** An elevation called "wall", as the panels and seams below expect it. */
export const wallOf = (outline: Polygon, bleed: number, given: Partial<Elevation> = {}): Elevation =>
  elevationOf(outline, bleed, { id: "wall", name: "Wall", ...given });

export const regionOf = ({ outline, openings }: Elevation): Region =>
  neededRegion(
    outline,
    openings.map((opening) => opening.outline),
  );

export const regionsOf = (elevations: readonly Elevation[]): Map<string, Region> =>
  new Map(elevations.map((elevation) => [elevation.id, regionOf(elevation)]));

/** A panel of the wall, upright unless it says otherwise. */
export const panelOf = (id: string, window: Box, over: Partial<Panel> = {}): Panel => {
  const direction = over.direction ?? "vertical";
  const [wide, high] = [window.x1 - window.x0, window.y1 - window.y0];
  return {
    id,
    elevation: "wall",
    section: "whole",
    role: "panel",
    film: "cast",
    direction,
    window,
    across: direction === "vertical" ? wide : high,
    along: direction === "vertical" ? high : wide,
    slack: null,
    ...over,
  };
};

/** A seam inside a section, inches; open, an inch wide, all the way up a wall of 40 in. */
export const seamOf = (axis: Axis, at: number, low: string, high: string, over: Partial<Seam> = {}): Seam => ({
  id: `wall/whole:${at}`,
  elevation: "wall",
  section: "whole",
  axis,
  at: inch(at),
  from: 0,
  to: inch(40),
  kind: "open",
  overlap: inch(1),
  finishedOverlap: inch(1),
  between: [low, high],
  top: low,
  border: false,
  ...over,
});

export const borderOf = (axis: Axis, at: number, from: number, to: number, low: string, high: string): Seam => ({
  ...seamOf(axis, at, low, high),
  id: `wall/${low}|${high}`,
  section: null,
  from: inch(from),
  to: inch(to),
  border: true,
});

export const slackOf = (left: number, right: number, down: number, up: number): Slack => ({
  left: inch(left),
  right: inch(right),
  down: inch(down),
  up: inch(up),
});
