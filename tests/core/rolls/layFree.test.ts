import { readdirSync } from "node:fs";
import { join } from "node:path";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { measureLayout } from "../../../core/costing/measureLayout.ts";
import { neededRegion } from "../../../core/geometry/region.ts";
import type { Instance } from "../../../core/model/instance.ts";
import { type Layout, type Load, type Panel, seamCount } from "../../../core/model/plan.ts";
import { lowerBounds } from "../../../core/nesting/lowerBounds.ts";
import { layFree } from "../../../core/rolls/layFree.ts";
import { layOnRolls } from "../../../core/rolls/layOnRolls.ts";
import { printOrder } from "../../../core/sequencing/printOrder.ts";
import { verifyLayout } from "../../../core/verifying/verifyPlan.ts";
import type { JobDocument } from "../../../shared/jobFile.ts";
import { dataFile } from "../../support/dataFile.ts";
import { planJob } from "../../support/planJob.ts";
import { projectRoot } from "../../support/projectRoot.ts";
import { randomJob } from "../../support/randomJob.ts";
import { area, elevation, faults, film, headed, job, loose, panel, roll, rules, run } from "./jobs.ts";

function laid(instance: Instance, panels: readonly Panel[], rollWidth: number | null = 50) {
  const crosscut = layOnRolls(instance, panels, rollWidth, run());
  if ("reasons" in crosscut) throw new Error(JSON.stringify(crosscut.reasons));
  const free = layFree(instance, panels, crosscut.rolls, run());
  expect(faults(instance, panels, rollWidth, free.rolls)).toEqual([]);
  expect(area(free.rolls)).toBeLessThanOrEqual(area(crosscut.rolls));
  return { crosscut: crosscut.rolls, free: free.rolls };
}

const used = (rolls: readonly Load[]): number[] => rolls.map((load) => load.used);

/** A layout laid anew freely, measured and bounded as one of free nesting. */
function freed(instance: Instance, layout: Layout): Layout {
  const { rolls, warnings } = layFree(instance, layout.panels, layout.rolls, run());
  const regions = new Map(
    instance.elevations.map(({ id, outline, openings }) => [
      id,
      neededRegion(
        outline,
        openings.map((opening) => opening.outline),
      ),
    ]),
  );
  const { panels, seams, rollWidth } = layout;
  const ofSeams = (penalties: number) => measureLayout(instance, regions, { panels, seams, rolls, penalties });
  // The layout says what its seams cost; what is more than their length's price is for met zones.
  const plain = ofSeams(0);
  const met = (layout.totals.cost.seams - plain.totals.cost.seams) / (instance.rules.avoidPenalty || 1);
  const { totals, wasteBy } = ofSeams(Math.round(met));
  const known = lowerBounds(instance)({ rollWidth, nesting: "free", seams: seamCount(totals) });
  const proven = Math.abs(totals.cost.total - known.cost) <= 0.005;
  const cost = proven ? totals.cost.total : known.cost;
  const gapPercent = totals.cost.total === 0 ? 0 : (100 * (totals.cost.total - cost)) / totals.cost.total;
  return {
    ...layout,
    nesting: "free",
    rolls,
    printOrder: printOrder(instance, panels, rolls),
    totals,
    wasteBy,
    bound: { cost, filmArea: known.filmArea, gapPercent, proven, by: known.by },
    // What it says of roll widths without a plan stands beside what is new about the laying.
    warnings: [...new Set([...layout.warnings, ...warnings])],
  };
}

/** Every layout of a job's plan, laid freely and verified; film areas before and after. */
function verified(data: JobDocument): { before: number; after: number }[] {
  const { instance, result } = planJob(data, { work: 3 });
  if (result.status !== "planned") return [];
  return result.plan.layouts.map((layout) => {
    const free = freed(instance, layout);
    expect(verifyLayout(instance, free)).toEqual([]);
    expect(free.totals.filmArea).toBeLessThanOrEqual(layout.totals.filmArea * (1 + 1e-9));
    return { before: layout.totals.filmArea, after: free.totals.filmArea };
  });
}

