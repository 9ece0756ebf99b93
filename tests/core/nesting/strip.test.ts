import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { seededRandom } from "../../../core/model/run.ts";
import { nestInStrip } from "../../../core/nesting/nestInStrip.ts";
import type { Strip, StripNesting } from "../../../core/nesting/strip.ts";
import { stripBound } from "../../../core/nesting/stripBound.ts";
import { stripFaults } from "../../../core/nesting/stripFaults.ts";
import { fillLength } from "../../../core/nesting/stripSearch.ts";

const seed = 20261125;

function stripOf(width: number, items: readonly (readonly [number, number, number])[], turning = false): Strip {
  const sizes = items.map(([across, along, count]) => {
    const shapes = [
      { across, along, turn: 0 as const },
      ...(turning && across !== along ? [{ across: along, along: across, turn: 90 as const }] : []),
    ];
    return { shapes: shapes.filter((shape) => shape.across <= width), count };
  });
  return { width, sizes };
}

function steps(count: number): () => boolean {
  let left = count;
  return () => left-- <= 0;
}

const nested = (strip: Strip, count: number, from = 1): StripNesting =>
  nestInStrip(strip, { random: seededRandom(from), stop: steps(count) });

/** The least length, by trying every place on whole numbers for every piece in turn. */
function leastLength({ width, sizes }: Strip): number {
  const pieces = sizes.flatMap(({ shapes, count }) => Array.from({ length: count }, () => shapes));
  for (let length = 1; ; length++) if (fits(new Uint8Array(width * length), pieces, 0, width, length)) return length;
}

function fits(
  cells: Uint8Array,
  pieces: readonly Strip["sizes"][number]["shapes"][],
  piece: number,
  width: number,
  length: number,
): boolean {
  const shapes = pieces[piece];
  if (shapes === undefined) return true;
  for (const { across, along } of shapes) {
    for (let y = 0; y + along <= length; y++) {
      for (let x = 0; x + across <= width; x++) {
        const own: number[] = [];
        for (let j = y; j < y + along; j++) for (let i = x; i < x + across; i++) own.push(j * width + i);
        if (own.some((cell) => cells[cell] === 1)) continue;
        for (const cell of own) cells[cell] = 1;
        if (fits(cells, pieces, piece + 1, width, length)) return true;
        for (const cell of own) cells[cell] = 0;
      }
    }
  }
  return false;
}

const item = fc.tuple(fc.integer({ min: 1, max: 5 }), fc.integer({ min: 1, max: 4 }), fc.integer({ min: 0, max: 2 }));
const tinyStrip = fc
  .tuple(fc.array(item, { minLength: 1, maxLength: 3 }), fc.boolean())
  .map(([items, turning]) => stripOf(5, items, turning));
const anyStrip = fc
  .record({
    items: fc.array(fc.tuple(fc.integer({ min: 1, max: 30 }), fc.integer({ min: 1, max: 60 }), fc.nat(6)), {
      minLength: 1,
      maxLength: 14,
    }),
    width: fc.integer({ min: 30, max: 70 }),
    turning: fc.boolean(),
    scale: fc.constantFrom(1, 40_000, 1_016_000),
  })
  .map(({ items, width, turning, scale }) =>
    stripOf(
      width * scale,
      items.map(([across, along, count]) => [across * scale, along * scale, count] as const),
      turning,
    ),
  );

describe("nesting in a strip", () => {
  test("every nesting holds, and no bound is above it", () => {
    fc.assert(
      fc.property(anyStrip, fc.nat(1000), (strip, from) => {
        expect(stripFaults(strip, nested(strip, 60, from))).toEqual([]);
      }),
      { seed, numRuns: 200 },
    );
  });

  test("tiny strips: bound <= least length by enumeration, and the search finds it", () => {
    let proven = 0;
    let tried = 0;
    fc.assert(
      fc.property(tinyStrip, (strip) => {
        fc.pre(strip.sizes.some(({ count }) => count > 0));
        const least = leastLength(strip);
        const { length, bound } = nested(strip, 3000);
        expect(bound).toBeLessThanOrEqual(least);
        expect(length).toBe(least);
        tried++;
        if (bound === least) proven++;
      }),
      { seed, numRuns: 120 },
    );
    // The bound is more than a number that is never wrong: on most tiny strips it is met.
    expect(proven).toBeGreaterThan(0.8 * tried);
  });

  test("the same seed and steps give the same nesting; more steps never a longer one", () => {
    fc.assert(
      fc.property(anyStrip, fc.nat(200), (strip, count) => {
        const nesting = nested(strip, count);
        expect(nested(strip, count)).toEqual(nesting);
        expect(nested(strip, count + 50).length).toBeLessThanOrEqual(nesting.length);
      }),
      { seed, numRuns: 60 },
    );
  });

  test("scaled lengths scale the nesting and the bound", () => {
    const items = [
      [6, 3, 1],
      [5, 2, 1],
      [2, 4, 1],
      [3, 4, 1],
      [3, 3, 1],
      [2, 1, 1],
    ] as const;
    const ticks = items.map(([across, along, count]) => [across * 1_016_000, along * 1_016_000, count] as const);
    expect(nested(stripOf(10, items), 1000)).toMatchObject({ length: 7, bound: 7 });
    expect(nested(stripOf(10_160_000, ticks), 1000)).toMatchObject({ length: 7_112_000, bound: 7_112_000 });
  });

  test("nothing to lay", () => {
    expect(nested(stripOf(5, [[2, 2, 0]]), 10)).toEqual({ length: 0, bound: 0, places: [] });
    expect(nested(stripOf(5, []), 10)).toEqual({ length: 0, bound: 0, places: [] });
  });

  test("a piece wider than the strip is named", () => {
    const strip = { width: 5, sizes: [{ shapes: [{ across: 6, along: 2, turn: 0 as const }], count: 1 }] };
    expect(() => nested(strip, 10)).toThrow("size 0 is 6 across, the strip 5");
  });
});

