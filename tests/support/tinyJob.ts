import fc from "fast-check";
import type { JobDocument } from "../../shared/jobFile.ts";

/**
 * Jobs so small that every choice of seams on a grid can be tried: one elevation in one section, split upright, one film
 * of one roll width, no stock. All figures are whole multiples of `tinyGrid`, so that seams on that grid, half overlaps
 * included, reach every split that matters.
 */
export const tinyGrid = 0.25;

type Corner = [number, number];

const zone = fc.record({
  x: fc.integer({ min: 0, max: 18 }),
  wide: fc.integer({ min: 1, max: 6 }),
  y: fc.integer({ min: 0, max: 3 }),
  high: fc.integer({ min: 1, max: 4 }),
  rule: fc.constantFrom("never" as const, "avoid" as const),
});

const rawTiny = fc.record({
  /** In half inches. */
  width: fc.integer({ min: 4, max: 20 }),
  height: fc.integer({ min: 4, max: 8 }),
  shape: fc.constantFrom("rectangle", "rectangle", "angle", "nose"),
  shapeAt: fc.tuple(fc.integer({ min: 1, max: 3 }), fc.integer({ min: 1, max: 3 })),
  doorway: fc.oneof(fc.constant(null), fc.tuple(fc.integer({ min: 0, max: 16 }), fc.integer({ min: 1, max: 3 }))),
  window: fc.oneof(fc.constant(null), fc.tuple(fc.integer({ min: 0, max: 16 }), fc.integer({ min: 1, max: 3 }))),
  printable: fc.integer({ min: 3, max: 9 }),
  zones: fc.array(zone, { maxLength: 2 }),
  break: fc.oneof(
    fc.constant(null),
    fc.record({
      at: fc.integer({ min: 0, max: 20 }),
      type: fc.constantFrom("gap" as const, "moulding" as const, "bodyLine" as const),
      mustSplit: fc.boolean(),
    }),
  ),
  colourEdge: fc.oneof(fc.constant(null), fc.integer({ min: 0, max: 20 })),
  bleed: fc.constantFrom(0, 0.25, 0.5),
  overlap: fc.constantFrom(0, 0.5, 1),
  trimMore: fc.constantFrom(0, 0.5),
  maxOpenSeams: fc.constantFrom(null, null, 1),
  seamPricePerLength: fc.constantFrom(0, 0.5),
  avoidPenalty: fc.constantFrom(0, 3),
});
type RawTiny = typeof rawTiny extends fc.Arbitrary<infer T> ? T : never;

const half = (count: number): number => count / 2;
const rectangle = (x0: number, y0: number, x1: number, y1: number): Corner[] => [
  [x0, y0],
  [x1, y0],
  [x1, y1],
  [x0, y1],
];

function outline({ width, height, shape, shapeAt: [a, b] }: RawTiny): Corner[] {
  const [w, h] = [half(width), half(height)];
  if (shape === "angle") {
    return [
      [0, 0],
      [w, 0],
      [w, half(b)],
      [half(a), half(b)],
      [half(a), h],
      [0, h],
    ];
  }
  if (shape === "nose") {
    return [
      [0, 0],
      [w, 0],
      [w, h],
      [half(a), h],
      [0, half(b)],
    ];
  }
  return rectangle(0, 0, w, h);
}

function build(raw: RawTiny): JobDocument {
  const [w, h] = [half(raw.width), half(raw.height)];
  // Positions wrap round inside the outline; a doorway leaves at least half an inch beside it.
  const inside = (place: number): number => half(place % raw.width);
  const doorway = raw.doorway && {
    id: "doorway",
    outline: rectangle(
      inside(raw.doorway[0]),
      -1,
      Math.min(inside(raw.doorway[0]) + half(raw.doorway[1]), inside(raw.doorway[0]) + w - 0.5),
      h + 1,
    ),
  };
  const window = raw.window && {
    id: "window",
    outline: rectangle(inside(raw.window[0]), 0.5, inside(raw.window[0]) + half(raw.window[1]), 1.5),
  };
  return {
    format: "lapwright-job",
    version: 1,
    name: "Tiny job",
    units: "in",
    elevations: [
      {
        id: "side",
        film: "film",
        outline: outline(raw),
        openings: [doorway, window].filter((opening) => opening !== null),
        sections: [{ id: "whole", box: [0, 0, w, h], direction: "vertical" }],
        keepClear: raw.zones.map(({ x, wide, y, high, rule }, index) => ({
          id: `zone ${index}`,
          label: "Words",
          box: [half(x), half(y), half(x + wide), half(y + high)],
          rule,
        })),
        breaks:
          raw.break === null
            ? []
            : [{ id: "break", axis: "x", at: half(raw.break.at), from: 0, to: h, ...breakKind(raw.break) }],
        colourEdges:
          raw.colourEdge === null ? [] : [{ id: "edge", axis: "x", at: half(raw.colourEdge), from: 0, to: h }],
      },
    ],
    films: [{ id: "film", rollWidths: [half(raw.printable) + 0.5], edgeMargin: 0.25, pricePerArea: 0.25 }],
    rules: {
      bleed: raw.bleed,
      overlap: raw.overlap,
      colourEdgeOverlap: 0,
      trimOverlap: raw.overlap + raw.trimMore,
      cutGap: 0.5,
      leader: 1,
      trailer: 0.5,
      maxOpenSeams: raw.maxOpenSeams,
      seamPricePerLength: raw.seamPricePerLength,
      avoidPenalty: raw.avoidPenalty,
      panelPrice: 0.125,
      sliverUnder: 0,
    },
  };
}

const breakKind = ({ type, mustSplit }: NonNullable<RawTiny["break"]>) => ({ type, mustSplit });

/** Small enough for brute force; see `tinyGrid`. */
export const tinyJob: fc.Arbitrary<JobDocument> = rawTiny.map(build);

/** The same with upright and level edges alone, so that the grid's cells are needed whole or not at all. */
export const tinySquareJob: fc.Arbitrary<JobDocument> = rawTiny.map((raw) =>
  build({ ...raw, shape: raw.shape === "nose" ? "angle" : raw.shape }),
);
