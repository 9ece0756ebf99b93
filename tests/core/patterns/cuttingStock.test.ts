import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { cuttingFaults } from "../../../core/patterns/cuttingFaults.ts";
import { type CuttingStock, solveCuttingStock } from "../../../core/patterns/cuttingStock.ts";

const never = () => false;

/** The least cost by trying every way: the first item still wanted opens a stock, which is then filled in every way. */
function byTrying({ stocks, items }: CuttingStock): number {
  const known = new Map<string, number>();
  const cheapest = (wanted: readonly number[]): number => {
    const first = wanted.findIndex((count) => count > 0);
    if (first < 0) return 0;
    const key = wanted.join();
    const before = known.get(key);
    if (before !== undefined) return before;
    let best = Infinity;
    const fill = (item: number, room: number, left: readonly number[], cost: number): void => {
      if (item === items.length) {
        best = Math.min(best, cost + cheapest(left));
        return;
      }
      const { length } = items[item] as { length: number };
      for (let count = 0; count <= (left[item] as number) && count * length <= room; count++) {
        fill(item + 1, room - count * length, left.with(item, (left[item] as number) - count), cost);
      }
    };
    for (const { length, cost } of stocks) {
      const room = length - (items[first] as { length: number }).length;
      if (room >= 0) fill(0, room, wanted.with(first, (wanted[first] as number) - 1), cost);
    }
    known.set(key, best);
    return best;
  };
  return cheapest(items.map(({ count }) => count));
}

const tinyProblem = (stockLengths: number): fc.Arbitrary<CuttingStock> =>
  fc.record({
    stocks: fc.array(fc.record({ length: fc.integer({ min: 8, max: 24 }), cost: fc.integer({ min: 2, max: 9 }) }), {
      minLength: 1,
      maxLength: stockLengths,
    }),
    items: fc.array(fc.record({ length: fc.integer({ min: 1, max: 8 }), count: fc.nat(3) }), { maxLength: 4 }),
  });

