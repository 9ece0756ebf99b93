import { Axis, BoxTuple, Unit } from "./jobFile.ts";
import { z } from "./zod.ts";

/** The plan file, version 1: layouts of a job, each complete and checkable by itself. Lengths in the job's unit. */

const length = z.number();
const id = z.string();

export const PanelRole = z.enum(["panel", "fill"]);
export const Direction = z.enum(["vertical", "horizontal"]);
export const SeamKind = z.enum(["break", "bodyLine", "colourEdge", "open"]);
export const Nesting = z.enum(["crosscut", "free"]);
export const QuarterTurn = z.union([z.literal(0), z.literal(90), z.literal(180), z.literal(270)]);

export const Slack = z.looseObject({ left: length, right: length, down: length, up: length });

export const PlanPanel = z.looseObject({
  id,
  elevation: id,
  section: id,
  role: PanelRole,
  film: id,
  direction: Direction,
  window: BoxTuple,
  across: length,
  along: length,
  slack: Slack.nullable().default(null),
});

export const PlanSeam = z.looseObject({
  id,
  elevation: id,
  section: id.nullable(),
  axis: Axis,
  at: length,
  from: length,
  to: length,
  kind: SeamKind,
  overlap: length,
  finishedOverlap: length,
  between: z.tuple([id, id]),
  top: id,
  border: z.boolean().default(false),
  /** Why it lies there. */
  why: z.string().optional(),
});

export const PlanPiece = z.looseObject({
  id,
  copy: z.int().min(1),
  x: length,
  y: length,
  across: length,
  along: length,
  turn: QuarterTurn,
});

export const PlanCut = z.looseObject({ start: length, length, pieces: z.array(PlanPiece) });

export const PlanRoll = z.looseObject({
  id,
  stock: id.nullable(),
  film: id,
  lot: z.string().nullable().default(null),
  width: length,
  used: length,
  /** What is left on the roll or offcut after this load; null when it does not end. */
  leaves: length.nullable().optional(),
  /** Whether that is worth keeping. */
  keep: z.boolean().optional(),
  cuts: z.array(PlanCut),
});

export const PlanTotals = z.looseObject({
  filmLength: length,
  filmArea: z.number(),
  neededArea: z.number(),
  wastePercent: z.number(),
  panelCount: z.int(),
  openSeams: z.int(),
  bodyLineSeams: z.int(),
  colourEdgeSeams: z.int(),
  breakSeams: z.int(),
  visibleSeamLength: length,
  /** The same, each stretch by how much it counts there; left out where every stretch counts once. */
  weightedSeamLength: length.optional(),
  cost: z.looseObject({
    film: z.number(),
    laminate: z.number(),
    ink: z.number(),
    seams: z.number(),
    panels: z.number(),
    total: z.number(),
  }),
});

export const PlanWaste = z.looseObject({
  edgeMargin: z.number(),
  leaderTrailer: z.number(),
  overlap: z.number(),
  bleed: z.number(),
  openings: z.number(),
  gapsAndVoids: z.number(),
});

export const PlanBound = z.looseObject({
  cost: z.number(),
  filmArea: z.number(),
  gapPercent: z.number(),
  proven: z.boolean(),
  by: z.string().default(""),
});

/** A section found along breaks, body lines and colour edges: it takes the place of those given for its elevation. */
export const FoundSection = z.looseObject({ elevation: id, id, box: BoxTuple, direction: Direction, why: z.string() });

/** A measure of the body, and how much longer it may turn out before film falls short or a seam stops lapping. */
export const PlanDimension = z.looseObject({
  elevation: id,
  name: z.string(),
  axis: Axis,
  from: length,
  to: length,
  slack: length,
});

/** One step at the vehicle: a panel, a fill, or a loose piece that belongs to the elevation. */
export const FittingStep = z.looseObject({
  elevation: id,
  item: id,
  role: z.enum(["inlay", "panel", "fill", "overlay", "decal"]),
  why: z.string(),
});

/** Where an elevation that follows another does not repeat it. `at` is a place on its own axis; null for a whole section. */
export const PlanDifference = z.looseObject({
  elevation: id,
  follows: id,
  section: id,
  axis: Axis.nullable(),
  at: length.nullable(),
  says: z.string(),
});

/** One way to make up for film that falls short, and what it comes to on one copy of the elevation. */
export const ShortfallChoice = z.looseObject({
  way: z.enum(["onePanelMore", "widerRoll", "otherDirection", "fillSameFilm", "fillOtherFilm"]),
  says: z.string(),
  /** Film of the fill strip, and the roll width planned on. */
  film: id.nullable(),
  rollWidth: length,
  panels: z.int(),
  seamLength: length,
  filmArea: z.number(),
  wastePercent: z.number(),
  cost: z.number(),
});

/** Full panels of a roll width leave a rest of the elevation bare: how much, and the ways to make up for it. */
export const Shortfall = z.looseObject({
  elevation: id,
  section: id,
  rollWidth: length,
  direction: Direction,
  /** How many full panels cover all but `short`. */
  panels: z.int(),
  short: length,
  choices: z.array(ShortfallChoice),
});

export const PlanLayout = z.looseObject({
  id,
  rollWidth: length.nullable(),
  nesting: Nesting,
  panels: z.array(PlanPanel),
  seams: z.array(PlanSeam),
  rolls: z.array(PlanRoll),
  printOrder: z.array(z.string()),
  applyOrder: z.array(z.looseObject({ panel: id, why: z.string() })),
  totals: PlanTotals,
  wasteBy: PlanWaste,
  bound: PlanBound,
  warnings: z.array(z.string()).default([]),
  sections: z.array(FoundSection).optional(),
  dimensions: z.array(PlanDimension).optional(),
  fitting: z.array(FittingStep).optional(),
  differences: z.array(PlanDifference).optional(),
});

export const PlanFile = z.looseObject({
  format: z.literal("lapwright-plan"),
  version: z.literal(1),
  jobName: z.string(),
  units: Unit,
  seed: z.int(),
  layouts: z.array(PlanLayout),
  frontier: z.array(id),
  chosen: id,
  shortfalls: z.array(Shortfall).optional(),
});

export type PlanFile = z.output<typeof PlanFile>;
export type PlanLayout = z.output<typeof PlanLayout>;
