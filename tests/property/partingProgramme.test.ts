import fc from "fast-check";
import { expect, test } from "vitest";
import type { Axis } from "../../core/geometry/box.ts";
import { neededRegion } from "../../core/geometry/region.ts";
import type { Elevation } from "../../core/model/instance.ts";
import { CutTable } from "../../core/panelling/cutTable.ts";
import { groupMembers } from "../../core/panelling/members.ts";
import { type PartingLines, type RectangleCosts, rectangleCosts } from "../../core/panelling/rectangleCosts.ts";
import { seamGrid } from "../../core/panelling/sectionTask.ts";
import type { Programme } from "../../core/programme/programme.ts";
import { elevationOf, inch, instanceOf, polygonOf, rectangle } from "../core/panelling/builders.ts";
import { highs } from "../support/highs.ts";

/**
 * Parting an elevation as an integer programme: each rectangle between the lines, one way or the other, is a variable;
 * every cell lies in exactly one. A seam along a line is paid half by the rectangles on its two sides, which adds up where
 * each line hides the same all along, as here; so the programme chooses among all partings, guillotine or not.
 */
function partingProgramme(lines: PartingLines, costs: RectangleCosts): Programme {
  const [nx, ny] = [lines.x.length, lines.y.length];
  const columns: { cost: number; cells: number[] }[] = [];
  const half = (axis: Axis, line: number, last: number, c: number, d: number): number =>
    line === 0 || line === last ? 0 : costs.seam(axis, line, c, d, 0) / 2;
  for (let a = 0; a < nx; a++) {
    for (let b = a + 1; b < nx; b++) {
      for (let c = 0; c < ny; c++) {
        for (let d = c + 1; d < ny; d++) {
          const panels = Math.min(costs.panels("x", a, b, c, d, 0), costs.panels("y", c, d, a, b, 0));
          const seams =
            half("x", a, nx - 1, c, d) +
            half("x", b, nx - 1, c, d) +
            half("y", c, ny - 1, a, b) +
            half("y", d, ny - 1, a, b);
          if (!Number.isFinite(panels + seams)) continue;
          const cells: number[] = [];
          for (let i = a; i < b; i++) for (let j = c; j < d; j++) cells.push(i * ny + j);
          columns.push({ cost: panels + seams, cells });
        }
      }
    }
  }
  const rows = [];
  for (let i = 0; i + 1 < nx; i++) {
    for (let j = 0; j + 1 < ny; j++) {
      const cell = i * ny + j;
      const terms = columns.flatMap(({ cells }, variable) =>
        cells.includes(cell) ? [{ variable, coefficient: 1 }] : [],
      );
      rows.push({ terms, least: 1, most: 1 });
    }
  }
  return { variables: columns.map(({ cost }) => ({ cost, whole: true })), rows };
}

interface Case {
  readonly size: readonly [number, number];
  readonly upright: readonly number[];
  readonly level: readonly number[];
  readonly kinds: readonly ("gap" | "bodyLine" | "moulding")[];
  readonly seamPrice: number;
  readonly panelPrice: number;
}

const cases: fc.Arbitrary<Case> = fc.record({
  size: fc.tuple(fc.integer({ min: 90, max: 400 }), fc.integer({ min: 60, max: 160 })),
  upright: fc.uniqueArray(fc.integer({ min: 1, max: 9 }), { maxLength: 4 }),
  level: fc.uniqueArray(fc.integer({ min: 1, max: 9 }), { maxLength: 3 }),
  kinds: fc.array(fc.constantFrom("gap" as const, "bodyLine" as const, "moulding" as const), {
    minLength: 7,
    maxLength: 7,
  }),
  seamPrice: fc.constantFrom(0.02, 0.5, 3),
  panelPrice: fc.constantFrom(0, 4, 40),
});