describe("filling a part of a strip", () => {
  const areaOf = (laid: ReturnType<typeof fillLength>): number =>
    laid.reduce((sum, { shape }) => sum + shape.across * shape.along, 0);
  const filled = (strip: Strip, length: number, count: number) =>
    fillLength(strip, length, { random: seededRandom(1), stop: steps(count) });

  test("what does not fit stays outside, and that is as little as can be", () => {
    // 5 x 5 = 25 takes 5 x 3 and 5 x 2 whole; 4 x 4 first would leave both outside.
    const strip = stripOf(5, [
      [4, 4, 1],
      [5, 3, 1],
      [5, 2, 1],
    ]);
    expect(areaOf(filled(strip, 5, 1000))).toBe(25);
    expect(areaOf(filled(strip, 9, 1000))).toBe(16 + 15 + 10);
    expect(filled(strip, 1, 1000)).toEqual([]);
  });

  test("whatever the pieces: inside, apart, each at most once, also when stopped at once", () => {
    fc.assert(
      fc.property(anyStrip, fc.integer({ min: 1, max: 90 }), fc.nat(30), (strip, length, count) => {
        const places = filled(strip, length, count);
        const counts = strip.sizes.map((_, size) => places.filter((place) => place.size === size).length);
        for (const [i, { count: most }] of strip.sizes.entries()) expect(counts[i]).toBeLessThanOrEqual(most);
        const end = Math.max(0, ...places.map(({ shape, y }) => y + shape.along));
        expect(end).toBeLessThanOrEqual(length);
        const inside = {
          width: strip.width,
          sizes: strip.sizes.map((size, i) => ({ ...size, count: counts[i] as number })),
        };
        expect(stripFaults(inside, { length: end, bound: 0, places })).toEqual([]);
      }),
      { seed, numRuns: 100 },
    );
  });
});

describe("bounds on a strip", () => {
  test.each([
    // 5 + 4 = 9 of pieces of which no two lie side by side in 10; the area says 7.4.
    [
      "pieces one after another",
      stripOf(10, [
        [6, 5, 1],
        [8, 4, 1],
        [4, 3, 1],
      ]),
      9,
    ],
    // Widths of 4 fill 8 of 10, so that the area 4 x 3 x 4 = 48 takes 6, and not 4.8.
    ["the width that can be filled", stripOf(10, [[4, 3, 4]]), 6],
    // Area 12 x 5 / 12 = 5 on pieces of length 3 and 5: sums are 3, 5, 6, ...; the tallest says 5.
    [
      "the longest",
      stripOf(12, [
        [3, 5, 1],
        [9, 3, 1],
      ]),
      5,
    ],
    // The area of 5 pieces of 3 x 2 in 6 wide is 30 / 6 = 5: the next sum of twos is 6.
    ["the next sum", stripOf(6, [[3, 2, 5]]), 6],
    // A turn is allowed: 6 x 2 may stand upright, so that only the area counts: 2 x 12 / 4 = 6.
    ["turns", stripOf(4, [[6, 2, 2]], true), 6],
  ])("%s", (_, strip, bound) => {
    expect(stripBound(strip)).toBe(bound);
    expect(nested(strip, 1000).length).toBe(bound);
  });
});

describe("the check of nestings", () => {
  const strip = stripOf(4, [[2, 3, 2]]);
  const [shape] = strip.sizes[0]?.shapes ?? [];
  if (shape === undefined) throw new Error("no shape");
  const place = (x: number, y: number) => ({ size: 0, shape, x, y });
  const good: StripNesting = { length: 3, bound: 3, places: [place(0, 0), place(2, 0)] };
  test("touching pieces and sides are right", () => expect(stripFaults(strip, good)).toEqual([]));
  test.each([
    ["overlap", { ...good, places: [place(0, 0), place(1, 0)] }, "overlap"],
    ["outside", { ...good, places: [place(0, 0), place(3, 0)] }, "reaches to 5"],
    ["a fraction", { ...good, places: [place(0, 0), place(2, 0.25)], length: 3.25 }, "lies at 2, 0.25"],
    ["one missing", { ...good, places: [place(0, 0)] }, "laid 1 times, wanted are 2"],
    [
      "another shape",
      { ...good, places: [place(0, 0), { ...place(2, 0), shape: { ...shape, turn: 90 as const } }] },
      "turned by 90",
    ],
    ["an unknown size", { ...good, places: [...good.places, { ...place(0, 0), size: 3 }] }, "beyond"],
    ["a wrong length", { ...good, length: 4 }, "the length is 4"],
    ["a bound above", { ...good, bound: 4 }, "bound 4 is above"],
  ])("%s is a fault", (_, nesting, says) => {
    expect(stripFaults(strip, nesting).join("; ")).toContain(says);
  });
});
