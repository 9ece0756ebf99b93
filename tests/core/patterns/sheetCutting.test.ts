import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { type SheetCutting, solveSheetCutting } from "../../../core/patterns/sheetCutting.ts";
import { sheetCuttingFaults } from "../../../core/patterns/twoStageFaults.ts";

const never = () => false;

/** The least cost with first cuts across, by trying every sheet that holds the first item still wanted. */
function byTrying({ bins, items }: SheetCutting): number {
  const known = new Map<string, number>();
  const cheapest = (wanted: readonly number[]): number => {
    const first = wanted.findIndex((count) => count > 0);
    if (first < 0) return 0;
    const key = wanted.join();
    const before = known.get(key);
    if (before !== undefined) return before;
    let best = Infinity;
    for (const { width, height, cost } of bins) {
      for (const left of sheetsFrom(wanted, width, height)) {
        if ((left[first] as number) < (wanted[first] as number)) best = Math.min(best, cost + cheapest(left));
      }
    }
    known.set(key, best);
    return best;
  };
  /** What may be left after one sheet. */
  const sheetsFrom = (wanted: readonly number[], width: number, height: number): readonly number[][] => {
    const lefts = new Map<string, number[]>();
    const strip = (left: readonly number[], room: number): void => {
      if (lefts.has(`${left.join()}:${room}`)) return;
      lefts.set(`${left.join()}:${room}`, [...left]);
      const fill = (item: number, free: number, rest: readonly number[], deepest: number): void => {
        const size = items[item];
        if (size === undefined) {
          if (deepest > 0) strip(rest, room - deepest);
          return;
        }
        for (let n = 0; n <= (left[item] as number) && n * size.width <= free; n++) {
          if (n > 0 && size.height > room) break;
          const reach = n > 0 ? Math.max(deepest, size.height) : deepest;
          fill(item + 1, free - n * size.width, rest.with(item, (left[item] as number) - n), reach);
        }
      };
      fill(0, width, left, 0);
    };
    strip(wanted, height);
    return [...lefts.values()];
  };
  return cheapest(items.map(({ count }) => count));
}

const side = (min: number, max: number) => fc.integer({ min, max });
const tinyProblem: fc.Arbitrary<SheetCutting> = fc.record({
  bins: fc.array(fc.record({ width: side(6, 10), height: side(6, 10), cost: side(4, 9) }), {
    minLength: 1,
    maxLength: 3,
  }),
  items: fc.array(fc.record({ width: side(1, 6), height: side(1, 6), count: fc.nat(2) }), { maxLength: 3 }),
});

describe("sheets of several sizes in two stages", () => {
  test("the least cost lies between bound and cost, and in nine of ten the cost is it", () => {
    let hits = 0;
    const runs = 100;
    fc.assert(
      fc.property(tinyProblem, (problem) => {
        const plan = solveSheetCutting(problem, ["horizontal"], never);
        const least = byTrying(problem);
        expect(sheetCuttingFaults(problem, plan)).toEqual([]);
        expect(plan.bound).toBeLessThanOrEqual(least);
        expect(plan.cost).toBeGreaterThanOrEqual(least);
        hits += plan.cost === least ? 1 : 0;
      }),
      { seed: 20260304, numRuns: runs },
    );
    expect(hits).toBeGreaterThanOrEqual(0.9 * runs);
  });

  test("stopped at any moment there is a plan that holds", () => {
    fc.assert(
      fc.property(tinyProblem, fc.nat(6), (problem, steps) => {
        let taken = 0;
        const plan = solveSheetCutting(problem, ["horizontal", "vertical"], () => ++taken > steps);
        expect(sheetCuttingFaults(problem, plan)).toEqual([]);
      }),
      { seed: 20260305, numRuns: 80 },
    );
  });

  test("sheets on their side, first cut the other way, cost the same", () => {
    const turned = ({ bins, items }: SheetCutting): SheetCutting => ({
      bins: bins.map(({ width, height, cost }) => ({ width: height, height: width, cost })),
      items: items.map(({ width, height, count }) => ({ width: height, height: width, count })),
    });
    fc.assert(
      fc.property(tinyProblem, (problem) => {
        const plan = solveSheetCutting(problem, ["horizontal"], never);
        const other = solveSheetCutting(turned(problem), ["vertical"], never);
        expect([other.cost, other.bound]).toEqual([plan.cost, plan.bound]);
      }),
      { seed: 20260306, numRuns: 40 },
    );
  });

  test("an item that fits no bin is named", () => {
    const problem: SheetCutting = {
      bins: [{ width: 5, height: 9, cost: 1 }],
      items: [{ width: 6, height: 2, count: 1 }],
    };
    expect(() => solveSheetCutting(problem, ["horizontal"], never)).toThrow("item 0 of 6 x 2 fits no bin");
  });

  test("faults are told", () => {
    const problem: SheetCutting = {
      bins: [{ width: 4, height: 4, cost: 3 }],
      items: [{ width: 4, height: 4, count: 2 }],
    };
    const plan = solveSheetCutting(problem, ["horizontal"], never);
    expect(sheetCuttingFaults(problem, plan)).toEqual([]);
    expect(sheetCuttingFaults(problem, { ...plan, sheets: plan.sheets.slice(1) })).toEqual([
      "item 0 is cut 1 times, wanted are 2",
      "the sheets cost 3, the plan says 6",
    ]);
    expect(sheetCuttingFaults(problem, { ...plan, bound: 7 })).toEqual(["the bound 7 is above the cost 6"]);
  });
});
