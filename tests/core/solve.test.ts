import { readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { type Plan, type Progress, planText, seededRandom, solve, verifyPlan } from "../../core/index.ts";
import type { JobDocument } from "../../shared/jobFile.ts";
import { instanceOf, planJob, verifiedPlan } from "../support/planJob.ts";
import { projectRoot } from "../support/projectRoot.ts";

/** A side of 120 x 40 in on 54 and 30 in film: one horizontal panel on the wide roll, two on the narrow one. */
const side: JobDocument = {
  format: "lapwright-job",
  version: 1,
  name: "Side",
  units: "in",
  elevations: [
    {
      id: "side",
      film: "cast",
      outline: [
        [0, 0],
        [120, 0],
        [120, 40],
        [0, 40],
      ],
    },
  ],
  films: [{ id: "cast", rollWidths: [30, 54], edgeMargin: 0.5, pricePerArea: 0.01 }],
  rules: {
    bleed: 2,
    overlap: 1,
    colourEdgeOverlap: 0,
    trimOverlap: 4,
    cutGap: 1,
    leader: 12,
    trailer: 6,
    seamPricePerLength: 0.1,
    panelPrice: 5,
  },
};

test("takes the seamless panel on the wide roll: 54 x (12 + 124 + 6) = 7668 in², proven", () => {
  const plan = verifiedPlan(side);
  const chosen = plan.layouts.find(({ id }) => id === plan.chosen);
  expect(chosen).toMatchObject({ rollWidth: 54 * 1_016_000, bound: { proven: true } });
  expect(chosen?.totals.filmArea).toBeCloseTo(7668, 9);
  expect(chosen?.totals.openSeams).toBe(0);
  expect(plan.layouts.some(({ rollWidth }) => rollWidth === 30 * 1_016_000)).toBe(true);
});

test("names a roll width without a plan, beside others with one", () => {
  const word = { id: "word", label: "Open Mondays", box: [20, 1, 100, 39], rule: "never" } as const;
  const job = { ...side, elevations: [{ ...side.elevations?.[0], id: "side", keepClear: [word] }] };
  const plan = verifiedPlan(job);
  expect(plan.layouts.length).toBeGreaterThan(0);
  for (const { rollWidth, warnings } of plan.layouts) {
    expect(rollWidth).toBe(54 * 1_016_000);
    expect(warnings.join()).toContain("No plan on 30 in film");
    expect(warnings.join()).toContain("Open Mondays");
  }
});

describe("answers that are no plan", () => {
  test("nothing to make", () => {
    expect(planJob({ ...side, elevations: [] }).result).toMatchObject({
      status: "noPlan",
      reasons: [{ path: "elevations", why: "There is nothing to make: the job has no elevations and no pieces" }],
    });
  });

  test("no film to be had", () => {
    const { result } = planJob({ ...side, films: [{ ...side.films?.[0], id: "cast", rollWidths: [54], newRolls: 0 }] });
    expect(result).toMatchObject({ status: "noPlan", reasons: [{ path: "elevations[0].film" }] });
  });

  test("no time for one layout", () => {
    const run = { random: seededRandom(1), stop: () => true, report: () => {}, work: null };
    expect(solve(instanceOf(side), { seed: 1 }, run)).toEqual({ status: "stopped" });
  });
});

describe("the demo", () => {
  const demo = instanceOf(JSON.parse(readFileSync(join(projectRoot, "tests/data/demo.job.json"), "utf8")));
  const solved = (work: number): { plan: Plan; sent: Plan[]; steps: number } => {
    const events: Progress[] = [];
    const run = { random: seededRandom(1), stop: () => false, report: (event: Progress) => events.push(event), work };
    const result = solve(demo, { seed: 1 }, run);
    if (result.status !== "planned") throw new Error(result.status);
    const sent = events.flatMap((event) => (event.kind === "plan" ? [event.plan] : []));
    return { plan: result.plan, sent, steps: events.length };
  };
  const cost = ({ layouts, chosen }: Plan) => layouts.find(({ id }) => id === chosen)?.totals.cost.total as number;

  test("more work never chooses a dearer layout; every plan sent on the way has passed the verifier", () => {
    const [little, more] = [solved(1), solved(12)];
    expect(cost(more.plan)).toBeLessThanOrEqual(cost(little.plan));
    for (const plan of [...little.sent, ...more.sent]) expect(verifyPlan(demo, plan)).toEqual([]);
    const costs = more.sent.map(cost);
    expect(costs).toEqual([...costs].sort((a, b) => b - a));
  }, 60_000);

  test("the same work gives the same bytes", () => {
    expect(planText(solved(6).plan)).toBe(planText(solved(6).plan));
  }, 60_000);
});
