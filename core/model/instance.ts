import type { Axis, Box, Point, Polygon, Side } from "../geometry/box.ts";
import type { Ticks, Unit } from "../units/ticks.ts";

/**
 * The whole question, fixed: a job read, checked and resolved. Lengths in ticks, mirrors worked out, defaults filled in.
 * Prices stay as in the file, per square unit or unit of length of the job, since areas and money are doubles anyway.
 */
export interface Instance {
  readonly name: string;
  readonly unit: Unit;
  readonly elevations: readonly Elevation[];
  readonly pieces: readonly LoosePiece[];
  readonly films: readonly Film[];
  readonly stock: readonly StockEntry[];
  /** Groups of elevations, by id, whose panels of one copy come from one lot on each film. */
  readonly sameLot: readonly { readonly id: string; readonly elevations: readonly string[] }[];
  readonly rules: Rules;
}

export type Travel = "left" | "right" | "up" | "down" | "none";
export type Direction = "vertical" | "horizontal";
export type ZoneRule = "never" | "avoid";
/** Whether the panels of a section lie alike on the roll, or every second one head to foot. */
export type Heads = "same" | "alternate";

/** One flat view to be covered. A mirrored one holds its own reflected geometry, so nothing later needs its source. */
export interface Elevation {
  readonly id: string;
  readonly name: string;
  /** Copies to make, at least 1. */
  readonly count: number;
  readonly subject: string | null;
  readonly film: string;
  readonly travel: Travel;
  /** The elevation it mirrors directly. */
  readonly mirrorOf: string | null;
  /** "exact": its windows repeat those of `mirrorOf` as an exact mirror image; "follow": as far as its own features allow. */
  readonly mirror: "exact" | "follow";
  readonly outline: Polygon;
  /** Bounding box of the outline. */
  readonly box: Box;
  readonly openings: readonly Opening[];
  /** Boxes that tile `box`; one section `whole` when the job gives none. In the job's order, fills not among them. */
  readonly sections: readonly Section[];
  readonly keepClear: readonly KeepClear[];
  readonly breaks: readonly Break[];
  readonly colourEdges: readonly ColourEdge[];
  readonly obstacles: readonly Obstacle[];
  readonly fill: readonly FillChoice[];
  /** Least slack worked in. */
  readonly bleed: Bleed;
  /** Whether sections may also be found along breaks, body lines and colour edges. */
  readonly findSections: boolean;
  /** For fills and found sections; the others say it themselves. */
  readonly heads: Heads;
  /** Height of the ground, from which `rules.heightZones` count. */
  readonly ground: Ticks;
  /** Id of the keep-clear zone whose panel goes on first where laps leave it open; null without any. */
  readonly straight: string | null;
  readonly seamMap: SeamMap | null;
  readonly holds: readonly Hold[];
}

/** How much a seam would be seen in the artwork, by cell: rows from the bottom, each from the left; 0 unseen to 255 most. */
export interface SeamMap {
  readonly x0: Ticks;
  readonly y0: Ticks;
  readonly cell: Ticks;
  readonly columns: number;
  readonly rows: number;
  /** For upright seams (`axis` x). */
  readonly upright: Uint8Array;
  /** For level seams (`axis` y). */
  readonly level: Uint8Array;
}

/** What the user has settled. `section` null: every section that the line crosses where film is needed. */
export type Hold = { readonly id: string; readonly section: string | null } & (
  | { readonly kind: "seam"; readonly axis: Axis; readonly at: Ticks }
  | { readonly kind: "noSeam"; readonly axis: Axis; readonly from: Ticks; readonly to: Ticks }
  | { readonly kind: "width"; readonly axis: Axis; readonly at: Ticks; readonly width: Ticks }
  | { readonly kind: "direction"; readonly direction: Direction }
);

export interface Opening {
  readonly id: string;
  readonly outline: Polygon;
}

export interface Section {
  readonly id: string;
  readonly box: Box;
  readonly direction: Direction | "either";
  readonly maxAcross: Ticks | null;
  readonly heads: Heads;
}

export interface KeepClear {
  readonly id: string;
  readonly label: string;
  readonly box: Box;
  readonly rule: ZoneRule;
  readonly reason: string;
}

