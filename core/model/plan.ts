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
  /** Where full panels leave a rest bare, and the ways to make up for it. Older plans lack it. */
  readonly shortfalls?: readonly Shortfall[];
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
  /** Sections found, in place of those given, for the elevations named; left out where none are. */
  readonly sections?: readonly FoundSection[];
  readonly dimensions?: readonly Dimension[];
  readonly fitting?: readonly FittingStep[];
  readonly differences?: readonly Difference[];
}

/** A section found along breaks, body lines and colour edges. Those of one elevation tile its box. */
export interface FoundSection {
  readonly elevation: string;
  readonly id: string;
  readonly box: Box;
  readonly direction: Direction;
  readonly why: string;
}

/** A measure of the body from one place of an axis to another, and how much longer it may turn out. */
export interface Dimension {
  readonly elevation: string;
  readonly name: string;
  readonly axis: Axis;
  readonly from: Ticks;
  readonly to: Ticks;
  readonly slack: Ticks;
}

/** One step at the vehicle: a panel, a fill, or a loose piece that belongs to the elevation. */
export interface FittingStep {
  readonly elevation: string;
  readonly item: string;
  readonly role: "inlay" | "panel" | "fill" | "overlay" | "decal";
  readonly why: string;
}

/** Where an elevation that follows another does not repeat it. `at` on its own axis; both null for a whole section. */
export interface Difference {
  readonly elevation: string;
  readonly follows: string;
  readonly section: string;
  readonly axis: Axis | null;
  readonly at: Ticks | null;
  readonly says: string;
}

/** Full panels across leave `short` of a section bare; each choice with what it comes to on one copy of the elevation. */
export interface Shortfall {
  readonly elevation: string;
  readonly section: string;
  readonly rollWidth: Ticks;
  readonly direction: Direction;
  readonly panels: number;
  readonly short: Ticks;
  readonly choices: readonly ShortfallChoice[];
}

export interface ShortfallChoice {
  readonly way: "onePanelMore" | "widerRoll" | "otherDirection" | "fillSameFilm" | "fillOtherFilm";
  readonly says: string;
  /** Film of the fill strip; null without one. */
  readonly film: string | null;
  readonly rollWidth: Ticks;
  readonly panels: number;
  /** Visible length of seams. */
  readonly seamLength: Ticks;
  /** Square units of the job. */
  readonly filmArea: number;
  readonly wastePercent: number;
  readonly cost: number;
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
  /** Why it lies there. */
  readonly why?: string;
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
  /** The same, each stretch by how much it counts there, to the nearest tick a seam; left out where all count once. */
  readonly weightedSeamLength?: Ticks;
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
