import fc from "fast-check";
import type { JobDocument } from "../../shared/jobFile.ts";

type Elevation = NonNullable<JobDocument["elevations"]>[number];
type Section = NonNullable<NonNullable<Elevation["sections"]>[number]>;
type Opening = NonNullable<NonNullable<Elevation["openings"]>[number]>;
type Scale = (inches: number) => number;
type Corner = [number, number];
type Box = [number, number, number, number];

/** A position in sixteenths of the elevation's width or height. */
const sixteenths = fc.integer({ min: 0, max: 16 });
/** A stretch of at least one sixteenth: where it begins and how much of the rest it takes. */
const stretch = fc.tuple(fc.integer({ min: 0, max: 15 }), fc.integer({ min: 0, max: 15 }));
type Stretch = readonly [number, number];
const ends = ([from, more]: Stretch): [number, number] => [from, from + 1 + (more % (16 - from))];

const inner = fc.integer({ min: 1, max: 15 });
const rule = fc.constantFrom("never" as const, "avoid" as const, "avoid" as const);

const rawFeatures = fc.record({
  keepClear: fc.array(fc.record({ x: stretch, y: stretch, rule, small: fc.boolean() }), { maxLength: 3 }),
  breaks: fc.array(
    fc.record({
      axis: fc.constantFrom("x" as const, "y" as const),
      at: sixteenths,
      whole: fc.constantFrom(true, true, false),
      along: stretch,
      type: fc.constantFrom("gap" as const, "moulding" as const, "bodyLine" as const),
      width: fc.constantFrom(0, 0.5, 2),
      mustSplit: fc.constantFrom(false, false, false, false, true),
    }),
    { maxLength: 3 },
  ),
  colourEdges: fc.array(
    fc.record({
      axis: fc.constantFrom("x" as const, "y" as const),
      at: sixteenths,
      whole: fc.boolean(),
      along: stretch,
    }),
    { maxLength: 2 },
  ),
  obstacles: fc.array(fc.record({ x: sixteenths, y: sixteenths, rule, clearance: fc.constantFrom(0, 0.25, 1) }), {
    maxLength: 2,
  }),
});
type RawFeatures = typeof rawFeatures extends fc.Arbitrary<infer T> ? T : never;

const rawOpening = fc.record({
  shape: fc.constantFrom("window", "window", "arch", "slant"),
  x: fc.integer({ min: 0, max: 12 }),
  y: fc.integer({ min: 0, max: 8 }),
  wide: fc.integer({ min: 1, max: 4 }),
  high: fc.integer({ min: 1, max: 8 }),
});

const nothingOr = <T>(value: fc.Arbitrary<T>): fc.Arbitrary<T | null> => fc.oneof(fc.constant(null), value);

export const rawElevation = fc.record({
  /** Four times these in inches: 8 to 80 in by 8 to 48 in. */
  width: fc.integer({ min: 2, max: 20 }),
  height: fc.integer({ min: 2, max: 12 }),
  origin: fc.constantFrom<Corner>([0, 0], [0, 0], [10, 4], [-7, -3]),
  shape: fc.constantFrom("rectangle", "rectangle", "angle", "nose", "two noses", "notch"),
  shapeAt: fc.tuple(inner, inner),
  clockwise: fc.boolean(),
  /** A doorway over the full height: where it begins, and how wide, in sixteenths. */
  doorway: fc.oneof(
    { arbitrary: fc.constant(null), weight: 3 },
    { arbitrary: fc.tuple(fc.integer({ min: 0, max: 12 }), fc.integer({ min: 1, max: 4 })), weight: 1 },
  ),
  openings: fc.array(rawOpening, { maxLength: 2 }),
  tiling: fc.constantFrom("none", "none", "columns", "rows", "four", "three"),
  tilingAt: fc.tuple(inner, inner),
  directions: fc.array(fc.constantFrom("vertical" as const, "horizontal" as const, "either" as const), {
    minLength: 4,
    maxLength: 4,
  }),
  maxAcross: fc.constantFrom(null, null, null, 20, 48),
  features: rawFeatures,
  fill: fc.uniqueArray(
    fc.record({
      edge: fc.constantFrom("left" as const, "right" as const, "bottom" as const, "top" as const),
      depth: fc.constantFrom(0.5, 2, 6),
      film: fc.nat(2),
    }),
    { maxLength: 2, selector: ({ edge }) => edge },
  ),
  useFill: fc.constantFrom(false, false, true),
  bleed: nothingOr(
    fc.oneof(
      fc.constantFrom(0, 1.5),
      fc.record(
        {
          left: fc.constantFrom(0, 1, 4),
          right: fc.constantFrom(0, 2),
          bottom: fc.constantFrom(0, 1),
          top: fc.constantFrom(0, 3),
          openings: fc.constantFrom(0, 0.5, 2),
        },
        { requiredKeys: [] },
      ),
    ),
  ),
  travel: fc.constantFrom("left" as const, "right" as const, "up" as const, "down" as const, "none" as const),
  film: fc.nat(2),
});
export type RawElevation = typeof rawElevation extends fc.Arbitrary<infer T> ? T : never;

