import { readFileSync } from "node:fs";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { Plan } from "../../../core/model/plan.ts";
import { planFromFile, planText, planToFile, readPlan } from "../../../core/model/planDocument.ts";
import { prettyJson } from "../../../core/model/prettyJson.ts";
import { PlanFile } from "../../../shared/planFile.ts";

const example = () => JSON.parse(readFileSync(new URL("../../data/puppet-booth.plan.json", import.meta.url), "utf8"));
const examplePlan = (): Plan => {
  const { plan, problems } = readPlan(example());
  if (plan === null) throw new Error(JSON.stringify(problems));
  return plan;
};

describe("the worked example", () => {
  test("is read into ticks", () => {
    const panel = examplePlan().layouts[0]?.panels[1];
    // 23 in, -1 in, 44.5 in, 21 in at 1,016,000 ticks each.
    expect(panel?.window).toEqual({ x0: 23_368_000, y0: -1_016_000, x1: 45_212_000, y1: 21_336_000 });
    expect(panel?.slack).toBe(null);
    expect(examplePlan().layouts[0]?.seams[0]?.border).toBe(false);
  });

  test("is written as it was read, but for defaults filled in", () => {
    expect(planToFile(examplePlan())).toEqual(PlanFile.parse(example()));
  });

  test("is the same bytes each time, and ends with a newline", () => {
    const text = planText(examplePlan());
    expect(text.endsWith("}\n")).toBe(true);
    expect(planText(planFromFile(PlanFile.parse(JSON.parse(text))))).toBe(text);
    const shuffled = Object.fromEntries(Object.entries(example()).reverse());
    expect(planText(readPlan(shuffled).plan as Plan)).toBe(text);
  });
});

test("every length comes back to the tick, in both units", () => {
  const ticks = fc.integer({ min: -2_000_000_000_000, max: 2_000_000_000_000 });
  fc.assert(
    fc.property(
      fc.constantFrom("in" as const, "mm" as const),
      fc.array(ticks, { minLength: 4, maxLength: 4 }),
      (unit, lengths) => {
        const [x0 = 0, y0 = 0, x1 = 0, y1 = 0] = lengths;
        const plan = examplePlan();
        const panels = plan.layouts.flatMap((layout) =>
          layout.panels.map((panel) => ({
            ...panel,
            window: { x0, y0, x1, y1 },
            across: x0,
            along: y1,
            slack: { left: x0, right: x1, down: y0, up: y1 },
          })),
        );
        const changed: Plan = { ...plan, unit, layouts: plan.layouts.map((layout) => ({ ...layout, panels })) };
        expect(readPlan(JSON.parse(planText(changed))).plan).toEqual(changed);
      },
    ),
    { seed: 20260101, numRuns: 100 },
  );
});

describe("what is refused", () => {
  const pathsOf = (data: unknown) => readPlan(data).problems.map(({ path }) => path);
  test("things that are no plan", () => {
    for (const data of [null, [], 7, "plan"]) expect(pathsOf(data)).toEqual(["plan"]);
    expect(pathsOf({ format: "lapwright-job" })).toEqual(["format"]);
    expect(pathsOf({ ...example(), format: "other" })).toEqual(["format"]);
    expect(pathsOf({ ...example(), version: 2 })).toEqual(["version"]);
  });
  test("every fault at once, each at its place", () => {
    const data = example();
    data.layouts[0].panels[0].window = [0, 0, 1];
    data.layouts[0].rolls[0].cuts[0].pieces[0].turn = 45;
    delete data.layouts[1].totals.cost.ink;
    data.seed = Number.NaN;
    expect(pathsOf(data)).toEqual([
      "seed",
      "layouts[0].panels[0].window",
      "layouts[0].rolls[0].cuts[0].pieces[0].turn",
      "layouts[1].totals.cost.ink",
    ]);
  });
  test("lengths beyond what ticks can hold", () => {
    const data = example();
    data.layouts[0].rolls[0].used = 1e300;
    expect(pathsOf(data)).toEqual(["layouts[0].rolls[0].used"]);
  });
});

test("unknown keys are left out in memory", () => {
  const data = example();
  data.colour = "grey";
  data.layouts[0].panels[0].note = "x";
  expect(readPlan(data).plan).toEqual(examplePlan());
});

test("pretty JSON keeps short lists on one line and long ones apart", () => {
  const value = { a: [1, 2, 3, 4], b: { c: null, d: "x" }, e: [], f: [{ g: [{ h: 1 }] }] };
  expect(prettyJson(value)).toBe(
    '{\n  "a": [1, 2, 3, 4],\n  "b": { "c": null, "d": "x" },\n  "e": [],\n  "f": [\n    {\n      "g": [\n        { "h": 1 }\n      ]\n    }\n  ]\n}\n',
  );
});
