import fc from "fast-check";
import type { PanellingLimits } from "../../core/model/covering.ts";
import type { Elevation, Instance } from "../../core/model/instance.ts";
import { boxOf, elevationOf, inch, instanceOf, limitsOf, plainFilm, rectangle } from "../core/panelling/builders.ts";
import type { PlainBox, PlainElevation, PlainLine } from "./plainSections.ts";

/** Elevations small enough for `plainSections`: a rectangle with at most two lines an axis, all on whole inches. */

const rawLine = fc.record({
  place: fc.nat(30),
  kind: fc.constantFrom(
    "gap" as const,
    "gap" as const,
    "moulding" as const,
    "bodyLine" as const,
    "colourEdge" as const,
  ),
  width: fc.constantFrom(0, 0, 6),
  mustSplit: fc.constantFrom(false, false, false, true),
  part: fc.constantFrom("whole" as const, "low" as const, "high" as const),
});
type RawLine = typeof rawLine extends fc.Arbitrary<infer T> ? T : never;

const rawElevation = fc.record({
  width: fc.integer({ min: 6, max: 20 }),
  height: fc.integer({ min: 6, max: 15 }),
  upright: fc.array(rawLine, { maxLength: 2 }),
  level: fc.array(rawLine, { maxLength: 2 }),
  opening: fc.option(fc.tuple(fc.nat(30), fc.nat(30), fc.integer({ min: 2, max: 6 }), fc.integer({ min: 2, max: 6 }))),
  zones: fc.array(
    fc.record({
      x: fc.nat(18),
      y: fc.nat(13),
      wide: fc.integer({ min: 1, max: 5 }),
      high: fc.integer({ min: 1, max: 4 }),
      rule: fc.constantFrom("never" as const, "avoid" as const),
    }),
    { maxLength: 2 },
  ),
  bleed: fc.integer({ min: 0, max: 2 }),
  bleedOfOpenings: fc.integer({ min: 0, max: 3 }),
  overlap: fc.constantFrom(2, 4),
  trimMore: fc.constantFrom(0, 2),
  printable: fc.integer({ min: 7, max: 14 }),
  longest: fc.constantFrom(12, 40),
  seam: fc.constantFrom(0, 0.5, 3),
  panel: fc.constantFrom(0, 4),
  avoid: fc.constantFrom(1, 20),
});
type RawElevation = typeof rawElevation extends fc.Arbitrary<infer T> ? T : never;

/**
 * `partly`: lines lie anywhere and some run over half of the elevation only; else all run from side to side, on every
 * third inch, so that no part between them is narrower than half of what panels share at its edge.
 */
export const smallElevation = (partly: boolean): fc.Arbitrary<PlainElevation> =>
  rawElevation.map((raw) => build(raw, partly));

function build(raw: RawElevation, partly: boolean): PlainElevation {
  const { width, height, bleed, bleedOfOpenings, overlap, printable, longest } = raw;
  const lines = [
    ...raw.upright.map((line) => lineOf(line, "x", width, height, partly)),
    ...raw.level.map((line) => lineOf(line, "y", height, width, partly)),
  ];
  return {
    width,
    height,
    lines,
    opening: openingIn(raw, lines),
    zones: raw.zones.map(({ x, y, wide, high, rule }) => ({ box: [x, y, x + wide, y + high], rule })),
    bleed,
    bleedOfOpenings,
    overlap,
    trimOverlap: overlap + raw.trimMore,
    printable,
    longest,
    prices: { area: 1, seam: raw.seam, panel: raw.panel, avoid: raw.avoid },
  };
}

/** `size` is the elevation's across the line, `length` along it. */
function lineOf(
  { place, kind, width, mustSplit, part }: RawLine,
  axis: "x" | "y",
  size: number,
  length: number,
  partly: boolean,
): PlainLine {
  const middle = Math.floor(length / 2);
  return {
    axis,
    at: partly ? 1 + (place % (size - 1)) : 3 * (1 + (place % Math.floor((size - 3) / 3))),
    from: partly && part === "high" ? middle : 0,
    to: partly && part === "low" ? middle : length,
    kind,
    width: kind === "gap" || kind === "moulding" ? width : 0,
    mustSplit: mustSplit && kind !== "colourEdge",
  };
}

/** The opening in a field between lines, an inch from them and from the edges; null where the field is too small. */
function openingIn({ opening, width, height }: RawElevation, lines: readonly PlainLine[]): PlainBox | null {
  if (opening === null) return null;
  const [column, row, wide, high] = opening;
  const field = (axis: "x" | "y", size: number, least: number, which: number): number | undefined => {
    const places = [0, ...lines.filter((line) => line.axis === axis).map(({ at }) => at), size].sort((a, b) => a - b);
    const wideEnough = places.filter((from, i) => (places[i + 1] ?? from) - from >= least + 2);
    return wideEnough[which % Math.max(1, wideEnough.length)];
  };
  const [x, y] = [field("x", width, wide, column), field("y", height, high, row)];
  return x === undefined || y === undefined ? null : [x + 1, y + 1, x + 1 + wide, y + 1 + high];
}

/** The same as the program takes it. Film costs nothing but its ink, so that a window is priced by its area alone. */
export function programInput(plain: PlainElevation): {
  instance: Instance;
  source: Elevation;
  limits: PanellingLimits;
} {
  const { width, height, lines, opening, zones, prices } = plain;
  const bleed = inch(plain.bleed);
  const source = elevationOf(rectangle(0, 0, width, height), plain.bleed, {
    findSections: true,
    bleed: { left: bleed, right: bleed, bottom: bleed, top: bleed, openings: inch(plain.bleedOfOpenings) },
    openings: opening === null ? [] : [{ id: "opening", outline: rectangle(...opening) }],
    keepClear: zones.map(({ box, rule }, i) => ({
      id: `zone ${i}`,
      label: "",
      box: boxOf(...box),
      rule,
      reason: "other",
    })),
    breaks: lines.flatMap((line, i) =>
      line.kind === "colourEdge"
        ? []
        : [{ ...inTicks(line), id: `line ${i}`, type: line.kind, width: inch(line.width), mustSplit: line.mustSplit }],
    ),
    colourEdges: lines.flatMap((line, i) =>
      line.kind === "colourEdge" ? [{ ...inTicks(line), id: `line ${i}`, path: null }] : [],
    ),
  });
  const rules = {
    bleed,
    overlap: inch(plain.overlap),
    trimOverlap: inch(plain.trimOverlap),
    colourEdgeOverlap: 0,
    seamPricePerLength: prices.seam,
    panelPrice: prices.panel,
    avoidPenalty: prices.avoid,
    sliverUnder: 0,
  };
  const film = { ...plainFilm, pricePerArea: 0, laminatePricePerArea: 0, inkPricePerArea: prices.area };
  // The limits take half an inch of margin on both sides off the roll's width.
  return {
    instance: instanceOf([source], rules, [film]),
    source,
    limits: limitsOf(plain.printable + 1, null, plain.longest),
  };
}

const inTicks = ({ axis, at, from, to }: PlainLine) => ({ axis, at: inch(at), from: inch(from), to: inch(to) });
