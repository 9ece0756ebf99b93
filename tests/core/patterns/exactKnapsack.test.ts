import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { type ExactItem, exactKnapsack, greatestCommonDivisor } from "../../../core/patterns/exactKnapsack.ts";

const item = (size: number, value: number, most: number): ExactItem => ({ size, value, most });

/** The most that any choice of counts is worth, by trying them all. */
function byTrying(items: readonly ExactItem[], capacity: number): number {
  const [first, ...rest] = items;
  if (first === undefined) return 0;
  let best = 0;
  for (let count = 0; count <= first.most && count * first.size <= capacity; count++) {
    best = Math.max(best, count * first.value + byTrying(rest, capacity - count * first.size));
  }
  return best;
}

const total = (items: readonly ExactItem[], counts: readonly number[], of: "size" | "value"): number =>
  items.reduce((sum, one, i) => sum + (counts[i] as number) * one[of], 0);

describe("the exact knapsack", () => {
  test("two of 4 worth 5 and one of 3 worth 3 fill 11 best: 13", () => {
    // 4 + 4 + 3 = 11 is worth 5 + 5 + 3 = 13; three of 3 and nothing more would be 9.
    expect(exactKnapsack([item(4, 5, 2), item(3, 3, 3)], 11)).toEqual({ value: 13, counts: [2, 1] });
  });

  test("no more than there are: of 100 pieces of 1 worth 1 only 3 are wanted", () => {
    expect(exactKnapsack([item(1, 1, 3), item(5, 4, 1)], 100)).toEqual({ value: 7, counts: [3, 1] });
  });

  test("what is worth nothing, is not wanted or is too large stays out", () => {
    const items = [item(1, 0, 9), item(1, -2, 9), item(11, 50, 1), item(2, 5, 0), item(3, 1, 9)];
    expect(exactKnapsack(items, 10)).toEqual({ value: 3, counts: [0, 0, 0, 0, 3] });
  });

  test("nothing to pack, and no room", () => {
    expect(exactKnapsack([], 10)).toEqual({ value: 0, counts: [] });
    expect(exactKnapsack([item(1, 1, 1)], 0)).toEqual({ value: 0, counts: [0] });
  });

  // The third size has no common divisor with the others: so many cells that no table is kept.
  test.each([
    ["by table", 1],
    ["by branching", 100_003],
  ])("equals trying every choice, %s", (_, stretch) => {
    const items = fc.array(
      fc.record({ size: fc.integer({ min: 1, max: 12 }), value: fc.integer({ min: -1, max: 9 }), most: fc.nat(3) }),
      { maxLength: 5 },
    );
    fc.assert(
      fc.property(items, fc.nat(30), (small, room) => {
        const stretched = small.map((one, i) => ({ ...one, size: one.size * stretch + (stretch > 1 ? i : 0) }));
        const capacity = room * stretch;
        const { value, counts } = exactKnapsack(stretched, capacity);
        expect(value).toBe(byTrying(stretched, capacity));
        expect(total(stretched, counts, "value")).toBe(value);
        expect(total(stretched, counts, "size")).toBeLessThanOrEqual(capacity);
        for (const [i, { most }] of stretched.entries()) expect(counts[i]).toBeLessThanOrEqual(most);
      }),
      { seed: 20260101, numRuns: 200 },
    );
  });

  test("greatest common divisors", () => {
    expect(greatestCommonDivisor(12, 18)).toBe(6);
    expect(greatestCommonDivisor(0, 7)).toBe(7);
    expect(greatestCommonDivisor(35, 64)).toBe(1);
  });
});