/** Sixteenths of the dials' box -> lengths of the job. */
interface Frame {
  readonly x: (position: number) => number;
  readonly y: (position: number) => number;
}
function frameOf({ width, height, origin }: RawElevation, scale: Scale): Frame {
  return {
    x: (position) => scale(origin[0] + (width * 4 * position) / 16),
    y: (position) => scale(origin[1] + (height * 4 * position) / 16),
  };
}

function outline({ shape, shapeAt: [a, b], clockwise }: RawElevation, { x, y }: Frame): Corner[] {
  const corners: Record<RawElevation["shape"], Corner[]> = {
    rectangle: [
      [0, 0],
      [16, 0],
      [16, 16],
      [0, 16],
    ],
    angle: [
      [0, 0],
      [16, 0],
      [16, b],
      [a, b],
      [a, 16],
      [0, 16],
    ],
    nose: [
      [0, 0],
      [16, 0],
      [16, 16],
      [a, 16],
      [0, b],
    ],
    "two noses": [
      [0, 0],
      [16, 0],
      [16, b],
      [(16 + a) / 2, 16],
      [a / 2, 16],
      [0, b / 2],
    ],
    notch: [
      [0, 0],
      [16, 0],
      [16, 16],
      [(16 + a) / 2, 16],
      [(16 + a) / 2, b],
      [a / 2, b],
      [a / 2, 16],
      [0, 16],
    ],
  };
  const drawn = (corners[shape] as Corner[]).map(([px, py]): Corner => [x(px), y(py)]);
  return clockwise ? drawn.reverse() : drawn;
}

/**
 * At most a doorway of a quarter and two others of a quarter each, so that part of the bottom edge is always needed. They
 * may overlap each other, reach past the outline, or lie where nothing is needed anyway.
 */
function openings({ doorway, openings: raw }: RawElevation, { x, y }: Frame): Opening[] {
  const at = (points: readonly Corner[]): Corner[] => points.map(([px, py]) => [x(px), y(py)]);
  const drawn = raw.map(({ shape, x: left, y: low, wide, high }, index): Opening => {
    const [right, top] = [left + wide, low + high];
    const shapes: Record<string, Corner[]> = {
      window: [
        [left, low],
        [right, low],
        [right, top],
        [left, top],
      ],
      arch: [
        [left, -1],
        [right, -1],
        [right, high / 2],
        [left + (wide * 3) / 4, high],
        [left + wide / 4, high],
        [left, high / 2],
      ],
      slant: [
        [left, low],
        [right, low],
        [right, top],
        [left + wide / 2, top],
      ],
    };
    return { id: `${shape} ${index}`, outline: at(shapes[shape] as Corner[]) };
  });
  if (doorway === null) return drawn;
  const [left, wide] = doorway;
  const door: Corner[] = [
    [left, -1],
    [left + wide, -1],
    [left + wide, 17],
    [left, 17],
  ];
  return [...drawn, { id: "doorway", outline: at(door) }];
}

