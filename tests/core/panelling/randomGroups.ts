import fc from "fast-check";
import { type Box, mirrorBox, mirrorX, type Polygon } from "../../../core/geometry/box.ts";
import type { Covering } from "../../../core/model/covering.ts";
import type { Break, Elevation, FillChoice, Instance, KeepClear, Section } from "../../../core/model/instance.ts";
import type { Layout } from "../../../core/model/plan.ts";
import { verifyLayout } from "../../../core/verifying/verifyPlan.ts";
import { elevationOf, inch, instanceOf, plainFilm, polygonOf } from "./builders.ts";

/** The rules that panels and seams alone can break; the rest of a layout is left empty here. */
const rulesOfPanels = new Set([
  "wordsKnown",
  "sectionsTile",
  "panelShape",
  "windowsReachAlong",
  "windowsReachAcross",
  "seamLines",
  "bordersListed",
  "seamKinds",
  "seamOverlaps",
  "lapsRight",
  "keepClear",
  "mustSplit",
  "openSeams",
  "mirrorsExact",
  "holdsKept",
  "differencesListed",
]);

const layoutOf = (coverings: readonly Covering[]): Layout => ({
  id: "only",
  rollWidth: null,
  nesting: "crosscut",
  panels: coverings.flatMap(({ panels }) => panels),
  seams: coverings.flatMap(({ seams }) => seams),
  rolls: [],
  printOrder: [],
  applyOrder: [],
  totals: {
    filmLength: 0,
    filmArea: 0,
    neededArea: 0,
    wastePercent: 0,
    panelCount: 0,
    openSeams: 0,
    bodyLineSeams: 0,
    colourEdgeSeams: 0,
    breakSeams: 0,
    visibleSeamLength: 0,
    cost: { film: 0, laminate: 0, ink: 0, seams: 0, panels: 0, total: 0 },
  },
  wasteBy: { edgeMargin: 0, leaderTrailer: 0, overlap: 0, bleed: 0, openings: 0, gapsAndVoids: 0 },
  bound: { cost: 0, filmArea: 0, gapPercent: 0, proven: false, by: "" },
  warnings: [],
});

/** What breaks rules of panels and seams in coverings of all groups of a job. */
export const breaches = (instance: Instance, coverings: readonly Covering[], given: Partial<Layout> = {}): string[] =>
  verifyLayout(instance, { ...layoutOf(coverings), ...given })
    .filter(({ rule }) => rulesOfPanels.has(rule))
    .map(({ rule, at, says }) => `${rule} ${at.join(" ")}: ${says}`);

const zone = fc.record({
  x: fc.integer({ min: 0, max: 200 }),
  y: fc.integer({ min: 0, max: 80 }),
  w: fc.integer({ min: 2, max: 60 }),
  h: fc.integer({ min: 2, max: 30 }),
  rule: fc.constantFrom("never" as const, "avoid" as const),
});

const line = fc.record({
  axis: fc.constantFrom("x" as const, "y" as const),
  at: fc.integer({ min: 1, max: 200 }),
  whole: fc.boolean(),
  type: fc.constantFrom("gap" as const, "moulding" as const, "bodyLine" as const),
  width: fc.constantFrom(0, 2, 6),
  mustSplit: fc.constantFrom(false, false, true),
});

/** An elevation with what mirrors it. */
export const groups = fc.record({
  width: fc.integer({ min: 40, max: 240 }),
  height: fc.integer({ min: 20, max: 100 }),
  cut: fc.constantFrom("none", "slope", "nose", "step"),
  openings: fc.array(
    fc.tuple(
      fc.integer({ min: -10, max: 200 }),
      fc.integer({ min: -10, max: 80 }),
      fc.integer({ min: 4, max: 70 }),
      fc.integer({ min: 4, max: 110 }),
    ),
    { maxLength: 3 },
  ),
  sections: fc.constantFrom("whole", "halves", "stack", "three"),
  directions: fc.array(fc.constantFrom("vertical" as const, "horizontal" as const, "either" as const), {
    minLength: 3,
    maxLength: 3,
  }),
  zones: fc.array(zone, { maxLength: 2 }),
  lines: fc.array(line, { maxLength: 3 }),
  fills: fc.uniqueArray(
    fc.record({
      edge: fc.constantFrom("left" as const, "right" as const, "bottom" as const, "top" as const),
      maxDepth: fc.integer({ min: 2, max: 20 }),
    }),
    { maxLength: 2, selector: ({ edge }) => edge },
  ),
  mirrors: fc.constantFrom("none", "one", "chain"),
  mirrorZones: fc.array(zone, { maxLength: 1 }),
  bleed: fc.constantFrom(0, 1.5, 3),
  overlap: fc.constantFrom(0.5, 1),
  roll: fc.constantFrom(30, 54, 60),
  along: fc.constantFrom(80, 400),
  maxOpenSeams: fc.option(fc.integer({ min: 0, max: 6 })),
  preferred: fc.constantFrom(null, "vertical" as const, "horizontal" as const),
});

