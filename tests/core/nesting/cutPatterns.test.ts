import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { seededRandom } from "../../../core/model/run.ts";
import { nestByPatterns } from "../../../core/nesting/cutPatterns.ts";
import { cutsRoundPieces, priceCuts } from "../../../core/nesting/cutPricing.ts";
import { fillRest } from "../../../core/nesting/fillCut.ts";
import { fillCuts, straight } from "../../../core/nesting/fillCuts.ts";
import { nestInCuts } from "../../../core/nesting/nestInCuts.ts";
import { type CutPattern, type Place, type Room, type Size, totalLength } from "../../../core/nesting/sizes.ts";
import { embeddedEngine } from "../../../core/programme/embeddedEngine.ts";
import type { ProgrammeEngine } from "../../../core/programme/programme.ts";

const effort = (rounds = 20) => ({ rounds, random: seededRandom(3), stop: () => false });
const patternEffort = (steps = 60) => ({ steps, stop: () => false });

const size = (across: number, along: number, count = 1, due = true): Size => ({
  shapes: [{ across, along, turn: 0 }],
  count,
  due,
});

const startOf = (sizes: readonly Size[], room: Room): CutPattern[] =>
  fillCuts(
    sizes,
    sizes.map(({ count }) => count),
    room,
    straight,
  );

/** What is wrong with the places of one cut: a piece outside, or two nearer than the gap. */
function cutFaults(places: readonly Place[], length: number, { width, gap }: Room): string[] {
  const found: string[] = [];
  for (const [i, a] of places.entries()) {
    if (a.x < 0 || a.y < 0 || a.x + a.shape.across > width || a.y + a.shape.along > length) found.push("off the cut");
    for (const b of places.slice(i + 1)) {
      const across = Math.max(b.x - a.x - a.shape.across, a.x - b.x - b.shape.across);
      const along = Math.max(b.y - a.y - a.shape.along, a.y - b.y - b.shape.along);
      if (Math.max(across, along) < gap) found.push("too near");
    }
  }
  return found;
}

function faults(sizes: readonly Size[], room: Room, patterns: readonly CutPattern[]): string[] {
  const used = sizes.map(() => 0);
  const found = patterns.flatMap(({ length, places, times }) => {
    for (const place of places) used[place.size] = (used[place.size] as number) + times;
    return cutFaults(places, length, room);
  });
  for (const [i, { count, due }] of sizes.entries()) {
    if (due ? used[i] !== count : (used[i] as number) > count) found.push(`size ${i}: ${used[i]} of ${count}`);
  }
  return found;
}