describe("cutting stock", () => {
  test("ten of 4 and five of 3 from 10 take 7", () => {
    // Of each 10 in use, two 4 (with 2 wasted) or one 4 and two 3 (none) or three 3 (1) fit. With a stocks of 4 + 3 + 3 and b
    // of 4 + 4: a + 2b = 10 and 2a = 5 at least, so a = 4, b = 3: seven. Six would take all ten 4 with a + b = 6, a = 2, b = 4,
    // and hold four of the five 3 only.
    const problem = {
      stocks: [{ length: 10, cost: 1 }],
      items: [
        { length: 4, count: 10 },
        { length: 3, count: 5 },
      ],
    };
    const plan = solveCuttingStock(problem, never);
    expect(plan.cost).toBe(7);
    expect(plan.bound).toBe(7);
    expect(cuttingFaults(problem, plan)).toEqual([]);
  });

  test("nothing wanted costs nothing", () => {
    const none = { cost: 0, bound: 0, patterns: [] };
    expect(solveCuttingStock({ stocks: [{ length: 5, cost: 3 }], items: [] }, never)).toEqual(none);
    expect(solveCuttingStock({ stocks: [{ length: 5, cost: 3 }], items: [{ length: 9, count: 0 }] }, never)).toEqual(
      none,
    );
  });

  test("an item longer than every stock is named", () => {
    const problem = {
      stocks: [
        { length: 5, cost: 1 },
        { length: 7, cost: 1 },
      ],
      items: [
        { length: 2, count: 1 },
        { length: 8, count: 1 },
      ],
    };
    expect(() => solveCuttingStock(problem, never)).toThrow("item 1 is 8 long, the longest stock 7");
  });

  test("the cheaper stock for each length, not the fuller one", () => {
    // Two of 3 fit into 6 at 5, one into 4 at 2: two singles cost 4.
    const problem = {
      stocks: [
        { length: 6, cost: 5 },
        { length: 4, cost: 2 },
      ],
      items: [{ length: 3, count: 2 }],
    };
    expect(solveCuttingStock(problem, never)).toEqual({
      cost: 4,
      bound: 4,
      patterns: [{ stock: 1, times: 2, counts: [1] }],
    });
  });

  test("equals trying every way on tiny problems with one stock length", () => {
    fc.assert(
      fc.property(tinyProblem(1), (problem) => {
        const plan = solveCuttingStock(problem, never);
        expect(cuttingFaults(problem, plan)).toEqual([]);
        expect(plan.cost).toBe(byTrying(problem));
      }),
      { seed: 20260103, numRuns: 200 },
    );
  });

  test("several stock lengths: the least cost lies between bound and cost, and in nine of ten the cost is it", () => {
    let hits = 0;
    const runs = 200;
    fc.assert(
      fc.property(tinyProblem(3), (problem) => {
        const plan = solveCuttingStock(problem, never);
        const least = byTrying(problem);
        expect(cuttingFaults(problem, plan)).toEqual([]);
        expect(plan.bound).toBeLessThanOrEqual(least);
        expect(plan.cost).toBeGreaterThanOrEqual(least);
        hits += plan.cost === least ? 1 : 0;
      }),
      { seed: 20260106, numRuns: runs },
    );
    expect(hits).toBeGreaterThanOrEqual(0.9 * runs);
  });

  test("stopped at any moment there is a plan that holds, and a bound that holds", () => {
    fc.assert(
      fc.property(tinyProblem(3), fc.nat(6), (problem, steps) => {
        let taken = 0;
        const plan = solveCuttingStock(problem, () => ++taken > steps);
        expect(cuttingFaults(problem, plan)).toEqual([]);
        expect(plan.bound).toBeLessThanOrEqual(byTrying(problem));
      }),
      { seed: 20260104, numRuns: 100 },
    );
  });

  test("all lengths in another unit cost the same", () => {
    fc.assert(
      fc.property(tinyProblem(3), fc.integer({ min: 2, max: 1_016_000 }), (problem, unit) => {
        const inUnit = {
          stocks: problem.stocks.map(({ length, cost }) => ({ length: length * unit, cost })),
          items: problem.items.map(({ length, count }) => ({ length: length * unit, count })),
        };
        const [plan, scaled] = [solveCuttingStock(problem, never), solveCuttingStock(inUnit, never)];
        expect(scaled.cost).toBe(plan.cost);
        expect(scaled.bound).toBe(plan.bound);
      }),
      { seed: 20260105, numRuns: 60 },
    );
  });
});

describe("faults of a plan", () => {
  const problem = { stocks: [{ length: 10, cost: 1 }], items: [{ length: 5, count: 2 }] };
  const good = { cost: 1, bound: 1, patterns: [{ stock: 0, times: 1, counts: [2] }] };
  const faulty = (change: object) => cuttingFaults(problem, { ...good, ...change });
  const pattern = (change: object) => faulty({ patterns: [{ stock: 0, times: 1, counts: [2], ...change }] });

  test("a plan that fills its stock to the end has none", () => {
    expect(cuttingFaults(problem, good)).toEqual([]);
  });

  test("each is told", () => {
    expect(faulty({ cost: 2 })).toEqual(["the patterns cost 1, the plan says 2"]);
    expect(faulty({ bound: 2 })).toEqual(["the bound 2 is above the cost 1"]);
    expect(faulty({ bound: Number.NaN })).toEqual(["the bound NaN is above the cost 1"]);
    expect(pattern({ counts: [3] })).toEqual(["pattern 0 fills 15 of 10", "item 0 is cut 3 times, wanted are 2"]);
    expect(pattern({ counts: [1] })).toEqual(["item 0 is cut 1 times, wanted are 2"]);
    expect(pattern({ counts: [2, 0] })).toEqual(["pattern 0 counts 2 items of 1"]);
    expect(pattern({ counts: [2.5] })[0]).toBe("pattern 0 holds item 0 2.5 times");
    expect(pattern({ times: 0 })[0]).toBe("pattern 0 is used 0 times");
    expect(pattern({ stock: 1 })[0]).toBe("pattern 0 names stock 1 of 1");
  });
});