describe("free nesting", () => {
  test("pieces lie on past where a cut would end", () => {
    // 30 x 80 and 30 x 40 need a cut each; 19 x 120 lies beside both: 10 + 80 + 1 + 40 + 5 = 136. In cuts the long one
    // takes 120 with one of the two beside it, and the other a cut more: 10 + 120 + 1 + 40 + 5 = 176.
    const panels = [panel("a", 1, 30, 80), panel("a", 2, 30, 40), panel("a", 3, 19, 120)];
    const { crosscut, free } = laid(job({ elevations: [elevation("a")] }), panels);
    expect([used(crosscut), used(free)]).toEqual([[176], [136]]);
    expect(free[0]?.cuts).toHaveLength(1);
  });

  test("a load is cut wherever a straight line passes between pieces", () => {
    // Three panels too wide for each other lie one behind another, a gap apart: cuts at 10, 91 and 172.
    const panels = [1, 2, 3].map((n) => panel("a", n, 40, 80));
    const { free } = laid(job({ elevations: [elevation("a")] }), panels);
    expect(free[0]?.cuts.map(({ start }) => start)).toEqual([10, 91, 172]);
    expect(used(free)).toEqual([257]);
  });

  test("the gap is kept in both directions, to the tick", () => {
    // 30 + 1 + 20 is one more than 50: they lie one behind another, 10 + 80 + 1 + 80 + 5 = 176.
    const { free } = laid(job({ elevations: [elevation("a")] }), [panel("a", 1, 30, 80), panel("a", 2, 20, 80)]);
    expect(used(free)).toEqual([176]);
  });

  test("loads that share a lot are filled together, so that one of them is not needed", () => {
    // Rolls of 155 hold 140. In cuts: 30 x 80 + 19 x 120 in 120, 30 x 40 in a load of its own. Freely 121 hold all three.
    const films = [film({ rollLength: 155 })];
    const panels = [panel("a", 1, 30, 80), panel("a", 2, 30, 40), panel("a", 3, 19, 120)];
    const { crosscut, free } = laid(job({ films, elevations: [elevation("a")] }), panels);
    expect(used(crosscut)).toHaveLength(2);
    expect(used(free)).toEqual([136]);
  });

  test("a load made shorter goes to stock that then holds it", () => {
    const stock = [roll("S", 140)];
    const films = [film({ newRolls: null })];
    const panels = [panel("a", 1, 30, 80), panel("a", 2, 30, 40), panel("a", 3, 19, 120)];
    const { crosscut, free } = laid(job({ films, stock, elevations: [elevation("a")] }), panels);
    expect(crosscut.map((load) => load.stock)).toEqual([null]);
    expect(free.map((load) => load.stock)).toEqual(["S"]);
  });

  test("panels that lie head to foot stay so, and keep to the lot they share", () => {
    // As the first test here, every second panel turned; b shares the lot of a, copy by copy.
    const films = [film({ lay: "two-way", newRolls: 0 })];
    const elevations = [elevation("a", 1, headed("alternate")), elevation("b", 1, headed("alternate"))];
    const stock = [roll("R1", 400, { lot: "A" }), roll("R2", 400, { lot: "B" })];
    const sameLot = [{ id: "pair", elevations: ["a", "b"] }];
    const panels = ["a", "b"].flatMap((id) => [panel(id, 1, 30, 80), panel(id, 2, 30, 40), panel(id, 3, 19, 120)]);
    const instance = job({ films, elevations, stock, sameLot, rules: { ...rules, oneLot: "none" } });
    const { crosscut, free: freely } = laid(instance, panels);
    expect(used(freely)[0]).toBeLessThan(used(crosscut)[0] as number);
    const turns = freely.flatMap(({ cuts }) => cuts.flatMap(({ pieces }) => pieces.map(({ id, turn }) => [id, turn])));
    expect(Object.fromEntries(turns)).toEqual(
      Object.fromEntries(["a", "b"].flatMap((id) => [1, 2, 3].map((n) => [`${id}/whole/${n}`, n === 2 ? 180 : 0]))),
    );
  });

  test("a decal that may be turned is, where that saves film; one that may not keeps its way", () => {
    // 60 x 20 across 50 lies only along: on film that allows a turn two of them lie beside one another, 10 + 60 + 5.
    const films = [film({ lay: "any" })];
    const pieces = [loose("strip", 20, 60, 2, { turn: "quarter" })];
    expect(used(laid(job({ films, pieces }), []).free)).toEqual([75]);
    const fixed = [loose("flag", 40, 20, 2)];
    expect(used(laid(job({ films, pieces: fixed }), []).free)).toEqual([10 + 20 + 1 + 20 + 5]);
  });
});

