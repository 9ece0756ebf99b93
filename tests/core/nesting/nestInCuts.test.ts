import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { seededRandom } from "../../../core/model/run.ts";
import { boundedKnapsack, type KnapsackItem } from "../../../core/nesting/boundedKnapsack.ts";
import { lengthBound } from "../../../core/nesting/lengthBound.ts";
import { nestInCuts } from "../../../core/nesting/nestInCuts.ts";
import { type CutPattern, type Room, type Size, totalLength } from "../../../core/nesting/sizes.ts";

const effort = (rounds = 60) => ({ rounds, random: seededRandom(3), stop: () => false });

const size = (across: number, along: number, count = 1, due = true): Size => ({
  shapes: [{ across, along, turn: 0 }],
  count,
  due,
});

/** Every pair in a cut is apart, everything lies in the room, and counts are kept. */
function faults(sizes: readonly Size[], { width, gap }: Room, patterns: readonly CutPattern[]): string[] {
  const found: string[] = [];
  const used = sizes.map(() => 0);
  for (const { length, places, times } of patterns) {
    for (const [i, a] of places.entries()) {
      used[a.size] = (used[a.size] as number) + times;
      if (a.x < 0 || a.y < 0 || a.x + a.shape.across > width || a.y + a.shape.along > length) found.push("off the cut");
      for (const b of places.slice(i + 1)) {
        const across = Math.max(b.x - a.x - a.shape.across, a.x - b.x - b.shape.across);
        const along = Math.max(b.y - a.y - a.shape.along, a.y - b.y - b.shape.along);
        if (Math.max(across, along) < gap) found.push("too near");
      }
    }
  }
  for (const [i, { count, due }] of sizes.entries()) {
    if (due ? used[i] !== count : (used[i] as number) > count) found.push(`size ${i}: ${used[i]} of ${count}`);
  }
  return found;
}

const drawnSizes = fc.array(
  fc.record({
    across: fc.integer({ min: 1, max: 40 }),
    along: fc.integer({ min: 1, max: 60 }),
    turns: fc.boolean(),
    count: fc.integer({ min: 1, max: 5 }),
    due: fc.boolean(),
  }),
  { minLength: 1, maxLength: 9 },
);
const drawnRoom = fc.record({ width: fc.integer({ min: 40, max: 60 }), gap: fc.integer({ min: 0, max: 3 }) });

const sizesFrom = (
  drawn: readonly { across: number; along: number; turns: boolean; count: number; due: boolean }[],
  width: number,
): Size[] =>
  drawn.map(({ across, along, turns, count, due }) => ({
    shapes: [
      { across, along, turn: 0 },
      ...(turns && along <= width ? [{ across: along, along: across, turn: 90 as const }] : []),
    ],
    count,
    due,
  }));

describe("nesting in cuts", () => {
  test("pieces stay apart and in the room, each once", () => {
    fc.assert(
      fc.property(drawnSizes, drawnRoom, (drawn, room) => {
        const sizes = sizesFrom(drawn, room.width);
        const patterns = nestInCuts(sizes, room, effort(20));
        expect(faults(sizes, room, patterns)).toEqual([]);
        expect(totalLength(patterns, room.gap)).toBeGreaterThanOrEqual(
          lengthBound(
            sizes.filter(({ due }) => due),
            room,
          ) - 1e-6,
        );
      }),
      { seed: 20260311, numRuns: 300 },
    );
  });

  test("the search never ends worse than it began", () => {
    fc.assert(
      fc.property(drawnSizes, drawnRoom, (drawn, room) => {
        const sizes = sizesFrom(drawn, room.width);
        expect(totalLength(nestInCuts(sizes, room, effort(40)), room.gap)).toBeLessThanOrEqual(
          totalLength(nestInCuts(sizes, room, effort(0)), room.gap),
        );
      }),
      { seed: 20260312, numRuns: 100 },
    );
  });

  test("finds the fewest cuts for pieces of one length, as an exhaustive packing does", () => {
    fc.assert(
      fc.property(
        fc.array(fc.integer({ min: 5, max: 30 }), { minLength: 1, maxLength: 7 }),
        fc.integer({ min: 0, max: 2 }),
        (widths, gap) => {
          const patterns = nestInCuts(
            widths.map((across) => size(across, 20)),
            { width: 40, gap },
            effort(60),
          );
          const cuts = patterns.reduce((sum, { times }) => sum + times, 0);
          expect(cuts).toBe(
            fewestBins(
              widths.map((across) => across + gap),
              40 + gap,
            ),
          );
        },
      ),
      { seed: 20260313, numRuns: 150 },
    );
  });

  test("counted pieces make few patterns", () => {
    // 19 + 1 + 30 = 50: 5,000 cuts of one pattern.
    const patterns = nestInCuts([size(30, 80, 5000), size(19, 80, 5000)], { width: 50, gap: 1 }, effort());
    expect(patterns.map(({ times }) => times)).toEqual([5000]);
  });

  test("fillers lengthen nothing", () => {
    // One cut of 80; beside 30 across there is room for 19: one filler of 19 x 79 or less, not for 20.
    const room = { width: 50, gap: 1 };
    const used = (across: number) =>
      nestInCuts([size(30, 80), size(across, 40, 9, false)], room, effort()).flatMap(({ places }) => places).length;
    expect(used(19)).toBe(1 + 1);
    expect(used(20)).toBe(1);
    expect(nestInCuts([size(20, 40, 3, false)], room, effort())).toEqual([]);
  });
});

