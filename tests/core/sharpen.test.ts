import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { mirrorGroups } from "../../core/choosing/mirrorGroups.ts";
import { widthChoices } from "../../core/choosing/rollWidths.ts";
import type { Instance } from "../../core/model/instance.ts";
import { type Layout, seamCount } from "../../core/model/plan.ts";
import { seededRandom } from "../../core/model/run.ts";
import { sharpBounds } from "../../core/sharpen.ts";
import { solve } from "../../core/solve.ts";
import { dataFile } from "../support/dataFile.ts";
import { highs } from "../support/highs.ts";
import { instanceOf, planJob } from "../support/planJob.ts";
import { randomJob } from "../support/randomJob.ts";

const effort = { engine: highs, rounds: 30, closely: true, stop: () => false };

function sharpBoundOf(instance: Instance, layout: Pick<Layout, "rollWidth" | "nesting">, seams: number) {
  const choice = widthChoices(instance).find(({ rollWidth }) => rollWidth === layout.rollWidth);
  if (choice === undefined) throw new RangeError(`no roll width ${layout.rollWidth}`);
  return sharpBounds(instance, mirrorGroups(instance.elevations))({ choice, nesting: layout.nesting, seams }, effort);
}

/** A wall of 100 x 80 in, two copies, on 60 in film with no margins: 2 in of overlap, no bleed, upright panels. */
const wall = {
  format: "lapwright-job",
  version: 1,
  name: "Wall",
  units: "in",
  elevations: [
    {
      id: "wall",
      count: 2,
      film: "film",
      outline: [
        [0, 0],
        [100, 0],
        [100, 80],
        [0, 80],
      ],
      sections: [{ id: "whole", box: [0, 0, 100, 80], direction: "vertical" }],
    },
  ],
  films: [{ id: "film", rollWidths: [60], edgeMargin: 0, pricePerArea: 1, inkPricePerArea: 0.5 }],
  rules: {
    bleed: 0,
    overlap: 2,
    colourEdgeOverlap: 0,
    trimOverlap: 2,
    cutGap: 1,
    leader: 10,
    trailer: 5,
    seamPricePerLength: 0.25,
    panelPrice: 3,
  },
};

describe("by hand", () => {
  test("panels wider than half the roll fill a line each, though their widths add up to less", () => {
    // 102 in of windows in two panels, say 60 and 42: 61 and 43 with their gaps, on lines of 61. A line takes two of 42 and
    // a gap only if they are 30 at most; one of 60 can't have a neighbour. The film that shares of lines ask for: with one
    // seam a copy, both panels above half a line count whole, or one at most 29.5 wide would leave 72.5 for the other.
    // So four cuts of 80, a gap after each: 60 x (10 + 4 x 81 - 1 + 5) = 20280 at 1; print 2 x 102 x 80 x 0.5 = 8160;
    // seams 2 x 80 x 0.25 = 40; four panels at 3 = 12.
    const bound = sharpBoundOf(instanceOf(wall), { rollWidth: 60 * 1_016_000, nesting: "crosscut" }, 2);
    expect(bound?.cost).toBeLessThanOrEqual(20280 + 8160 + 40 + 12 + 1e-6);
    // Places of the seam are told apart to 1/16 in: less than 1 % of the print, and nothing of the film.
    expect(bound?.cost).toBeGreaterThan(20280 + 8160 * 0.99 + 40 + 12);
    expect(bound?.filmArea).toBeCloseTo(20280, 6);
  });

  test("more seams allowed never give a higher bound", () => {
    const instance = instanceOf(dataFile("worked-jobs/1-bakery-trailer.job.json"));
    const width = instance.films[0]?.rollWidths.at(-1) ?? 0;
    const of = (seams: number) => sharpBoundOf(instance, { rollWidth: width, nesting: "crosscut" }, seams)?.cost ?? 0;
    const [few, more, many] = [of(4), of(8), of(40)];
    expect(many).toBeGreaterThan(0);
    // Both ends of a search that is broken off are near the best, not at it.
    expect(more).toBeGreaterThan(many * 0.98);
    expect(few).toBeGreaterThan(more * 0.98);
  });
});

test("no layout of any random job costs less, or takes less film, than its bound", () => {
  let compared = 0;
  fc.assert(
    fc.property(randomJob, (data) => {
      const { instance, result } = planJob(data, { work: 6 });
      if (result.status !== "planned") return;
      for (const layout of result.plan.layouts) {
        const bound = sharpBoundOf(instance, layout, seamCount(layout.totals));
        if (bound === null) continue;
        expect(bound.cost).toBeLessThanOrEqual(layout.totals.cost.total * (1 + 1e-9) + 0.005);
        expect(bound.filmArea).toBeLessThanOrEqual(layout.totals.filmArea * (1 + 1e-9));
        compared++;
      }
    }),
    { seed: 20261125, numRuns: 14 },
  );
  expect(compared).toBeGreaterThan(15);
});

test("the demo's chosen layout is within 2 % of its bound, and no dearer than it was before cut patterns", () => {
  const instance = instanceOf(dataFile("demo.job.json"));
  const run = { random: seededRandom(1), stop: () => false, report: () => {}, work: 48 };
  const result = solve(instance, { seed: 1, engine: highs }, run);
  if (result.status !== "planned") throw new Error(result.status);
  const chosen = result.plan.layouts.find(({ id }) => id === result.plan.chosen) as Layout;
  expect(chosen.totals.cost.total).toBeLessThan(5528.15);
  expect(chosen.bound.gapPercent).toBeLessThan(2);
});
