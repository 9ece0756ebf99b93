import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { embeddedEngine } from "../../../core/programme/embeddedEngine.ts";
import { checkValues, type Programme } from "../../../core/programme/programme.ts";

const variable = (cost: number, whole = true) => ({ cost, whole });
const row = (coefficients: readonly number[], least: number | null, most: number | null) => ({
  terms: coefficients.map((coefficient, i) => ({ variable: i, coefficient })),
  least,
  most,
});

describe("the embedded engine", () => {
  test("solves a knapsack as a minimum: 5a + 4b + 3c at most 10 of weights 2, 3, 1 within 5, each at most 1", () => {
    // a + b fill the 5 exactly: 9; a + c weigh 3: 8; so 9.
    const programme: Programme = {
      variables: [variable(-5), variable(-4), variable(-3)],
      rows: [row([2, 3, 1], null, 5), row([1, 0, 0], null, 1), row([0, 1, 0], null, 1), row([0, 0, 1], null, 1)],
    };
    expect(embeddedEngine(programme)).toEqual({ status: "optimal", objective: -9, values: [1, 1, 0] });
  });

  test("tells infeasible, unbounded and empty apart", () => {
    expect(embeddedEngine({ variables: [variable(1)], rows: [row([2], 1, 1)] }).status).toBe("infeasible");
    expect(embeddedEngine({ variables: [variable(-1)], rows: [row([1], 0, null)] }).status).toBe("unbounded");
    expect(embeddedEngine({ variables: [], rows: [] })).toEqual({ status: "optimal", objective: 0, values: [] });
    expect(embeddedEngine({ variables: [], rows: [row([], 1, null)] }).status).toBe("infeasible");
  });

  test("is right where the package's presolve is wrong: min 17x with -8x ≤ -8 and x ≤ 1 is 17", () => {
    const programme: Programme = { variables: [variable(17, false)], rows: [row([-8], null, -8), row([1], null, 1)] };
    expect(embeddedEngine(programme)).toEqual({ status: "optimal", objective: 17, values: [1] });
  });

  test("refuses what it can't be trusted with", () => {
    expect(() => embeddedEngine({ variables: [variable(Number.NaN)], rows: [] })).toThrow("variable 0 costs NaN");
    expect(() => embeddedEngine({ variables: [variable(1)], rows: [row([1, 1], 0, null)] })).toThrow(
      "names variable 1",
    );
    const many = Array.from({ length: 5001 }, () => variable(1));
    expect(() => embeddedEngine({ variables: many, rows: [] })).toThrow("5001 variables");
  });

  test("agrees with brute force on small programmes of whole values", () => {
    const small = fc.record({
      costs: fc.array(fc.integer({ min: -9, max: 9 }), { minLength: 1, maxLength: 4 }),
      rows: fc.array(
        fc.record({
          coefficients: fc.array(fc.integer({ min: -4, max: 6 }), { minLength: 4, maxLength: 4 }),
          most: fc.integer({ min: -3, max: 12 }),
        }),
        { maxLength: 3 },
      ),
    });
    fc.assert(
      fc.property(small, ({ costs, rows }) => {
        const n = costs.length;
        const programme: Programme = {
          variables: costs.map((cost) => variable(cost)),
          rows: [
            ...rows.map(({ coefficients, most }) => row(coefficients.slice(0, n), null, most)),
            ...costs.map((_, i) =>
              row(
                costs.map((__, k) => (k === i ? 1 : 0)),
                null,
                2,
              ),
            ),
          ],
        };
        const outcome = embeddedEngine(programme);
        const best = bruteForce(programme, n);
        if (best === null) expect(outcome.status).toBe("infeasible");
        else expect(outcome).toMatchObject({ status: "optimal", objective: best });
      }),
      { seed: 20261125, numRuns: 300 },
    );
  });
});

/** Least objective over all values 0, 1, 2 of n variables; null when none is feasible. */
function bruteForce(programme: Programme, n: number): number | null {
  let best: number | null = null;
  for (let code = 0; code < 3 ** n; code++) {
    const values = Array.from({ length: n }, (_, i) => Math.floor(code / 3 ** i) % 3);
    const checked = checkValues(programme, values);
    if ("objective" in checked && (best === null || checked.objective < best)) best = checked.objective;
  }
  return best;
}

test("values are held against the programme, not believed", () => {
  const programme: Programme = { variables: [variable(1), variable(1, false)], rows: [row([1, 1], 1, 2)] };
  expect(checkValues(programme, [1, 0.5])).toEqual({ objective: 1.5, values: [1, 0.5] });
  expect(checkValues(programme, [0.5, 1])).toEqual({ broken: "variable 0 is 0.5, not whole" });
  expect(checkValues(programme, [2, 1])).toEqual({ broken: "row 0 comes to 3, above 2" });
  expect(checkValues(programme, [0, 0])).toEqual({ broken: "row 0 comes to 0, below 1" });
  expect(checkValues(programme, [0, -1])).toEqual({ broken: "variable 1 is -1" });
  expect(checkValues(programme, [0])).toEqual({ broken: "1 values for 2 variables" });
});
