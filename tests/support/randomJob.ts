import fc from "fast-check";
import type { JobDocument } from "../../shared/jobFile.ts";
import { mirroredElevation, type RawElevation, rawElevation, sourceElevation } from "./randomElevation.ts";
import { piece, type RawPiece, rawPiece } from "./randomPiece.ts";
import { rawSeams, withSeams } from "./randomSeams.ts";

/**
 * Random jobs that are valid as they are made: nothing is filtered, so every run tries as many jobs as it says.
 *
 * The dials are drawn first, all small whole numbers, and the job is a pure function of them. Positions are sixteenths of
 * the elevation they lie on, which makes edges coincide far more often than chance would: zones that touch, openings that
 * begin on a section's border, breaks along an edge of the outline. Sizes stay near a few printable widths, so
 * that a job is planned in milliseconds. A job may still have no plan: lettering wider than the roll, stock too short.
 */
type Film = NonNullable<JobDocument["films"]>[number];
type Stock = NonNullable<JobDocument["stock"]>[number];

/** Which elevation mirrors which: null for one with an outline of its own, else the place of its source. */
const families: readonly (readonly (number | null)[])[] = [
  [null],
  [null, 0],
  [null, 0, 1],
  [null, null],
  [null, 0, null],
  [null, 0, 0, null],
];

const rawFilm = fc.record({
  rollWidths: fc.uniqueArray(fc.constantFrom(24, 30, 36, 54, 60), { minLength: 1, maxLength: 2 }),
  edgeMargin: fc.constantFrom(0, 0.5, 1),
  rollLength: fc.constantFrom(null, null, null, 1800, 300, 150),
  maxRun: fc.constantFrom(null, null, null, null, null, 400, 140),
  newRolls: fc.constantFrom(...Array.from({ length: 9 }, () => null), undefined, 0, 2),
  laminateBelow: fc.constantFrom(null, null, 1, 4),
  lay: fc.constantFrom("one-way" as const, "two-way" as const, "any" as const),
  price: fc.integer({ min: 0, max: 12 }),
});
type RawFilm = typeof rawFilm extends fc.Arbitrary<infer T> ? T : never;

const rawStock = fc.record({
  film: fc.nat(2),
  /** A width the film is sold in, or narrower: an offcut need not be as wide as a roll. */
  width: fc.constantFrom("first", "last", 12, 20),
  length: fc.constantFrom(40, 90, 160, 420, 1210),
  lot: fc.constantFrom(null, "A44", "B07"),
  kind: fc.constantFrom("roll" as const, "offcut" as const),
});
type RawStock = typeof rawStock extends fc.Arbitrary<infer T> ? T : never;

const rawRules = fc.record({
  bleed: fc.constantFrom(0, 0.5, 1, 2, 3),
  colourEdgeOverlap: fc.constantFrom(0, 0.25),
  overlapMore: fc.constantFrom(0.0625, 0.25, 0.5, 1),
  zeroOverlap: fc.constantFrom(...Array.from({ length: 9 }, () => false), true),
  trimMore: fc.constantFrom(0, 1, 3),
  cutGap: fc.constantFrom(0, 0.5, 1),
  leader: fc.constantFrom(0, 6, 12),
  trailer: fc.constantFrom(0, 3, 6),
  maxOpenSeams: fc.constantFrom(...Array.from({ length: 7 }, () => null), 0, 1, 4),
  seamPricePerLength: fc.constantFrom(0, 0.02),
  avoidPenalty: fc.constantFrom(0, 5),
  panelPrice: fc.constantFrom(0, 4),
  oneLot: fc.constantFrom("elevation" as const, "subject" as const, "none" as const),
});

const rawJob = fc.record({
  units: fc.constantFrom("in" as const, "mm" as const),
  family: fc.constantFrom(...families),
  elevations: fc.array(rawElevation, { minLength: 4, maxLength: 4 }),
  subject: fc.constantFrom("none", "all", "first two"),
  counts: fc.tuple(fc.integer({ min: 1, max: 3 }), fc.integer({ min: 1, max: 2 })),
  films: fc.array(rawFilm, { minLength: 1, maxLength: 3 }),
  /** Makes the first film's printable width exactly what the first elevation needs across, bleed included. */
  exactFit: fc.constantFrom(false, false, false, true),
  stock: fc.array(rawStock, { maxLength: 4 }),
  pieces: fc.array(rawPiece, { maxLength: 3 }),
  rules: rawRules,
});
type RawJob = typeof rawJob extends fc.Arbitrary<infer T> ? T : never;

/** Inches of the dials in the job's unit: 10 mm stand for 1 in, so that lengths stay round and jobs small in both. */
const scaleOf = (units: "in" | "mm") => (inches: number) => (units === "in" ? inches : inches * 10);
type Scale = ReturnType<typeof scaleOf>;

