import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { type SheetKnapsack, solveSheetKnapsack } from "../../../core/patterns/sheetKnapsack.ts";
import type { FirstCut } from "../../../core/patterns/twoStage.ts";
import { sheetKnapsackFaults } from "../../../core/patterns/twoStageFaults.ts";

const never = () => false;

/** The most value by trying every strip of what is left, one after another. */
function byTrying({ sheet, items }: SheetKnapsack, firstCut: FirstCut): number {
  const across = firstCut === "horizontal";
  const [length, depth] = across ? [sheet.width, sheet.height] : [sheet.height, sheet.width];
  const sizes = items.map(({ width, height }) => (across ? [width, height] : [height, width]) as [number, number]);
  const known = new Map<string, number>();
  const most = (left: readonly number[], room: number): number => {
    const key = `${left.join()}:${room}`;
    const before = known.get(key);
    if (before !== undefined) return before;
    let best = 0;
    const fill = (item: number, free: number, rest: readonly number[], deepest: number, value: number): void => {
      if (item === items.length) {
        if (deepest > 0) best = Math.max(best, value + most(rest, room - deepest));
        return;
      }
      const [along, deep] = sizes[item] as [number, number];
      for (let n = 0; n <= (left[item] as number) && n * along <= free && (n === 0 || deep <= room); n++) {
        const reach = n > 0 ? Math.max(deepest, deep) : deepest;
        const gain = n * (items[item] as { value: number }).value;
        fill(item + 1, free - n * along, rest.with(item, (left[item] as number) - n), reach, value + gain);
      }
    };
    fill(0, length, left, 0, 0);
    known.set(key, best);
    return best;
  };
  return most(
    items.map((item) => item.most),
    depth,
  );
}

const tinySheet: fc.Arbitrary<SheetKnapsack> = fc.record({
  sheet: fc.record({ width: fc.integer({ min: 1, max: 14 }), height: fc.integer({ min: 1, max: 14 }) }),
  items: fc.array(
    fc.record({
      width: fc.integer({ min: 1, max: 9 }),
      height: fc.integer({ min: 1, max: 9 }),
      most: fc.nat(3),
      value: fc.nat(20),
    }),
    { maxLength: 4 },
  ),
});
const direction = fc.constantFrom<FirstCut>("horizontal", "vertical");

describe("one sheet in two stages", () => {
  test("two strips, the lower item trimmed", () => {
    // 10 x 7: a strip of depth 4 takes 6 + 4 wide, one of depth 3 takes 6 wide and no second 5 wide: 9 + 5 + 8 = 22.
    const problem: SheetKnapsack = {
      sheet: { width: 10, height: 7 },
      items: [
        { width: 6, height: 4, most: 1, value: 9 },
        { width: 4, height: 2, most: 1, value: 5 },
        { width: 6, height: 3, most: 2, value: 8 },
      ],
    };
    const plan = solveSheetKnapsack(problem, "horizontal", never);
    expect(sheetKnapsackFaults(problem, "horizontal", plan)).toEqual([]);
    expect([plan.value, plan.upperBound, plan.cuts]).toEqual([22, 22, [4, 3]]);
  });

  test("nothing fits, nothing is worth anything: an empty sheet", () => {
    const items = [
      { width: 9, height: 1, most: 5, value: 3 },
      { width: 1, height: 1, most: 5, value: 0 },
    ];
    const empty = { value: 0, upperBound: 0, cuts: [], placements: [] };
    expect(solveSheetKnapsack({ sheet: { width: 8, height: 8 }, items }, "vertical", never)).toEqual(empty);
  });

  test("equals trying every way, whichever way the first cuts run", () => {
    fc.assert(
      fc.property(tinySheet, direction, (problem, firstCut) => {
        const plan = solveSheetKnapsack(problem, firstCut, never);
        expect(sheetKnapsackFaults(problem, firstCut, plan)).toEqual([]);
        expect(plan.value).toBe(byTrying(problem, firstCut));
        expect(plan.upperBound).toBe(plan.value);
      }),
      { seed: 20260301, numRuns: 300 },
    );
  });

  test("values that are not whole, as prices are: equal within what their sums are exact to", () => {
    fc.assert(
      fc.property(tinySheet, direction, ({ sheet, items }, firstCut) => {
        const problem = { sheet, items: items.map((item, i) => ({ ...item, value: (item.value * (7 + i)) / 13 })) };
        const plan = solveSheetKnapsack(problem, firstCut, never);
        const best = byTrying(problem, firstCut);
        expect(sheetKnapsackFaults(problem, firstCut, plan)).toEqual([]);
        // The search leaves out what gains less than 1e-7 of the bound.
        expect(plan.value).toBeGreaterThanOrEqual(best * (1 - 1e-6));
        expect(plan.upperBound).toBeGreaterThanOrEqual(best * (1 - 1e-9));
      }),
      { seed: 20260302, numRuns: 150 },
    );
  });

  test("stopped at any moment: a plan and a bound that hold", () => {
    fc.assert(
      fc.property(tinySheet, direction, fc.nat(8), (problem, firstCut, steps) => {
        let taken = 0;
        const plan = solveSheetKnapsack(problem, firstCut, () => ++taken > steps);
        expect(sheetKnapsackFaults(problem, firstCut, plan)).toEqual([]);
        expect(plan.upperBound).toBeGreaterThanOrEqual(byTrying(problem, firstCut));
      }),
      { seed: 20260303, numRuns: 150 },
    );
  });
});

describe("faults of one sheet", () => {
  const problem: SheetKnapsack = {
    sheet: { width: 4, height: 4 },
    items: [{ width: 2, height: 2, most: 4, value: 1 }],
  };
  const at = (...corners: (readonly [number, number])[]) => ({
    value: corners.length,
    upperBound: 4,
    cuts: [],
    placements: corners.map(([x, y], i) => ({ item: 0, copy: i + 1, x, y })),
  });

  test("a full sheet has none", () => {
    expect(sheetKnapsackFaults(problem, "horizontal", at([0, 0], [2, 0], [0, 2], [2, 2]))).toEqual([]);
  });

  test("each is told", () => {
    const faults = (plan: ReturnType<typeof at>, firstCut: FirstCut = "horizontal") =>
      sheetKnapsackFaults(problem, firstCut, plan);
    expect(faults(at([3, 0]))).toEqual(["item 0 copy 1 lies outside the sheet"]);
    expect(faults(at([0, 0], [1, 1]))).toEqual(["item 0 copy 1 and item 0 copy 2 are not separated by two stages"]);
    // One above the other's middle: a third cut would be needed beside the third item.
    const bricks = at([0, 0], [0, 2], [2, 1]);
    expect(faults(bricks)).toEqual(["item 0 copy 1 and item 0 copy 2 are not separated by two stages"]);
    expect(faults(bricks, "vertical")).toEqual([]);
    expect(faults({ ...at([0, 0]), value: 2 })).toEqual(["the items are worth 1, the plan says 2"]);
    expect(faults({ ...at([0, 0]), upperBound: 0 })).toEqual(["the bound 0 is below the value 1"]);
    expect(faults(at([0, 0], [2, 0], [0, 2], [2, 2], [2, 2]))).toContain("item 0 is cut 5 times, at most 4 are wanted");
  });
});
