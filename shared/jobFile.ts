import { z } from "./zod.ts";

/**
 * The job file, version 1: what is to be covered, with which film, under which rules.
 *
 * Lengths are plain finite numbers in the job's own unit; x runs right and y runs up. Objects are loose: keys that this
 * version does not know are kept on save and reported as warnings by the reader. What one field alone can tell is checked
 * here; what needs two fields together (a mirror without its source, sections that do not tile) is checked in `core/model`.
 */

const length = z.number();
const size = z.number().positive();
const notNegative = z.number().nonnegative();
const price = z.number().nonnegative();
const name = z.string();

/** Ids name panels and cuts further on, so the marks that join those names stay free. */
export const Id = z
  .string()
  .min(1)
  .regex(/^[^/:|]+$/, "holds none of / : |");

export const Point = z.tuple([length, length]);
export const Outline = z.array(Point).min(3).max(10_000);
/** [left, bottom, right, top] */
export const BoxTuple = z.tuple([length, length, length, length]);

export const Unit = z.enum(["in", "mm"]);
export const Travel = z.enum(["left", "right", "up", "down", "none"]);
export const DirectionChoice = z.enum(["vertical", "horizontal", "either"]);
export const ZoneRule = z.enum(["never", "avoid"]);
export const KeepClearReason = z.enum(["lettering", "logo", "face", "plate", "exit", "placard", "sensor", "other"]);
export const BreakType = z.enum(["gap", "moulding", "bodyLine"]);
export const Axis = z.enum(["x", "y"]);
export const Edge = z.enum(["left", "right", "bottom", "top"]);
export const PieceRole = z.enum(["overlay", "fill", "inlay", "decal"]);
export const PieceTurn = z.enum(["fixed", "half", "quarter"]);
export const Lay = z.enum(["one-way", "two-way", "any"]);
export const OneLot = z.enum(["elevation", "subject", "none"]);
export const StockKind = z.enum(["roll", "offcut"]);
export const Heads = z.enum(["same", "alternate"]);
export const Joint = z.enum(["lapped", "butted"]);
export const MirrorKind = z.enum(["exact", "follow"]);

export const Opening = z.looseObject({ id: Id, outline: Outline });

export const Section = z.looseObject({
  id: Id.refine((id) => !id.startsWith("fill-"), "does not begin with fill-"),
  box: BoxTuple,
  direction: DirectionChoice.default("either"),
  maxAcross: size.nullable().default(null),
  /** Whether every second panel is turned head to foot on the roll; left out, as the elevation says. */
  heads: Heads.nullable().optional(),
});

export const KeepClear = z.looseObject({
  id: Id,
  label: name.default(""),
  box: BoxTuple,
  rule: ZoneRule,
  reason: KeepClearReason.default("lettering"),
});

export const Break = z.looseObject({
  id: Id,
  axis: Axis,
  at: length,
  from: length,
  to: length,
  type: BreakType.default("gap"),
  width: notNegative.default(0),
  mustSplit: z.boolean().default(false),
});

export const ColourEdge = z.looseObject({
  id: Id,
  axis: Axis,
  at: length,
  from: length,
  to: length,
  /** The edge as it really runs, sloped or stepped: its corners in order. The seam keeps to `at`; its overlap holds them. */
  path: z.array(Point).min(2).max(1_000).nullable().optional(),
});

export const Obstacle = z.looseObject({
  id: Id,
  kind: name.default("other"),
  box: BoxTuple,
  rule: ZoneRule.default("avoid"),
  /** Left out, `rules.clearances` of its kind, else 0. */
  clearance: notNegative.nullable().optional(),
});

export const Fill = z.looseObject({ edge: Edge, maxDepth: size, film: Id });

export const BleedBySide = z.looseObject({
  left: notNegative.optional(),
  right: notNegative.optional(),
  bottom: notNegative.optional(),
  top: notNegative.optional(),
  openings: notNegative.optional(),
});

/** How much a seam would be seen, read from the artwork: cells of one size, rows from the bottom, each from the left. */
export const SeamMap = z.looseObject({
  /** Lower left corner of the first cell. */
  origin: Point,
  cell: size,
  columns: z.int().min(1).max(4_000),
  rows: z.int().min(1).max(4_000),
  /** For upright seams and for level ones: one byte a cell, 0 unseen to 255 most seen, in base64. */
  upright: z.base64(),
  level: z.base64(),
  /** Name of the picture that it was read from. */
  picture: name.optional(),
});

/** What the user has settled beforehand; honoured exactly. `section` left out: every section that the line crosses. */
const hold = { id: Id, section: Id.nullable().default(null) };
export const Hold = z.discriminatedUnion("kind", [
  /** A seam lies at this place. */
  z.looseObject({ ...hold, kind: z.literal("seam"), axis: Axis, at: length }),
  /** No seam lies from here to there, both included. */
  z.looseObject({ ...hold, kind: z.literal("noSeam"), axis: Axis, from: length, to: length }),
  /** The panel that this place of the axis falls in measures so much across. */
  z.looseObject({ ...hold, kind: z.literal("width"), axis: Axis, at: length, width: size }),
  /** Panels run this way. */
  z.looseObject({ ...hold, kind: z.literal("direction"), direction: z.enum(["vertical", "horizontal"]) }),
]);