function elevationFor({ size: [wide, high], upright, level, kinds }: Case): Elevation {
  const line = (axis: Axis, tenth: number, type: Case["kinds"][number]) => {
    const [across, along] = axis === "x" ? [wide, high] : [high, wide];
    return {
      id: `${axis}${tenth}`,
      axis,
      at: inch(Math.round((across * tenth) / 10)),
      from: 0,
      to: inch(along),
      type,
      width: 0,
      mustSplit: false,
    };
  };
  return elevationOf(rectangle(0, 0, wide, high), 2, {
    breaks: [
      ...upright.map((tenth, i) => line("x", tenth, kinds[i] as Case["kinds"][number])),
      ...level.map((tenth, i) => line("y", tenth, kinds[4 + i] as Case["kinds"][number])),
    ],
  });
}

test("the cheapest guillotine parting costs what the programme over all partings does", () => {
  let parted = 0;
  fc.assert(
    fc.property(cases, (given) => {
      const elevation = elevationFor(given);
      const { seamPrice, panelPrice } = given;
      const instance = instanceOf([elevation], { avoidPenalty: 0, seamPricePerLength: seamPrice, panelPrice });
      const region = neededRegion(elevation.outline, []);
      const places = (axis: Axis) => elevation.breaks.filter((item) => item.axis === axis).map(({ at }) => at);
      const sorted = (from: number, axis: Axis, to: number) =>
        [...new Set([from, ...places(axis), to])].sort((p, q) => p - q);
      const { x0, x1, y0, y1 } = elevation.box;
      const lines = { x: sorted(x0, "x", x1), y: sorted(y0, "y", y1) };
      const costs = rectangleCosts(
        {
          source: elevation,
          region,
          members: groupMembers(instance, elevation, []),
          rules: instance.rules,
          grid: seamGrid("in"),
          maxAcross: () => inch(53),
          maxAlong: inch(1800),
        },
        lines,
        {
          perArea: 0.023 / inch(1) ** 2,
          perPanel: panelPrice,
          perSeamLength: seamPrice / inch(1),
          perPenalty: 0,
          perOpenSeam: [0],
        },
      );
      const table = new CutTable(lines, costs, 0);
      const outcome = highs(partingProgramme(lines, costs));
      if (outcome.status !== "optimal") throw new Error(`the programme is ${outcome.status}`);
      // Two sums of the same money in another order: nine digits.
      expect(table.least() / outcome.objective).toBeCloseTo(1, 6);
      if ((table.best()?.length ?? 0) > 1) parted++;
    }),
    { seed: 20261125, numRuns: 60 },
  );
  expect(parted).toBeGreaterThan(5);
});

test("an opening that parts the elevation costs no seam", () => {
  // A doorway over the whole height between two lines of gaps: nothing is needed there, so nothing is paid for it.
  const doorway = { id: "doorway", outline: polygonOf([40, 0], [60, 0], [60, 50], [40, 50]) };
  const elevation = elevationOf(rectangle(0, 0, 100, 50), 1, { openings: [doorway] });
  const instance = instanceOf([elevation]);
  const lines = { x: [0, inch(40), inch(60), inch(100)], y: [0, inch(50)] };
  const costs = rectangleCosts(
    {
      source: elevation,
      region: neededRegion(elevation.outline, [doorway.outline]),
      members: groupMembers(instance, elevation, []),
      rules: instance.rules,
      grid: seamGrid("in"),
      maxAcross: () => inch(53),
      maxAlong: inch(1800),
    },
    lines,
    { perArea: 1 / inch(1) ** 2, perPanel: 0, perSeamLength: 1, perPenalty: 0, perOpenSeam: [0] },
  );
  // Two panels of 40 + 2 x 1 by 50 + 2 x 1 in, 42 x 52 = 2184 square inches each.
  expect(new CutTable(lines, costs, 0).least()).toBeCloseTo(2 * 2184, 6);
  expect(costs.seam("x", 1, 0, 1, 0)).toBe(0);
});