export type GroupCase = typeof groups extends fc.Arbitrary<infer T> ? T : never;

export function build(c: GroupCase): { instance: Instance; source: Elevation; mirrors: Elevation[] } {
  const { width: w, height: h } = c;
  const outline: Polygon = {
    none: polygonOf([0, 0], [w, 0], [w, h], [0, h]),
    slope: polygonOf([0, 0], [w, 0], [w, h], [0, h - 7.3]),
    nose: polygonOf([0, 5], [6, 0], [w, 0], [w - 3, h], [11, h], [1, h / 2]),
    step: polygonOf([0, 0], [w, 0], [w, h / 2], [w - 13, h / 2], [w - 13, h], [0, h]),
  }[c.cut];
  const [mx, my] = [Math.round(w / 2), Math.round(h * 0.4)];
  const boxes = {
    whole: [[0, 0, w, h]],
    halves: [
      [0, 0, mx, h],
      [mx, 0, w, h],
    ],
    stack: [
      [0, 0, w, my],
      [0, my, w, h],
    ],
    three: [
      [0, 0, w, my],
      [0, my, mx, h],
      [mx, my, w, h],
    ],
  }[c.sections] as [number, number, number, number][];
  const sections = boxes.map(
    ([x0, y0, x1, y1], i): Section => ({
      id: `s${i}`,
      box: { x0: inch(x0), y0: inch(y0), x1: inch(x1), y1: inch(y1) },
      direction: c.directions[i] as Section["direction"],
      maxAcross: null,
      heads: "same" as const,
    }),
  );
  const zonesOf = (list: GroupCase["zones"], prefix: string) =>
    list.map(
      (z, i): KeepClear => ({
        id: `${prefix}${i}`,
        label: "word",
        box: { x0: inch(z.x), y0: inch(z.y), x1: inch(z.x + z.w), y1: inch(z.y + z.h) },
        rule: z.rule,
        reason: "lettering",
      }),
    );
  const breaks = c.lines.map(
    (l, i): Break => ({
      id: `b${i}`,
      axis: l.axis,
      at: inch(l.at),
      from: inch(l.whole ? -1 : 5),
      to: inch(250),
      type: l.type,
      width: inch(l.width),
      mustSplit: l.mustSplit,
    }),
  );
  const fill = c.fills.map(({ edge, maxDepth }): FillChoice => ({ edge, maxDepth: inch(maxDepth), film: "black" }));
  const source = elevationOf(outline, c.bleed, {
    openings: c.openings.map(([x, y, ow, oh], i) => ({
      id: `o${i}`,
      outline: polygonOf([x, y], [x + ow, y], [x + ow, y + oh], [x, y + oh]),
    })),
    sections,
    keepClear: zonesOf(c.zones, "z"),
    breaks,
    fill,
    travel: "left",
    count: 2,
  });
  const right = mirrorOf(source, "right", { keepClear: c.mirrorZones.length > 0 ? zonesOf(c.mirrorZones, "m") : null });
  const mirrors =
    c.mirrors === "none" ? [] : c.mirrors === "one" ? [right] : [right, mirrorOf(right, "third", { keepClear: null })];
  const films = [plainFilm, { ...plainFilm, id: "black", name: "Black film" }];
  const rules = { overlap: inch(c.overlap), bleed: inch(c.bleed), maxOpenSeams: c.maxOpenSeams };
  return { instance: instanceOf([source, ...mirrors], rules, films), source, mirrors };
}

/** An elevation reflected, with zones of its own if given. */
export function mirrorOf(from: Elevation, id: string, given: { keepClear: readonly KeepClear[] | null }): Elevation {
  const frame = from.box;
  const turn = (box: Box) => mirrorBox(box, frame);
  const turnPolygon = (polygon: Polygon) => polygon.map(({ x, y }) => ({ x: mirrorX(x, frame), y }));
  const swapped = { left: "right", right: "left", bottom: "bottom", top: "top" } as const;
  return {
    ...from,
    id,
    name: id,
    mirrorOf: from.id,
    travel: from.travel === "left" ? "right" : "left",
    outline: turnPolygon(from.outline),
    openings: from.openings.map((opening) => ({ ...opening, outline: turnPolygon(opening.outline) })),
    sections: from.sections.map((section) => ({ ...section, box: turn(section.box) })),
    keepClear: given.keepClear ?? from.keepClear.map((z) => ({ ...z, box: turn(z.box) })),
    breaks: from.breaks.map((line) =>
      line.axis === "x"
        ? { ...line, at: mirrorX(line.at, frame) }
        : { ...line, from: mirrorX(line.to, frame), to: mirrorX(line.from, frame) },
    ),
    fill: from.fill.map((fill) => ({ ...fill, edge: swapped[fill.edge] })),
  };
}