export const Elevation = z.looseObject({
  id: Id,
  name: name.default(""),
  count: z.int().min(1).max(10_000).default(1),
  subject: name.nullable().optional(),
  film: Id.nullable().optional(),
  travel: Travel.nullable().optional(),
  mirrorOf: Id.nullable().optional(),
  outline: Outline.nullable().optional(),
  openings: z.array(Opening).nullable().optional(),
  sections: z.array(Section).nullable().optional(),
  keepClear: z.array(KeepClear).nullable().optional(),
  breaks: z.array(Break).nullable().optional(),
  colourEdges: z.array(ColourEdge).nullable().optional(),
  obstacles: z.array(Obstacle).nullable().optional(),
  fill: z.array(Fill).nullable().optional(),
  bleed: z.union([notNegative, BleedBySide]).nullable().optional(),
  /** Whether sections are also looked for along breaks, body lines and colour edges, beside those given. */
  findSections: z.boolean().default(false),
  /** Whether a mirrored elevation repeats the other's windows, or follows its seams as far as its own features allow. */
  mirror: MirrorKind.default("exact"),
  heads: Heads.nullable().optional(),
  /** Height of the ground in this view, from which `rules.heightZones` count; left out, the bottom of the outline. */
  ground: length.nullable().optional(),
  /** The keep-clear zone whose panel is applied first where laps leave it open; left out, the largest lettering. */
  straight: Id.nullable().optional(),
  seamMap: SeamMap.nullable().optional(),
  holds: z.array(Hold).nullable().optional(),
});

export const Piece = z.looseObject({
  id: Id,
  role: PieceRole,
  label: name.optional(),
  count: z.int().min(1).max(200_000).default(1),
  film: Id,
  outline: Outline,
  turn: PieceTurn.default("fixed"),
  elevation: Id.nullable().default(null),
  at: Point.nullable().default(null),
  layer: z.union([z.literal(-1), z.literal(1)]).default(1),
});

export const Film = z.looseObject({
  id: Id,
  name: name.default(""),
  rollWidths: z.array(size).min(1),
  edgeMargin: notNegative.default(0),
  rollLength: size.nullable().default(null),
  maxRun: size.nullable().default(null),
  /** How many new rolls may be bought; null for no limit; left out, 0 with stock entries of this film and no limit without. */
  newRolls: z.int().nonnegative().nullable().optional(),
  laminateWidth: size.nullable().default(null),
  lengthFactor: size.default(1),
  pricePerArea: price.default(0),
  laminatePricePerArea: price.default(0),
  inkPricePerArea: price.default(0),
  lay: Lay.default("one-way"),
  /** Whether panels lap at a seam or meet edge to edge, as window film does. */
  joint: Joint.default("lapped"),
});

export const Stock = z.looseObject({
  id: Id,
  film: Id,
  lot: name.nullable().default(null),
  kind: StockKind.default("roll"),
  width: size,
  length: size,
});

export const HeightZone = z.looseObject({ from: length, to: length, weight: notNegative });

/** Elevations whose panels come from one lot, copy by copy. */
export const SameLot = z.looseObject({ id: Id, elevations: z.array(Id).min(2) });

export const Rules = z.looseObject({
  bleed: notNegative,
  overlap: notNegative,
  colourEdgeOverlap: notNegative,
  trimOverlap: notNegative,
  cutGap: notNegative,
  leader: notNegative,
  trailer: notNegative,
  maxOpenSeams: z.int().nonnegative().nullable().default(null),
  seamPricePerLength: price.default(0),
  avoidPenalty: price.default(0),
  panelPrice: price.default(0),
  oneLot: OneLot.default("elevation"),
  /** Panels narrower than this are widened by sharing the width equally where nothing is lost; left out, 6 in. */
  sliverUnder: notNegative.nullable().optional(),
  /** What is left on an opened roll is worth keeping from this length on, else scrap; left out, nobody asks. */
  keepLength: notNegative.nullable().optional(),
  /** How much a seam counts by its height over the ground: 1 where no zone says otherwise. Where two meet, the first. */
  heightZones: z.array(HeightZone).nullable().optional(),
  /** How much more a seam counts where the artwork would show it most: weight 1 + this times the map's value; left out, 4. */
  artworkWeight: notNegative.nullable().optional(),
  /** How far each panel may at least be shifted at the vehicle before film falls short or a seam stops lapping; left out, 0. */
  leastSlack: notNegative.nullable().optional(),
  /** What seams keep from an obstacle that gives no clearance of its own, by its kind. */
  clearances: z.record(z.string(), notNegative).nullable().optional(),
  currency: name.default("USD"),
});

export const JobFile = z.looseObject({
  format: z.literal("lapwright-job"),
  version: z.literal(1),
  name: name.default(""),
  units: Unit,
  elevations: z.array(Elevation).default([]),
  pieces: z.array(Piece).nullable().optional(),
  films: z.array(Film).default([]),
  stock: z.array(Stock).nullable().optional(),
  sameLot: z.array(SameLot).nullable().optional(),
  rules: Rules,
});

/** What stands in the file: defaults left out are still left out. This is what is kept, edited and saved. */
export type JobDocument = z.input<typeof JobFile>;
/** The file once read: defaults filled in. */
export type JobFile = z.output<typeof JobFile>;
export type ElevationEntry = z.output<typeof Elevation>;
export type FilmEntry = z.output<typeof Film>;
export type RulesEntry = z.output<typeof Rules>;
export type HoldEntry = z.output<typeof Hold>;
export type SeamMapEntry = z.output<typeof SeamMap>;
