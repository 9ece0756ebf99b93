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
  readonly rules: Rules;
}

export type Travel = "left" | "right" | "up" | "down" | "none";
export type Direction = "vertical" | "horizontal";
export type ZoneRule = "never" | "avoid";

/** One flat view to be covered. A mirrored one holds its own reflected geometry, so nothing later needs its source. */
export interface Elevation {
  readonly id: string;
  readonly name: string;
  /** Copies to make, at least 1. */
  readonly count: number;
  readonly subject: string | null;
  readonly film: string;
  readonly travel: Travel;
  /** The elevation it mirrors directly, whose windows it must repeat as an exact mirror image. */
  readonly mirrorOf: string | null;
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
  readonly bleed: Bleed;
}

export interface Opening {
  readonly id: string;
  readonly outline: Polygon;
}

export interface Section {
  readonly id: string;
  readonly box: Box;
  readonly direction: Direction | "either";
  readonly maxAcross: Ticks | null;
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

export interface ColourEdge {
  readonly id: string;
  readonly axis: Axis;
  readonly at: Ticks;
  readonly from: Ticks;
  readonly to: Ticks;
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
}

export interface StockEntry {
  readonly id: string;
  readonly film: string;
  readonly lot: string | null;
  readonly kind: "roll" | "offcut";
  readonly width: Ticks;
  readonly length: Ticks;
}

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
  readonly currency: string;
}
