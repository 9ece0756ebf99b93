import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { boundedKnapsack } from "../../../core/patterns/boundedKnapsack.ts";
import { exactKnapsack } from "../../../core/patterns/exactKnapsack.ts";

describe("the bounded knapsack", () => {
  test("is exact where a table is enough: 4 + 4 + 3 fill 11, worth 13", () => {
    const items = [
      { size: 4, value: 5, most: 2 },
      { size: 3, value: 3, most: 3 },
    ];
    expect(boundedKnapsack(items, 11)).toEqual({ value: 13, most: 13, counts: [2, 1] });
  });

  test("one item as long as a capacity without divisors fits; one longer does not", () => {
    const capacity = 1_000_003;
    const full = { size: capacity, value: 2, most: 5 };
    expect(boundedKnapsack([full], capacity)).toEqual({ value: 2, most: 2, counts: [1] });
    const over = { size: capacity + 1, value: 9, most: 1 };
    expect(boundedKnapsack([over, full], capacity)).toEqual({ value: 2, most: 2, counts: [0, 1] });
  });

  test("items too small for a part of the capacity are all in the limit", () => {
    // 3 of 1,000,003 rounds down to nothing: all 7 of them count at 1 each beside the one that fills all but 1.
    const items = [
      { size: 3, value: 1, most: 7 },
      { size: 1_000_002, value: 10, most: 1 },
    ];
    const { value, most } = boundedKnapsack(items, 1_000_003);
    expect(value).toBe(10);
    expect(most).toBe(17);
  });

  test("a large capacity: the packing fits, the best value lies between it and the limit", () => {
    const item = fc.record({
      size: fc.integer({ min: 1, max: 700_000 }),
      value: fc.integer({ min: -1, max: 9 }),
      most: fc.nat(3),
    });
    fc.assert(
      fc.property(fc.array(item, { maxLength: 7 }), fc.integer({ min: 1, max: 1_000_003 }), (items, capacity) => {
        const { value, most, counts } = boundedKnapsack(items, capacity);
        const best = exactKnapsack(items, capacity).value;
        const filled = items.reduce((sum, { size }, i) => sum + size * (counts[i] as number), 0);
        const worth = items.reduce((sum, one, i) => sum + one.value * (counts[i] as number), 0);
        expect(filled).toBeLessThanOrEqual(capacity);
        expect(worth).toBe(value);
        expect(value).toBeLessThanOrEqual(best);
        expect(best).toBeLessThanOrEqual(most);
        for (const [i, one] of items.entries()) expect(counts[i]).toBeLessThanOrEqual(one.most);
      }),
      { seed: 20260107, numRuns: 60 },
    );
  });
});