/** A line at `at` on `axis` ("x": upright), over from..to on the other axis. */
export interface Break {
  readonly id: string;
  readonly axis: Axis;
  readonly at: Ticks;
  readonly from: Ticks;
  readonly to: Ticks;
  readonly type: "gap" | "moulding" | "bodyLine";
  readonly width: Ticks;
  readonly mustSplit: boolean;
}

/** A line like a break's. With a `path` the edge is sloped or stepped: its corners along the line, from `from` to `to`. */
export interface ColourEdge {
  readonly id: string;
  readonly axis: Axis;
  readonly at: Ticks;
  readonly from: Ticks;
  readonly to: Ticks;
  /** Corners by ascending place along the line; null for a straight edge at `at`. */
  readonly path: readonly Point[] | null;
}

/** `box` as drawn; the zone to keep seams out of is the box grown by `clearance` on every side. */
export interface Obstacle {
  readonly id: string;
  readonly kind: string;
  readonly box: Box;
  readonly rule: ZoneRule;
  readonly clearance: Ticks;
}

/** Leave to cover a strip along one edge of the elevation's box, up to `maxDepth` deep, in another film. */
export interface FillChoice {
  readonly edge: Side;
  readonly maxDepth: Ticks;
  readonly film: string;
}

/** How far film reaches past an edge of the needed region that faces this way, or into an opening. */
export interface Bleed {
  readonly left: Ticks;
  readonly right: Ticks;
  readonly bottom: Ticks;
  readonly top: Ticks;
  readonly openings: Ticks;
}

export interface LoosePiece {
  readonly id: string;
  readonly role: "overlay" | "fill" | "inlay" | "decal";
  readonly label: string;
  readonly count: number;
  readonly film: string;
  readonly outline: Polygon;
  readonly turn: "fixed" | "half" | "quarter";
  readonly elevation: string | null;
  readonly at: Point | null;
  readonly layer: -1 | 1;
}

export interface Film {
  readonly id: string;
  readonly name: string;
  /** Narrowest first, without repeats. */
  readonly rollWidths: readonly Ticks[];
  readonly edgeMargin: Ticks;
  readonly rollLength: Ticks | null;
  readonly maxRun: Ticks | null;
  /** New rolls that may be bought; null: no limit. The file's default is already worked in. */
  readonly newRolls: number | null;
  readonly laminateWidth: Ticks | null;
  readonly lengthFactor: number;
  /** Money per square unit of the job. */
  readonly pricePerArea: number;
  readonly laminatePricePerArea: number;
  readonly inkPricePerArea: number;
  readonly lay: "one-way" | "two-way" | "any";
  /** Whether panels lap at their seams or meet edge to edge. */
  readonly joint: "lapped" | "butted";
}

export interface StockEntry {
  readonly id: string;
  readonly film: string;
  readonly lot: string | null;
  readonly kind: "roll" | "offcut";
  readonly width: Ticks;
  readonly length: Ticks;
}

/** `bleed` and the overlaps have `leastSlack` worked in. */
export interface Rules {
  readonly bleed: Ticks;
  readonly overlap: Ticks;
  readonly colourEdgeOverlap: Ticks;
  readonly trimOverlap: Ticks;
  readonly cutGap: Ticks;
  readonly leader: Ticks;
  readonly trailer: Ticks;
  readonly maxOpenSeams: number | null;
  /** Money per unit of the job, per met zone, per panel. */
  readonly seamPricePerLength: number;
  readonly avoidPenalty: number;
  readonly panelPrice: number;
  readonly oneLot: "elevation" | "subject" | "none";
  readonly sliverUnder: Ticks;
  /** What is left on an opened roll is worth keeping from this length on, else scrap; null when nobody asks. */
  readonly keepLength: Ticks | null;
  /** How much seams count by height over the ground; 1 where none says. Where two meet, the first. */
  readonly heightZones: readonly HeightZone[];
  /** A seam counts 1 + this times the map's value (0 to 1) as much. */
  readonly artworkWeight: number;
  /** How far each panel may at least be shifted before film falls short or a seam stops lapping. */
  readonly leastSlack: Ticks;
  readonly currency: string;
}

export interface HeightZone {
  readonly from: Ticks;
  readonly to: Ticks;
  readonly weight: number;
}