function sections(
  { tiling, tilingAt: [a, b], directions, maxAcross }: RawElevation,
  { x, y }: Frame,
  scale: Scale,
): Section[] {
  const tilings: Record<RawElevation["tiling"], Box[]> = {
    none: [],
    columns: [
      [0, 0, a, 16],
      [a, 0, 16, 16],
    ],
    rows: [
      [0, 0, 16, b],
      [0, b, 16, 16],
    ],
    four: [
      [0, 0, a, b],
      [a, 0, 16, b],
      [0, b, a, 16],
      [a, b, 16, 16],
    ],
    three: [
      [0, 0, a, 16],
      [a, 0, 16, b],
      [a, b, 16, 16],
    ],
  };
  return (tilings[tiling] as Box[]).map(([x0, y0, x1, y1], index) => ({
    id: `part ${index}`,
    box: [x(x0), y(y0), x(x1), y(y1)],
    direction: directions[index] as "vertical" | "horizontal" | "either",
    maxAcross: maxAcross === null ? null : scale(maxAcross),
  }));
}

function features({ keepClear, breaks, colourEdges, obstacles }: RawFeatures, { x, y }: Frame, scale: Scale) {
  /** A line's place and run; `whole` runs a little past both edges. */
  const line = (axis: "x" | "y", at: number, whole: boolean, along: Stretch) => {
    const [from, to] = whole ? [-1, 17] : ends(along);
    const [across, run] = axis === "x" ? [x, y] : [y, x];
    return { axis, at: across(at), from: run(from), to: run(to) };
  };
  return {
    keepClear: keepClear.map((zone, index) => {
      const [[x0, x1], [y0, y1]] = [ends(zone.x), ends(zone.y)];
      // A third of the zones as they come, the rest of modest size: few jobs should fail for lettering wider than a roll.
      const box: Box = zone.small
        ? [x(x0), y(y0), x(Math.min(x1, x0 + 2)), y(Math.min(y1, y0 + 4))]
        : [x(x0), y(y0), x(Math.min(x1, x0 + 5)), y(y1)];
      return { id: `zone ${index}`, label: `Words ${index}`, box, rule: zone.rule };
    }),
    breaks: breaks.map(({ axis, at, whole, along, type, width, mustSplit }, index) => ({
      id: `break ${index}`,
      ...line(axis, at, whole, along),
      type,
      width: scale(width),
      mustSplit,
    })),
    colourEdges: colourEdges.map(({ axis, at, whole, along }, index) => ({
      id: `edge ${index}`,
      ...line(axis, at, whole, along),
    })),
    obstacles: obstacles.map((obstacle, index) => ({
      id: `obstacle ${index}`,
      kind: "handle",
      box: [x(obstacle.x), y(obstacle.y), x(obstacle.x) + scale(1.5), y(obstacle.y) + scale(1)] as Box,
      rule: obstacle.rule,
      clearance: scale(obstacle.clearance),
    })),
  };
}

function bleed(raw: RawElevation["bleed"], scale: Scale): Elevation["bleed"] {
  if (raw === null) return null;
  if (typeof raw === "number") return scale(raw);
  return Object.fromEntries(Object.entries(raw).map(([side, inches]) => [side, scale(inches as number)]));
}

/** What an elevation with an outline of its own says beside its id, name, count and subject. */
export function sourceElevation(raw: RawElevation, filmIds: readonly string[], scale: Scale): Omit<Elevation, "id"> {
  const frame = frameOf(raw, scale);
  const filmOf = (place: number): string => filmIds[place % filmIds.length] as string;
  return {
    film: filmOf(raw.film),
    travel: raw.travel,
    outline: outline(raw, frame),
    openings: openings(raw, frame),
    sections: sections(raw, frame, scale),
    ...features(raw.features, frame, scale),
    fill: raw.useFill
      ? raw.fill.map(({ edge, depth, film }) => ({ edge, maxDepth: scale(depth), film: filmOf(film) }))
      : [],
    bleed: bleed(raw.bleed, scale),
  };
}

/**
 * What a mirrored elevation adds: lists of its own, drawn on the box of the elevation whose outline it takes over. An
 * empty list leaves the mirrored one in force.
 */
export function mirroredElevation(raw: RawElevation, source: RawElevation, scale: Scale): Omit<Elevation, "id"> {
  const frame = frameOf(source, scale);
  const own = features(raw.features, frame, scale);
  return raw.travel === "none" ? own : { ...own, travel: raw.travel };
}
