import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { type Column, PatternMaster, reducedCost } from "../../../core/patterns/patternMaster.ts";
import { embeddedEngine } from "../../../core/programme/embeddedEngine.ts";

const column = (cost: number, counts: readonly number[]): Column => ({
  cost,
  stock: 0,
  entries: counts.flatMap((count, i) => (count > 0 ? [{ item: i, count }] : [])),
});

/** Demands are raised by up to 1.1e-4 of themselves inside the master; its duals, at the true demands, are off by as much. */
const RAISED = 2e-4;

const paid = (demands: readonly number[], duals: Float64Array): number =>
  demands.reduce((sum, demand, i) => sum + demand * (duals[i] as number), 0);

describe("the master", () => {
  test("singles alone: 10 of what goes twice into a column and 9 of what goes three times take 5 + 3", () => {
    const master = new PatternMaster([10, 9], [column(1, [2, 0]), column(1, [0, 3])]);
    const duals = master.optimise();
    expect(duals[0]).toBeCloseTo(1 / 2, 9);
    expect(duals[1]).toBeCloseTo(1 / 3, 9);
    expect(paid([10, 9], duals)).toBeCloseTo(8, 9);
  });

  test("a mixed column is taken up as far as it helps", () => {
    // Of (1, 2) four uses cut 4 and all 8 of the second; the other 6 of the first take 3 more: 7 instead of 5 + 8 / 3.
    const master = new PatternMaster([10, 8], [column(1, [2, 0]), column(1, [0, 3])]);
    expect(paid([10, 8], master.optimise())).toBeCloseTo(5 + 8 / 3, 9);
    master.add([column(1, [1, 2])]);
    const duals = master.optimise();
    expect(paid([10, 8], duals)).toBeCloseTo(7, 9);
    expect(reducedCost(column(1, [1, 2]), duals)).toBeCloseTo(0, 9);
    const uses = new Map(master.uses().map(({ column: index, times }) => [index, times]));
    expect(Math.abs((uses.get(0) ?? 0) - 3)).toBeLessThan(10 * RAISED);
    expect(Math.abs((uses.get(2) ?? 0) - 4)).toBeLessThan(10 * RAISED);
  });

  test("reduced cost: a column of 5 with 2 at 1.5 and 1 at 3 loses 1", () => {
    expect(reducedCost(column(5, [2, 0, 1]), [1.5, 9, 3])).toBe(-1);
  });

  test("agrees with the engine for programmes on random masters, columns added in two lots", () => {
    const master = fc.integer({ min: 1, max: 6 }).chain((size) =>
      fc.record({
        demands: fc.array(fc.integer({ min: 1, max: 40 }), { minLength: size, maxLength: size }),
        singles: fc.array(fc.integer({ min: 1, max: 5 }), { minLength: size, maxLength: size }),
        more: fc.array(
          fc.record({
            cost: fc.integer({ min: 1, max: 4 }),
            counts: fc.array(fc.nat(3), { minLength: size, maxLength: size }),
          }),
          { maxLength: 12 },
        ),
      }),
    );
    fc.assert(
      fc.property(master, ({ demands, singles, more }) => {
        const alone = singles.map((count, i) =>
          column(
            2,
            singles.map((_, j) => (i === j ? count : 0)),
          ),
        );
        const mixed = more.map(({ cost, counts }) => column(cost, counts));
        const half = Math.floor(mixed.length / 2);
        const simplex = new PatternMaster(demands, alone);
        simplex.add(mixed.slice(0, half));
        simplex.optimise();
        simplex.add(mixed.slice(half));
        const duals = simplex.optimise();

        const columns = [...alone, ...mixed];
        const expected = embeddedEngine({
          variables: columns.map(({ cost }) => ({ cost, whole: false })),
          rows: demands.map((least, item) => ({
            terms: columns.flatMap(({ entries }, variable) =>
              entries.flatMap((entry) => (entry.item === item ? [{ variable, coefficient: entry.count }] : [])),
            ),
            least,
            most: null,
          })),
        });
        if (expected.status !== "optimal") throw new Error(expected.status);
        expect(Math.abs(paid(demands, duals) - expected.objective)).toBeLessThanOrEqual(RAISED * expected.objective);
        for (const one of columns) expect(reducedCost(one, duals)).toBeGreaterThan(-1e-7);
        for (const [item, demand] of demands.entries()) {
          const met = simplex.uses().reduce((sum, { column: index, times }) => {
            const entry = columns[index]?.entries.find((one) => one.item === item);
            return sum + times * (entry?.count ?? 0);
          }, 0);
          expect(met).toBeGreaterThanOrEqual(demand - 1e-6);
        }
      }),
      { seed: 20260102, numRuns: 150 },
    );
  });

  test("stays right over more pivots than lie between two inversions", () => {
    // A staircase of 60 items; the pair columns (i, i + 1) each once more than the singles, added one at a time.
    const size = 60;
    const demands = Array.from({ length: size }, (_, i) => 5 + ((i * 7) % 11));
    const unit = (i: number, count: number) =>
      column(
        1,
        demands.map((_, j) => (j === i ? count : 0)),
      );
    const singles = demands.map((_, i) => unit(i, 1));
    const master = new PatternMaster(demands, singles);
    for (let reach = 1; reach <= 4; reach++) {
      for (let i = 0; i + reach < size; i++) {
        master.add([
          column(
            1,
            demands.map((_, j) => (j >= i && j <= i + reach ? 1 : 0)),
          ),
        ]);
        master.optimise();
      }
    }
    const duals = master.optimise();
    const expected = embeddedEngine({
      variables: master.columns.map(({ cost }) => ({ cost, whole: false })),
      rows: demands.map((least, item) => ({
        terms: master.columns.flatMap(({ entries }, variable) =>
          entries.flatMap((entry) => (entry.item === item ? [{ variable, coefficient: entry.count }] : [])),
        ),
        least,
        most: null,
      })),
    });
    if (expected.status !== "optimal") throw new Error(expected.status);
    expect(Math.abs(paid(demands, duals) - expected.objective)).toBeLessThanOrEqual(RAISED * expected.objective);
  });
});