describe("free nesting, held against every rule", () => {
  const size = fc.tuple(fc.integer({ min: 1, max: 50 }), fc.integer({ min: 1, max: 90 }));
  const anyJob = fc
    .record({
      panels: fc.array(size, { maxLength: 6 }),
      decals: fc.array(fc.tuple(size, fc.integer({ min: 1, max: 5 }), fc.boolean()), { maxLength: 4 }),
      count: fc.integer({ min: 1, max: 4 }),
      lengths: fc.array(fc.tuple(fc.integer({ min: 20, max: 400 }), fc.constantFrom("A", "B", null)), { maxLength: 3 }),
      rollLength: fc.constantFrom(null, 110, 250),
      maxRun: fc.constantFrom(null, 130),
      oneLot: fc.constantFrom("elevation" as const, "none" as const),
      cutGap: fc.constantFrom(0, 1, 3),
      lay: fc.constantFrom("one-way" as const, "any" as const),
    })
    .map(({ panels, decals, count, lengths, rollLength, maxRun, oneLot, cutGap, lay }) => ({
      instance: job({
        elevations: [elevation("a", count)],
        pieces: decals.map(([[wide, high], many, quarter], i) =>
          loose(`decal ${i}`, wide, high, many, { turn: quarter ? "quarter" : "fixed" }),
        ),
        films: [film({ rollLength, maxRun, lay })],
        stock: lengths.map(([length, lot], i) => roll(`stock ${i}`, length, { lot })),
        rules: { ...rules, oneLot, cutGap },
      }),
      panels: panels.map(([across, along], i) => panel("a", i + 1, across, along)),
    }));

  test("random pieces: right, no more film than in cuts, the same again; often less", () => {
    let less = 0;
    let tried = 0;
    fc.assert(
      fc.property(anyJob, ({ instance, panels }) => {
        const crosscut = layOnRolls(instance, panels, 50, run());
        if ("reasons" in crosscut) return;
        const free = layFree(instance, panels, crosscut.rolls, run());
        expect(faults(instance, panels, 50, free.rolls)).toEqual([]);
        expect(area(free.rolls)).toBeLessThanOrEqual(area(crosscut.rolls));
        expect(layFree(instance, panels, crosscut.rolls, run())).toEqual(free);
        tried++;
        if (area(free.rolls) < area(crosscut.rolls)) less++;
      }),
      { seed: 20261126, numRuns: 120 },
    );
    expect(less).toBeGreaterThan(tried / 10);
  });

  test("the demo and the worked jobs", () => {
    const folder = join(projectRoot, "tests/data/worked-jobs");
    const names = readdirSync(folder).filter((name) => name.endsWith(".job.json"));
    expect(names).toHaveLength(8);
    for (const name of ["demo.job.json", ...names.map((one) => `worked-jobs/${one}`)]) {
      const areas = verified(dataFile<JobDocument>(name));
      expect(areas.length).toBeGreaterThan(0);
      if (process.env.SHOW)
        console.log(name, areas.map((a) => `${a.before.toFixed(0)}>${a.after.toFixed(0)}`).join(" "));
    }
  });

  test("random jobs", () => {
    let layouts = 0;
    fc.assert(
      fc.property(randomJob, (data) => {
        layouts += verified(data).length;
      }),
      { seed: 20261127, numRuns: 12 },
    );
    expect(layouts).toBeGreaterThan(0);
  });
});
