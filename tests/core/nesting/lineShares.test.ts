import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  fullestLines,
  type KnownPiece,
  type LineShares,
  readyMade,
  shareTable,
} from "../../../core/nesting/lineShares.ts";

const QUANTA = 24;

const shares = fc.record({
  steps: fc.array(fc.tuple(fc.integer({ min: 1, max: QUANTA }), fc.integer({ min: 1, max: 9 })), { maxLength: 4 }),
  pieces: fc.array(
    fc.record({
      count: fc.integer({ min: 1, max: 5 }),
      widths: fc.array(fc.integer({ min: 1, max: QUANTA + 4 }), { minLength: 1, maxLength: 2 }),
      own: fc.array(fc.integer({ min: 0, max: 9 }), { minLength: 2, maxLength: 2 }),
    }),
    { maxLength: 3 },
  ),
});

type Drawn = typeof shares extends fc.Arbitrary<infer T> ? T : never;

const sharesOf = ({ steps, pieces }: Drawn): { share: LineShares; known: KnownPiece[] } => ({
  share: {
    parts: [],
    steps: new Map(steps),
    own: pieces.map(({ own, widths }) => widths.map((_, shape) => own[shape] as number)),
  },
  known: pieces.map(({ count, widths }) => ({ count, widths })),
});

/** Tries every way to fill a line, width by width. */
function fullest({ share, known }: ReturnType<typeof sharesOf>): number {
  let risen = 0;
  const kinds: { width: number; value: number; most: number }[] = [...share.steps]
    .sort(([a], [b]) => a - b)
    .map(([width, rise]) => {
      risen += rise;
      return { width, value: risen, most: Math.floor(QUANTA / width) };
    });
  for (const [p, { count, widths }] of known.entries()) {
    for (const [s, width] of widths.entries()) kinds.push({ width, value: share.own[p]?.[s] as number, most: count });
  }
  const best = (kind: number, room: number): number => {
    const next = kinds[kind];
    if (next === undefined) return 0;
    let most = 0;
    for (let times = 0; times <= next.most && times * next.width <= room; times++) {
      most = Math.max(most, times * next.value + best(kind + 1, room - times * next.width));
    }
    return most;
  };
  return best(0, QUANTA);
}

describe("the fullest line", () => {
  test("is that of trying every one, and the patterns told fit and are worth what was asked", () => {
    fc.assert(
      fc.property(shares, fc.integer({ min: 0, max: 20 }), (drawn, room) => {
        const { share, known } = sharesOf(drawn);
        const { most, patterns } = fullestLines(share, known, QUANTA, room);
        expect(most).toBeCloseTo(fullest({ share, known }), 9);
        const levels = shareTable({ ...share, parts: [0] }, readyMade(QUANTA));
        for (const { steps, own } of patterns) {
          let [width, value] = [0, 0];
          for (const [step, times] of steps) {
            width += step * times;
            value += (levels[step] as number) * times;
          }
          for (const { piece, shape, times } of own) {
            expect(times).toBeLessThanOrEqual(known[piece]?.count as number);
            width += (known[piece]?.widths[shape] as number) * times;
            value += (share.own[piece]?.[shape] as number) * times;
          }
          expect(width).toBeLessThanOrEqual(QUANTA);
          expect(value).toBeGreaterThan(room);
        }
        expect(patterns.length > 0).toBe(most > room + 1e-7);
      }),
      { seed: 20261125, numRuns: 400 },
    );
  });
});

test("ready-made shares of whatever fits on one line add up to at most one, and never fall", () => {
  for (const share of readyMade(QUANTA)) {
    for (let width = 1; width <= QUANTA; width++) {
      expect(share[width] as number).toBeGreaterThanOrEqual(share[width - 1] as number);
    }
    // The most that a line holds, by the knapsack over all widths.
    const most = new Float64Array(QUANTA + 1);
    for (let room = 1; room <= QUANTA; room++) {
      for (let width = 1; width <= room; width++) {
        most[room] = Math.max(most[room] as number, (most[room - width] as number) + (share[width] as number));
      }
    }
    expect(most[QUANTA] as number).toBeLessThanOrEqual(1 + 1e-12);
  }
});