/** Bin packing by trying every bin for every item. */
function fewestBins(items: readonly number[], capacity: number): number {
  let best = items.length;
  const bins: number[] = [];
  const put = (i: number): void => {
    if (bins.length >= best) return;
    if (i === items.length) {
      best = bins.length;
      return;
    }
    const item = items[i] as number;
    for (let b = 0; b < bins.length; b++) {
      if ((bins[b] as number) + item > capacity) continue;
      bins[b] = (bins[b] as number) + item;
      put(i + 1);
      bins[b] = (bins[b] as number) - item;
    }
    bins.push(item);
    put(i + 1);
    bins.pop();
  };
  put(0);
  return best;
}

describe("length bound", () => {
  test("panels wider than half the strip add up", () => {
    // 27 + 1 > 51 / 2: five of 80 with a gap each, 5 x 81.
    expect(lengthBound([size(27, 80, 5)], { width: 50, gap: 1 })).toBe(405);
  });

  test("area counts with gaps", () => {
    // (9 + 1) x (9 + 1) x 30 / 50: six rows of five, 10 each.
    expect(lengthBound([size(9, 9, 30)], { width: 49, gap: 1 })).toBe(60);
  });

  test("three of a third of the strip and a bit need a line for every two", () => {
    // 18 + 18 + 18 > 50: two on a line, so six take 3 x 20; by area alone 43.2.
    expect(lengthBound([size(18, 20, 6)], { width: 50, gap: 0 })).toBeCloseTo(60, 9);
  });
});

describe("bounded knapsack", () => {
  const items = fc.array(
    fc.record({
      size: fc.integer({ min: 1, max: 12 }),
      value: fc.integer({ min: 0, max: 20 }),
      most: fc.integer({ min: 0, max: 3 }),
    }),
    { maxLength: 5 },
  );
  const worth = (of: readonly KnapsackItem[], counts: readonly number[]) =>
    of.reduce((sum, { value }, i) => sum + value * (counts[i] as number), 0);

  test("is as good as trying everything", () => {
    fc.assert(
      fc.property(items, fc.integer({ min: 0, max: 30 }), (of, capacity) => {
        const counts = boundedKnapsack(of, capacity);
        expect(of.reduce((sum, { size: each }, i) => sum + each * (counts[i] as number), 0)).toBeLessThanOrEqual(
          capacity,
        );
        expect(of.every(({ most }, i) => (counts[i] as number) <= most)).toBe(true);
        expect(worth(of, counts)).toBe(mostWorth(of, capacity));
      }),
      { seed: 20260314, numRuns: 300 },
    );
  });

  test("takes nothing into no room", () => {
    expect(boundedKnapsack([{ size: 3, value: 1, most: 2 }], -1)).toEqual([0]);
  });
});

function mostWorth([first, ...others]: readonly KnapsackItem[], capacity: number): number {
  if (first === undefined) return 0;
  let best = 0;
  for (let n = 0; n <= first.most && n * first.size <= capacity; n++) {
    best = Math.max(best, n * first.value + mostWorth(others, capacity - n * first.size));
  }
  return best;
}
