import loadHighs, { type Highs } from "highs";
import { describe, expect, test } from "vitest";
import { embeddedEngine } from "../../../core/programme/embeddedEngine.ts";
import { engineFor } from "../../../core/programme/engineFor.ts";
import { pathProgramme } from "../../../core/programme/pathProgramme.ts";
import type { Programme } from "../../../core/programme/programme.ts";
import { highsEngine } from "../../../main/workers/highsEngine.ts";

const loaded = await loadHighs();
const engine = highsEngine(loaded);

const variable = (cost: number, whole = true) => ({ cost, whole });
const row = (coefficients: readonly number[], least: number | null, most: number | null) => ({
  terms: coefficients.map((coefficient, i) => ({ variable: i, coefficient })),
  least,
  most,
});

describe("HiGHS behind the port", () => {
  test("solves whole, broken and mixed programmes", () => {
    // Most of 5a + 4b within 2a + 3b at most 7: whole a = 3, b = 0; broken a = 3.5.
    const knapsack = (whole: boolean): Programme => ({
      variables: [variable(-5, whole), variable(-4)],
      rows: [row([2, 3], null, 7)],
    });
    expect(engine(knapsack(true))).toEqual({ status: "optimal", objective: -15, values: [3, 0] });
    expect(engine(knapsack(false))).toEqual({ status: "optimal", objective: -17.5, values: [3.5, 0] });
  });

  test("tells infeasible, unbounded and empty apart", () => {
    expect(engine({ variables: [variable(1)], rows: [row([2], 1, 1)] }).status).toBe("infeasible");
    expect(engine({ variables: [variable(-1)], rows: [row([1], 0, null)] }).status).toBe("unbounded");
    expect(engine({ variables: [], rows: [] })).toEqual({ status: "optimal", objective: 0, values: [] });
    expect(engine({ variables: [], rows: [row([], 1, null)] }).status).toBe("infeasible");
  });

  test("a programme that falls without end only among broken values is infeasible: 2x = 1, less for every y", () => {
    const programme: Programme = { variables: [variable(0), variable(-1)], rows: [row([2], 1, 1)] };
    expect(engine(programme).status).toBe("infeasible");
    expect(embeddedEngine(programme).status).toBe("infeasible");
  });

  test("refuses what is malformed", () => {
    expect(() => engine({ variables: [variable(Number.NaN)], rows: [] })).toThrow("variable 0 costs NaN");
  });

  test("a path of 400 arcs comes out whole without branching", () => {
    const arcs = Array.from({ length: 400 }, (_, i) => ({ from: i >> 1, to: (i >> 1) + 1, cost: 1 + ((i * 7) % 5) }));
    const cheapest = Array.from({ length: 200 }, (_, i) => Math.min(1 + ((i * 14) % 5), 1 + ((i * 14 + 7) % 5)));
    const outcome = engine(pathProgramme({ nodeCount: 201, arcs }), { nodes: 1 });
    expect(outcome).toMatchObject({ status: "optimal", objective: cheapest.reduce((sum, cost) => sum + cost, 0) });
  });

  test("at its limit it gives what it has with a proven bound, or says that it knows nothing; the same each time", () => {
    // A knapsack of near-equal worth by weight: far more than one branch.
    const weights = Array.from({ length: 14 }, (_, i) => 1000 + ((i * 379) % 997));
    const programme: Programme = {
      variables: weights.map((weight, i) => variable(-(weight + (i % 7)))),
      rows: [
        row(weights, null, 8_011),
        row(
          weights.map((_, i) => 1 + ((i * 31) % 17)),
          null,
          120,
        ),
        ...weights.map((_, i) => ({ terms: [{ variable: i, coefficient: 1 }], least: null, most: 1 })),
      ],
    };
    const full = engine(programme);
    const cut = engine(programme, { nodes: 1 });
    if (full.status !== "optimal") throw new Error(full.status);
    expect(["feasible", "unknown"]).toContain(cut.status);
    if (cut.status === "feasible") {
      expect(cut.bound).toBeLessThanOrEqual(full.objective);
      expect(cut.objective).toBeGreaterThanOrEqual(full.objective);
    }
    expect(engine(programme, { nodes: 1 })).toEqual(cut);
    expect(highsEngine(loaded, 1e-9)(programme).status).toBe("unknown");
  });

  test("an answer that does not hold is not believed", () => {
    const lying = {
      ...loaded,
      withModel: (data: never, read: (model: object) => unknown) =>
        loaded.withModel(data, (model: object) =>
          read(
            new Proxy(model, {
              get: (target, key) => {
                const own = Reflect.get(target, key);
                if (key === "getSolution") return () => ({ colValue: Float64Array.from([9]) });
                return typeof own === "function" ? own.bind(target) : own;
              },
            }),
          ),
        ),
    } as unknown as Highs;
    const programme: Programme = { variables: [variable(1, false)], rows: [row([1], 1, 2)] };
    expect(highsEngine(lying)(programme)).toEqual({
      status: "unknown",
      why: "the engine's answer does not hold: row 0 comes to 9, above 2",
    });
  });
});

test("small programmes go to the embedded engine, larger ones to the one handed in, or to none", () => {
  const programme = (whole: number, broken: number): Programme => ({
    variables: [
      ...Array.from({ length: whole }, () => variable(1)),
      ...Array.from({ length: broken }, () => variable(1, false)),
    ],
    rows: [],
  });
  expect(engineFor(programme(50, 4950), engine)).toBe(embeddedEngine);
  expect(engineFor(programme(51, 0), engine)).toBe(engine);
  expect(engineFor(programme(51, 0))).toBeNull();
  expect(engineFor(programme(0, 5001), engine)).toBe(engine);
});

test("a programme with numbers beyond the solver's range is refused with a reason, and no work is lost by it", () => {
  const outcome = engine({
    variables: [{ cost: 1, whole: false }],
    rows: [{ terms: [{ variable: 0, coefficient: 1e16 }], least: 1, most: null }],
  });
  expect(outcome).toMatchObject({ status: "unknown", why: expect.stringContaining("refused") });
});
