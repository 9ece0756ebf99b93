import type { Axis, Box } from "../geometry/box.ts";
import type { Ticks, Unit } from "../units/ticks.ts";
import type { Direction } from "./instance.ts";

/**
 * The answer and what it claims. The same tree as the plan file, with lengths in ticks; areas are in square units of the
 * job and money in its currency, both unrounded. Claims are checked by the verifier, never trusted.
 */
export interface Plan {
  readonly jobName: string;
  readonly unit: Unit;
  readonly seed: number;
  readonly layouts: readonly Layout[];
  /** Ids of the layouts that no other beats on waste, seam count and cost; equal ones once. */
  readonly frontier: readonly string[];
  readonly chosen: string;
}

export interface Layout {
  readonly id: string;
  /** Roll width on which every panel of a film that offers it lies; null if mixed. */
  readonly rollWidth: Ticks | null;
  readonly nesting: "crosscut" | "free";
  readonly panels: readonly Panel[];
  readonly seams: readonly Seam[];
  readonly rolls: readonly Load[];
  /** `rollId:cutNumber`, cut numbers from 1. */
  readonly printOrder: readonly string[];
  readonly applyOrder: readonly ApplyStep[];
  readonly totals: Totals;
  readonly wasteBy: WasteBy;
  readonly bound: Bound;
  readonly warnings: readonly string[];
}

/** Listed once per elevation, whatever its count. */
export interface Panel {
  readonly id: string;
  readonly elevation: string;
  readonly section: string;
  readonly role: "panel" | "fill";
  readonly film: string;
  readonly direction: Direction;
  /** The rectangle of artwork it carries, overlap and bleed included. */
  readonly window: Box;
  /** Size of the window across and along the roll. */
  readonly across: Ticks;
  readonly along: Ticks;
  readonly slack: Slack | null;
}

export interface Slack {
  readonly left: Ticks;
  readonly right: Ticks;
  readonly down: Ticks;
  readonly up: Ticks;
}

export type SeamKind = "break" | "bodyLine" | "colourEdge" | "open";

export interface Seam {
  readonly id: string;
  readonly elevation: string;
  /** null for a border between two sections. */
  readonly section: string | null;
  readonly axis: Axis;
  readonly at: Ticks;
  readonly from: Ticks;
  readonly to: Ticks;
  readonly kind: SeamKind;
  readonly overlap: Ticks;
  readonly finishedOverlap: Ticks;
  /** [left or lower, right or upper]: panel ids, or section ids at a border. */
  readonly between: readonly [string, string];
  readonly top: string;
  readonly border: boolean;
}

/** One loading of a roll or offcut. */
export interface Load {
  readonly id: string;
  /** Stock entry it comes from; null for a new roll. */
  readonly stock: string | null;
  readonly film: string;
  readonly lot: string | null;
  readonly width: Ticks;
  /** Length that leaves the stock: leader, cuts with what lies between them, trailer. */
  readonly used: Ticks;
  /** Left on the roll or offcut after this load and those listed before it; null when it does not end. Older plans lack it. */
  readonly leaves?: Ticks | null;
  /** Whether what is left is `keepLength` at least; only where the job has one. */
  readonly keep?: boolean;
  readonly cuts: readonly Cut[];
}

export interface Cut {
  /** From the start of the load, leader included. */
  readonly start: Ticks;
  readonly length: Ticks;
  readonly pieces: readonly PlacedPiece[];
}

/** A panel or a loose piece on the roll. x from the roll's left edge, y from the start of its cut; sizes after turning. */
export interface PlacedPiece {
  readonly id: string;
  /** From 1. */
  readonly copy: number;
  readonly x: Ticks;
  readonly y: Ticks;
  readonly across: Ticks;
  readonly along: Ticks;
  readonly turn: 0 | 90 | 180 | 270;
}

export interface ApplyStep {
  readonly panel: string;
  readonly why: string;
}

export interface Cost {
  readonly film: number;
  readonly laminate: number;
  readonly ink: number;
  readonly seams: number;
  readonly panels: number;
  readonly total: number;
}

export interface Totals {
  readonly filmLength: Ticks;
  /** Square units of the job. */
  readonly filmArea: number;
  readonly neededArea: number;
  readonly wastePercent: number;
  readonly panelCount: number;
  readonly openSeams: number;
  readonly bodyLineSeams: number;
  readonly colourEdgeSeams: number;
  readonly breakSeams: number;
  readonly visibleSeamLength: Ticks;
  readonly cost: Cost;
}

/** Percentage points of the film area; they add up to wastePercent. */
export interface WasteBy {
  readonly edgeMargin: number;
  readonly leaderTrailer: number;
  readonly overlap: number;
  readonly bleed: number;
  readonly openings: number;
  readonly gapsAndVoids: number;
}

/** Holds for every plan of the job with the layout's roll width and nesting and at most as many seams. */
export interface Bound {
  readonly cost: number;
  readonly filmArea: number;
  readonly gapPercent: number;
  readonly proven: boolean;
  readonly by: string;
}

/** The seam count: every seam that can be seen, borders included. */
export const seamCount = (totals: Totals): number => totals.openSeams + totals.bodyLineSeams + totals.colourEdgeSeams;
