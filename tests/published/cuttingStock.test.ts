import { describe, expect, test } from "vitest";
import { cuttingFaults } from "../../core/patterns/cuttingFaults.ts";
import { type CuttingStock, solveCuttingStock } from "../../core/patterns/cuttingStock.ts";
import { dataFile } from "../support/dataFile.ts";

/** Cutting-stock examples with printed answers. Citations stand beside the figures in tests/data/published-cutting.json. */
interface Example {
  readonly id: string;
  readonly data: {
    readonly stock?: number;
    readonly stocks?: CuttingStock["stocks"];
    readonly items: readonly (readonly [length: number, count: number])[];
  };
  readonly answer: { readonly rolls?: number; readonly lpBound?: number; readonly cost?: number };
}
const { examples } = dataFile<{ examples: readonly Example[] }>("published-cutting.json");

function example(id: string): Example & { readonly problem: CuttingStock } {
  const found = examples.find((one) => one.id === id);
  if (!found) throw new Error(`no example ${id}`);
  const { stock, stocks, items } = found.data;
  const from = stocks ?? [{ length: stock as number, cost: 1 }];
  return { ...found, problem: { stocks: from, items: items.map(([length, count]) => ({ length, count })) } };
}

describe("cutting stock", () => {
  test.each([
    // Encyclopedia article "Cutting stock problem": 5600 mm paper machine, 13 widths, 73 rolls; relaxation 72.917.
    ["paper-machine-5600", 73],
    // Chvátal (1983), Linear Programming, W. H. Freeman, chapter 13: 100 in rolls, 453 of them; relaxation 452.25.
    ["chvatal-100", 453],
    // Fourer, Gay and Kernighan (2003), AMPL, 2nd ed., section 15.2: 110 in rolls, 47 of them; relaxation 46.25.
    ["textbook-110", 47],
  ])("%s takes %d rolls, proved", (id, rolls) => {
    const { problem, answer } = example(id);
    const plan = solveCuttingStock(problem, () => false);
    expect(cuttingFaults(problem, plan)).toEqual([]);
    expect(plan.cost).toBe(rolls);
    expect(plan.cost).toBe(answer.rolls);
    expect(plan.bound).toBe(Math.ceil(answer.lpBound as number));
  });

  test("the paper machine wastes 0.401 % of its 73 rolls", () => {
    const { problem } = example("paper-machine-5600");
    const { cost } = solveCuttingStock(problem, () => false);
    const ordered = problem.items.reduce((sum, { length, count }) => sum + length * count, 0);
    expect(ordered).toBe(407_160);
    expect(100 * (1 - ordered / (cost * 5600))).toBeCloseTo(0.401, 3);
  });

  // Gilmore and Gomory (1961), Operations Research 9(6), 849-859: three stock lengths, cost 170.
  test("three stock lengths cost 170, proved", () => {
    const { problem, answer } = example("gilmore-gomory-three-stock-lengths");
    const plan = solveCuttingStock(problem, () => false);
    expect(cuttingFaults(problem, plan)).toEqual([]);
    expect(plan).toMatchObject({ cost: 170, bound: 170 });
    expect(plan.cost).toBe(answer.cost);
  });
});