function film(raw: RawFilm, index: number, scale: Scale, exactPrintable: number | null): Film {
  const widths: number[] = [...raw.rollWidths].sort((a, b) => a - b);
  if (exactPrintable !== null) widths[0] = exactPrintable + 2 * raw.edgeMargin;
  const narrowest = Math.min(...widths);
  const laminate = raw.laminateBelow === null ? null : narrowest - 2 * raw.edgeMargin - raw.laminateBelow;
  return {
    id: `film ${index}`,
    name: `Film ${index}`,
    rollWidths: [...new Set(widths)].map(scale),
    edgeMargin: scale(raw.edgeMargin),
    rollLength: raw.rollLength === null ? null : scale(raw.rollLength),
    maxRun: raw.maxRun === null ? null : scale(raw.maxRun),
    ...(raw.newRolls === undefined ? {} : { newRolls: raw.newRolls }),
    laminateWidth: laminate !== null && laminate > 0 ? scale(laminate) : null,
    pricePerArea: raw.price / 1000,
    laminatePricePerArea: raw.price / 2000,
    inkPricePerArea: raw.price / 4000,
    lay: raw.lay,
  };
}

function stockEntry(raw: RawStock, index: number, films: readonly Film[], scale: Scale): Stock {
  const of = films[raw.film % films.length] as Film;
  const sold = of.rollWidths as number[];
  const width =
    raw.width === "first" ? sold[0] : raw.width === "last" ? sold[sold.length - 1] : scale(raw.width as number);
  return {
    id: `stock ${index}`,
    film: of.id,
    lot: raw.lot,
    kind: raw.kind,
    width: width as number,
    length: scale(raw.length),
  };
}

function rules({ zeroOverlap, overlapMore, trimMore, ...raw }: RawJob["rules"], scale: Scale): JobDocument["rules"] {
  const colourEdgeOverlap = zeroOverlap ? 0 : raw.colourEdgeOverlap;
  const overlap = zeroOverlap ? 0 : colourEdgeOverlap + overlapMore;
  return {
    ...raw,
    bleed: scale(raw.bleed),
    colourEdgeOverlap: scale(colourEdgeOverlap),
    overlap: scale(overlap),
    trimOverlap: scale(overlap + trimMore),
    cutGap: scale(raw.cutGap),
    leader: scale(raw.leader),
    trailer: scale(raw.trailer),
    currency: "EUR",
  };
}

/**
 * Without overlap a seam costs no film, so beside a slope every further seam saves some and hundreds of splits stand
 * side by side, none beating another. Such jobs, and those with film that meets edge to edge, are kept to 24 in.
 */
function keptSmall({ rules: { zeroOverlap }, elevations }: RawJob, butted: boolean): RawElevation[] {
  if (!zeroOverlap && !butted) return elevations;
  return elevations.map((one) => ({ ...one, width: Math.min(one.width, 6), height: Math.min(one.height, 6) }));
}

function build(dials: RawJob, butted: boolean): JobDocument {
  const raw = { ...dials, elevations: keptSmall(dials, butted) };
  const scale = scaleOf(raw.units);
  const first = raw.elevations[0] as RawElevation;
  const exact = raw.exactFit ? first.width * 4 + 2 * raw.rules.bleed : null;
  const films = raw.films.map((one, index) => film(one, index, scale, index === 0 ? exact : null));
  const filmIds = films.map(({ id }) => id);
  const subjectOf = (index: number): string | null =>
    raw.subject === "all" || (raw.subject === "first two" && index < 2) ? "the van" : null;
  const elevations = raw.family.map((source, index) => {
    const dials = raw.elevations[index] as RawElevation;
    // Elevations of one subject have equal counts.
    const count = subjectOf(index) === null ? raw.counts[index % 2] : raw.counts[0];
    const common = { id: `side ${index}`, name: `Side ${index}`, count: count as number, subject: subjectOf(index) };
    if (source === null) return { ...common, ...sourceElevation(dials, filmIds, scale) };
    let root = source;
    for (let next = raw.family[root]; typeof next === "number"; next = raw.family[root]) root = next;
    return {
      ...common,
      mirrorOf: `side ${source}`,
      ...mirroredElevation(dials, raw.elevations[root] as RawElevation, scale),
    };
  });
  return {
    format: "lapwright-job",
    version: 1,
    name: "Random job",
    units: raw.units,
    elevations,
    pieces: raw.pieces.map((one: RawPiece, index) => piece(one, index, films, scale)),
    films,
    stock: raw.stock.map((one, index) => stockEntry(one, index, films, scale)),
    rules: rules(raw.rules, scale),
  };
}

/** Any valid job: up to four elevations, three films, stock, loose pieces, fills, mirrors. */
export const randomJob: fc.Arbitrary<JobDocument> = rawJob.map((raw) => build(raw, false));

/** The same, with what a job may say of its seams besides. */
export const randomSeamJob: fc.Arbitrary<JobDocument> = fc
  .tuple(rawJob, rawSeams)
  .map(([raw, seams]) => withSeams(build(raw, seams.butted.includes(true)), seams, scaleOf(raw.units)));
