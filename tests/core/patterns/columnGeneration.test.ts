import { describe, expect, test } from "vitest";
import { type ColumnProblem, relax } from "../../../core/patterns/columnGeneration.ts";
import { exactKnapsack } from "../../../core/patterns/exactKnapsack.ts";
import type { Column } from "../../../core/patterns/patternMaster.ts";

/** One stock of 9 at cost 1; lengths 4, 3, 2 with 20, 10, 20 wanted. */
function nine(asked: Float64Array[] = []): ColumnProblem {
  const sizes = [4, 3, 2];
  const demands = [20, 10, 20];
  const single = (item: number, count: number): Column => ({ cost: 1, stock: 0, entries: [{ item, count }] });
  return {
    demands,
    singles: [single(0, 2), single(1, 3), single(2, 4)],
    known: [],
    price: (duals) => {
      asked.push(duals);
      const items = sizes.map((size, i) => ({ size, value: duals[i] as number, most: demands[i] as number }));
      const { value, counts } = exactKnapsack(items, 9);
      const entries = counts.flatMap((count, item) => (count > 0 ? [{ item, count }] : []));
      return { columns: [{ cost: 1, stock: 0, entries }], mostPerCost: value };
    },
  };
}

describe("column generation", () => {
  test("cost and bound meet at 17.5", () => {
    // At prices 1/2, 1/4, 1/4 no pattern of 9 is worth more than 1: 4 + 4 is 1, 4 + 3 + 2 is 1, 3 + 2 + 2 + 2 is 1, 3 + 3 + 3 is 3/4,
    // 4 + 2 + 2 is 1. They pay 20/2 + 10/4 + 20/4 = 17.5. And ten 4 + 3 + 2, five 4 + 2 + 2, two and a half 4 + 4 take 17.5.
    const { cost, bound, uses } = relax(nine(), () => false);
    expect(cost).toBeCloseTo(17.5, 6);
    expect(bound).toBeCloseTo(17.5, 6);
    const used = uses.reduce((sum, { times }) => sum + times, 0);
    expect(used).toBeGreaterThan(17.5 - 1e-6);
    expect(used).toBeLessThan(17.5 * 1.001);
  });

  test("the bound holds at every round, and the listener ends the search", () => {
    const seen: { bound: number; cost: number }[] = [];
    relax(nine(), (bound, cost) => {
      seen.push({ bound, cost });
      return false;
    });
    expect(seen.length).toBeGreaterThan(0);
    for (const { bound, cost } of seen) {
      expect(bound).toBeLessThanOrEqual(17.5 + 1e-6);
      expect(cost).toBeGreaterThanOrEqual(17.5 - 1e-6);
    }
    const asked: Float64Array[] = [];
    const stopped = relax(nine(asked), () => true);
    expect(asked).toHaveLength(1);
    expect(stopped.bound).toBeLessThanOrEqual(17.5 + 1e-6);
  });

  test("known columns change the way, not the answer", () => {
    const known: Column = { cost: 1, stock: 0, entries: [0, 1, 2].map((item) => ({ item, count: 1 })) };
    expect(relax({ ...nine(), known: [known] }, () => false).bound).toBeCloseTo(17.5, 6);
  });
});