const drawnSizes = (mostCount: number, mostSizes: number, dueOnly: boolean) =>
  fc.array(
    fc.record({
      across: fc.integer({ min: 1, max: 40 }),
      along: fc.integer({ min: 1, max: 60 }),
      turns: fc.boolean(),
      count: fc.integer({ min: 1, max: mostCount }),
      due: dueOnly ? fc.constant(true) : fc.boolean(),
    }),
    { minLength: 1, maxLength: mostSizes },
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

describe("nesting by patterns", () => {
  test("every due piece lies once, inside and apart; no longer than the start", () => {
    fc.assert(
      fc.property(drawnSizes(12, 8, false), drawnRoom, (drawn, room) => {
        const sizes = sizesFrom(drawn, room.width);
        const start = startOf(sizes, room);
        const { patterns } = nestByPatterns(sizes, room, start, patternEffort());
        const due = sizes.map((each) => (each.due ? each : { ...each, count: 0 }));
        expect(faults(due, room, patterns)).toEqual([]);
        const length = totalLength(patterns, room.gap);
        expect(length).toBeLessThanOrEqual(totalLength(start, room.gap));
      }),
      { seed: 20260401, numRuns: 200 },
    );
  });

  test("with it the search in cuts is never longer, and fillers keep to the gaps", () => {
    fc.assert(
      fc.property(drawnSizes(12, 8, false), drawnRoom, (drawn, room) => {
        const sizes = sizesFrom(drawn, room.width);
        const without = nestInCuts(sizes, room, effort());
        const patterns = nestInCuts(sizes, room, { ...effort(), patterns: { steps: 40 } });
        expect(faults(sizes, room, patterns)).toEqual([]);
        expect(totalLength(patterns, room.gap)).toBeLessThanOrEqual(totalLength(without, room.gap));
      }),
      { seed: 20260402, numRuns: 100 },
    );
  });

  test("the relaxation stays at or below what trying all cuts of whole columns finds, and the nesting mostly meets that", () => {
    let met = 0;
    let runs = 0;
    fc.assert(
      fc.property(drawnSizes(2, 3, true), drawnRoom, (drawn, room) => {
        const sizes = sizesFrom(drawn, room.width);
        const { patterns, relaxed } = nestByPatterns(sizes, room, startOf(sizes, room), patternEffort(200));
        const least = leastInColumns(sizes, room);
        expect(relaxed).toBeLessThanOrEqual(least * (1 + 1e-9));
        runs++;
        if (totalLength(patterns, room.gap) <= least) met++;
      }),
      { seed: 20260403, numRuns: 120 },
    );
    expect(met).toBeGreaterThanOrEqual(0.95 * runs);
  });

  test("makes good cuts out of a start of one piece a cut", () => {
    // On 100 across, all of one length: 51 + 48, 33 + 33 + 33 and 74 + 26 make 60 + 40 + 50 cuts. Their widths add up to
    // 60 x 99 + 120 x 33 + 50 x 100 = 14,900, so that fewer than 149 are impossible.
    const sizes = [size(51, 10, 60), size(48, 10, 60), size(33, 10, 120), size(26, 10, 50), size(74, 10, 50)];
    const room = { width: 100, gap: 0 };
    const start = sizes.map(
      ({ shapes, count }, i): CutPattern => ({
        length: 10,
        places: [{ size: i, shape: shapes[0] as Place["shape"], x: 0, y: 0 }],
        times: count,
      }),
    );
    const { patterns, relaxed } = nestByPatterns(sizes, room, start, patternEffort());
    expect(totalLength(patterns, 0)).toBe(10 * (60 + 40 + 50));
    expect(relaxed).toBeGreaterThanOrEqual(1490 * (1 - 1e-9));
    expect(relaxed).toBeLessThanOrEqual(1500);
  });

  test("equal input gives equal output, and no steps leave the start", () => {
    const sizes = [size(31, 44, 17), size(22, 23, 40), size(13, 52, 9), size(9, 11, 88), size(40, 8, 13)];
    const room = { width: 60, gap: 1 };
    const start = startOf(sizes, room);
    const twice = [1, 2].map(() => nestByPatterns(sizes, room, start, patternEffort()));
    expect(twice[0]).toEqual(twice[1]);
    const stopped = nestByPatterns(sizes, room, start, { steps: 100, stop: () => true });
    expect(totalLength(stopped.patterns, 1)).toBeLessThanOrEqual(totalLength(start, 1));
    expect(faults(sizes, room, stopped.patterns)).toEqual([]);
  });

  test("the engine is asked where rounding misses the relaxation, and its answer is held to the counts", () => {
    let asked = 0;
    const engine: ProgrammeEngine = (programme) => {
      asked++;
      return programme.variables.length <= 30 ? embeddedEngine(programme) : { status: "unknown", why: "too large" };
    };
    // Three of 26 take two on a line of 60 with one over: one and a half cuts, so two are needed and rounding can't help.
    const sizes = [size(26, 10, 3)];
    const room = { width: 60, gap: 0 };
    const { patterns } = nestByPatterns(sizes, room, startOf(sizes, room), { ...patternEffort(), engine });
    expect(asked).toBe(1);
    expect(faults(sizes, room, patterns)).toEqual([]);
    expect(totalLength(patterns, 0)).toBe(20);
  });
});

describe("pricing cuts", () => {
  test("what comes back keeps counts, room and gap; the value is a limit for single columns", () => {
    fc.assert(
      fc.property(
        drawnSizes(5, 6, true),
        drawnRoom,
        fc.array(fc.integer({ min: 0, max: 50 }), { minLength: 6, maxLength: 6 }),
        (drawn, room, price) => {
          const sizes = sizesFrom(drawn, room.width);
          const counts = sizes.map(({ count }) => count);
          const { cuts, mostPerLength, exact } = priceCuts({ sizes, counts }, price, room);
          for (const { places, length } of [...cuts, ...cutsRoundPieces({ sizes, counts }, price, room)]) {
            expect(cutFaults(places, length, room)).toEqual([]);
            for (const [i, count] of counts.entries()) {
              expect(places.filter(({ size: each }) => each === i).length).toBeLessThanOrEqual(count);
            }
          }
          expect(exact).toBe(true);
          // One piece of a size many times side by side is a cut of the class.
          for (const [i, { shapes, count }] of sizes.entries()) {
            for (const { across, along } of shapes) {
              const many = Math.min(count, Math.floor((room.width + room.gap) / (across + room.gap)));
              expect(mostPerLength).toBeGreaterThanOrEqual((many * (price[i] as number)) / (along + room.gap) - 1e-9);
            }
          }
        },
      ),
      { seed: 20260404, numRuns: 200 },
    );
  });

  test("a row of a column takes narrow pieces side by side", () => {
    const sizes = [size(20, 20, 1), size(10, 10, 2)];
    const { mostPerLength } = priceCuts({ sizes, counts: [1, 2] }, [40, 15], { width: 20, gap: 0 });
    // A row of two small ones is worth 30 for 10, one large piece 40 for 20: small ones one behind another only 15 for 10.
    expect(mostPerLength).toBeCloseTo(30 / 10, 9);
  });

  test("what is left of a cut is filled again without touching what lies there", () => {
    const sizes = [size(30, 40, 1), size(10, 10, 20)];
    const room = { width: 50, gap: 0 };
    const places = [{ size: 0, shape: sizes[0]?.shapes[0] as Place["shape"], x: 0, y: 0 }];
    const choice = { sizes, among: [1], left: () => 20, worth: () => 1 };
    const more = fillRest(choice, places, 40, room);
    // 20 x 40 beside it hold eight.
    expect(more.length).toBe(8);
    expect(cutFaults([...places, ...more], 40, room)).toEqual([]);
  });
});

/**
 * The least length in cuts of plain columns (like pieces or not, one behind another), by trying every way to share the
 * pieces, their turns included, out over cuts and their columns: a part of the class that is priced, small enough to try.
 */
function leastInColumns(sizes: readonly Size[], room: Room): number {
  const pieces = sizes.flatMap(({ shapes, count }) => Array.from({ length: count }, () => shapes));
  let best = Infinity;
  type Column = { wide: number; deep: number };
  const cuts: { columns: Column[]; length: number }[] = [];
  const total = () => cuts.reduce((sum, { length }) => sum + length + room.gap, 0);
  const fits = (columns: readonly Column[], length: number): boolean =>
    columns.reduce((sum, { wide }) => sum + wide, 0) <= room.width + room.gap &&
    columns.every(({ deep }) => deep <= length + room.gap);
  const put = (i: number): void => {
    if (total() >= best) return;
    if (i === pieces.length) {
      // A cut is as long as its longest piece; columns may not be deeper.
      if (cuts.every(({ columns, length }) => fits(columns, length))) best = total();
      return;
    }
    for (const { across, along } of pieces[i] ?? []) {
      const [wide, deep] = [across + room.gap, along + room.gap];
      for (const cut of cuts) {
        const before = { columns: cut.columns, length: cut.length };
        for (let c = 0; c <= before.columns.length; c++) {
          const old = before.columns[c] ?? { wide: 0, deep: 0 };
          cut.columns = before.columns.toSpliced(c, 1, { wide: Math.max(old.wide, wide), deep: old.deep + deep });
          cut.length = Math.max(before.length, along);
          put(i + 1);
        }
        [cut.columns, cut.length] = [before.columns, before.length];
      }
      cuts.push({ columns: [{ wide, deep }], length: along });
      put(i + 1);
      cuts.pop();
    }
  };
  put(0);
  return best;
}
