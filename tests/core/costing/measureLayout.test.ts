import { readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { measureLayout } from "../../../core/costing/measureLayout.ts";
import { neededRegion } from "../../../core/geometry/region.ts";
import type { Instance } from "../../../core/model/instance.ts";
import type { Layout } from "../../../core/model/plan.ts";
import { readPlan } from "../../../core/model/planDocument.ts";
import { instanceOf } from "../../support/planJob.ts";
import { projectRoot } from "../../support/projectRoot.ts";

const data = (name: string) => JSON.parse(readFileSync(join(projectRoot, "tests/data", name), "utf8"));
const instance = instanceOf(data("puppet-booth.job.json"));
const layout = readPlan(data("puppet-booth.plan.json")).plan?.layouts[0] as Layout;
const regions = new Map(
  instance.elevations.map(({ id, outline, openings }) => [
    id,
    neededRegion(
      outline,
      openings.map((opening) => opening.outline),
    ),
  ]),
);
const measured = measureLayout(instance, regions, { ...layout, penalties: 3 });

test("totals of the booth, as worked out by hand", () => {
  const inch = 1_016_000;
  expect(measured.totals).toMatchObject({
    filmLength: 380 * inch, // 217 + 106 + 57
    panelCount: 13,
    openSeams: 4,
    bodyLineSeams: 0,
    colourEdgeSeams: 1,
    breakSeams: 3,
    visibleSeamLength: 140 * inch, // 3 x 20 upright, 2 x 40 level
  });
  expect(measured.totals.filmArea).toBeCloseTo(30 * (217 + 106) + 12 * 57, 9);
  // Long sides 70 x 20 less the arch 10 x 5, three of them; front 800, back 1200; two flags of 18.
  expect(measured.totals.neededArea).toBeCloseTo(3 * (1400 - 50) + 800 + 1200 + 36, 9);
  expect(measured.totals.cost.seams).toBeCloseTo(0.1 * 140 + 3 * 3, 9);
  expect(measured.totals.cost.total).toBeCloseTo(389.365, 9);
});

test("shares of the waste, as worked out by hand, add up to it", () => {
  const film = 10_374;
  const { edgeMargin, leaderTrailer, overlap, bleed, openings, gapsAndVoids } = measured.wasteBy;
  expect(leaderTrailer).toBeCloseTo((100 * 15 * (30 + 30 + 12)) / film, 9);
  expect(edgeMargin).toBeCloseTo((100 * (2 * (202 + 91) + 1 * 42)) / film, 9);
  expect(overlap).toBeCloseTo((100 * (3 * (4 + 1) * 20 + 2 * 40)) / film, 9);
  // Long sides 194 each, front 126, back 93, fill 53.
  expect(bleed).toBeCloseTo((100 * (3 * 194 + 126 + 93 + 53)) / film, 9);
  expect(openings).toBeCloseTo((100 * 3 * 50) / film, 9);
  const sum = edgeMargin + leaderTrailer + overlap + bleed + openings + gapsAndVoids;
  expect(sum).toBeCloseTo(measured.totals.wastePercent, 9);
});

describe("seams that count by height and artwork", () => {
  const inch = 1_016_000;
  const zone = (from: number, to: number, weight: number) => ({ from: from * inch, to: to * inch, weight });
  // An upright seam of 20 in: 5 x 3 + 3 x 2 + 2 x 0.5 + 10 = 32. Level ones lie at 5, weight 2, and at 10, weight 1.
  const rules = { ...instance.rules, heightZones: [zone(0, 5, 3), zone(5, 8, 2), zone(8, 10, 0.5)], artworkWeight: 1 };
  const weighed = (given: Partial<Instance>) =>
    measureLayout({ ...instance, rules, ...given }, regions, { ...layout, penalties: 3 }).totals;

  test("by height over the ground", () => {
    const totals = weighed({});
    // Two copies of A, one of B; the border of C at 10, that of D at 5. Seams in breaks count nothing.
    expect(totals.weightedSeamLength).toBe((3 * 32 + 40 + 2 * 40) * inch);
    expect(totals.visibleSeamLength).toBe(140 * inch);
    expect(totals.cost.seams).toBeCloseTo(0.1 * 216 + 3 * 3, 9);
  });

  test("by each elevation's own artwork", () => {
    // Only B has a map: its seam at 26 lies in cells that double the lowest 10 in and add a fifth above: 44 + 12.
    const values = Uint8Array.from([255, 51]);
    const map = { x0: 20 * inch, y0: 0, cell: 10 * inch, columns: 1, rows: 2, upright: values, level: values };
    const elevations = instance.elevations.map((one) => (one.id === "B" ? { ...one, seamMap: map } : one));
    expect(weighed({ elevations }).weightedSeamLength).toBe((2 * 32 + 56 + 40 + 80) * inch);
    const plain = { ...instance.rules, artworkWeight: 1 };
    expect(weighed({ elevations, rules: plain }).weightedSeamLength).toBe((2 * 20 + 20 + 12 + 80) * inch);
  });

  test("and nothing is said where neither is known", () => {
    expect(measured.totals).not.toHaveProperty("weightedSeamLength");
    // A zone that changes nothing is a zone all the same.
    const plain = weighed({ rules: { ...instance.rules, heightZones: [zone(0, 5, 1)] } });
    expect(plain.weightedSeamLength).toBe(140 * inch);
  });
});

test("names what it does not know", () => {
  const stray = { ...layout, penalties: 0, panels: layout.panels.map((panel) => ({ ...panel, film: "tin" })) };
  expect(() => measureLayout(instance, regions, stray)).toThrow('no film "tin" in this job');
});
