import fc from "fast-check";
import { expect, test } from "vitest";
import { fitToBox } from "../../../core/artwork/registration.ts";
import { seamVisibility } from "../../../core/artwork/seamVisibility.ts";
import { trimLine } from "../../../core/artwork/trimLine.ts";
import type { Point } from "../../../core/geometry/box.ts";
import type { SeamMap } from "../../../core/model/instance.ts";
import { noise, painted } from "./pictures.ts";

const cell = 100;
const inch = 1_016_000;

/** A map of `columns` cells a row from values given row by row from the bottom, the same for both axes. */
const mapOf = (columns: number, values: readonly number[]): SeamMap => ({
  x0: 0,
  y0: 0,
  cell,
  columns,
  rows: values.length / columns,
  upright: Uint8Array.from(values),
  level: Uint8Array.from(values),
});

const whole = (map: SeamMap) => ({ x0: 0, y0: 0, x1: map.columns * cell, y1: map.rows * cell });

/** The column that an upright line is in at each row of the map. */
function columnsOf(line: readonly Point[], rows: number): number[] {
  return Array.from({ length: rows }, (_, row) => {
    const y = (row + 0.5) * cell;
    const next = line.findIndex((point) => point.y >= y);
    const [a, b] = [line[Math.max(0, next - 1)] as Point, line[next] as Point];
    const x = a.y === b.y ? b.x : a.x + ((b.x - a.x) * (y - a.y)) / (b.y - a.y);
    return Math.floor(x / cell);
  });
}

/** What a line costs, written out from its description; whole numbers. */
const costOf = (map: SeamMap, columns: readonly number[]): number => {
  const price = (row: number) => 1 + (map.upright[row * map.columns + (columns[row] as number)] as number);
  if (columns.length === 1) return price(0);
  let cost = 0;
  for (let row = 1; row < columns.length; row++) {
    const length = columns[row] === columns[row - 1] ? 5 : 7;
    cost += length * (price(row - 1) + price(row));
  }
  return cost;
};

/** Every line there is through so many rows and columns. */
function* allLines(columns: number, rows: number, begun: readonly number[] = []): Generator<readonly number[]> {
  if (begun.length === rows) {
    yield begun;
    return;
  }
  const last = begun.at(-1);
  for (let column = 0; column < columns; column++) {
    if (last === undefined || Math.abs(column - last) <= 1) yield* allLines(columns, rows, [...begun, column]);
  }
}

test("no line costs less: every one tried on small maps", () => {
  const grid = fc
    .record({ columns: fc.integer({ min: 1, max: 4 }), rows: fc.integer({ min: 1, max: 6 }) })
    .chain(({ columns, rows }) =>
      fc.record({
        columns: fc.constant(columns),
        values: fc.array(fc.oneof(fc.constantFrom(0, 255), fc.integer({ min: 0, max: 255 })), {
          minLength: columns * rows,
          maxLength: columns * rows,
        }),
        near: fc.integer({ min: 0, max: columns * cell }),
      }),
    );
  fc.assert(
    fc.property(grid, ({ columns, values, near }) => {
      const map = mapOf(columns, values);
      const line = trimLine(map, { axis: "x", box: whole(map), near });
      const taken = columnsOf(line, map.rows);
      const away = (lane: readonly number[]) => lane.reduce((sum, at) => sum + Math.abs((at + 0.5) * cell - near), 0);
      let best: { cost: number; away: number } | null = null;
      for (const lane of allLines(columns, map.rows)) {
        const [cost, apart] = [costOf(map, lane), away(lane)];
        if (best === null || cost < best.cost || (cost === best.cost && apart < best.away))
          best = { cost, away: apart };
      }
      expect({ cost: costOf(map, taken), away: away(taken) }).toEqual(best);
      // A level seam through the map turned on its side takes the same way.
      const side: SeamMap = {
        ...map,
        columns: map.rows,
        rows: columns,
        level: Uint8Array.from(values, (_, i) => {
          const [x, y] = [i % map.rows, Math.floor(i / map.rows)];
          return values[x * columns + y] as number;
        }),
      };
      const level = trimLine(side, { axis: "y", box: { x0: 0, y0: 0, x1: map.rows * cell, y1: columns * cell }, near });
      expect(level).toEqual(line.map(({ x, y }) => ({ x: y, y: x })));
    }),
    { seed: 20261103, numRuns: 300 },
  );
});

test("on flat ground the line is the seam, straight from end to end", () => {
  const map = mapOf(5, new Array(50).fill(40));
  expect(trimLine(map, { axis: "x", box: whole(map), near: 250 })).toEqual([
    { x: 250, y: 0 },
    { x: 250, y: 1000 },
  ]);
});

test("a band narrower than a cell, or with no middle of one in it, keeps the straight line inside", () => {
  const map = mapOf(5, new Array(50).fill(0));
  expect(trimLine(map, { axis: "x", box: { x0: 160, y0: 0, x1: 240, y1: 300 }, near: 200 })).toEqual([
    { x: 200, y: 0 },
    { x: 200, y: 300 },
  ]);
  expect(trimLine(map, { axis: "x", box: { x0: 160, y0: 0, x1: 160, y1: 300 }, near: 200 })).toEqual([
    { x: 160, y: 0 },
    { x: 160, y: 300 },
  ]);
});

test("beyond the map nothing is seen, and the line keeps to the band", () => {
  const map = mapOf(2, [255, 255, 255, 255]);
  const line = trimLine(map, { axis: "x", box: { x0: -200, y0: -100, x1: 200, y1: 300 }, near: 150 });
  expect(line.every(({ x }) => x < 0)).toBe(true);
  expect([line[0]?.y, line.at(-1)?.y]).toEqual([-100, 300]);
});

test("a sloped corridor planted in a picture is followed from end to end", () => {
  // 32 pixels an inch; a flat corridor 10 pixels wide that moves 40 pixels to the right over 160 pixels up.
  const grain = noise(5, 3, 64);
  const middleAt = (up: number) => 28 + up / 4;
  const picture = painted(96, 160, (x, y) =>
    Math.abs(x + 0.5 - middleAt(160 - y - 0.5)) <= 5 ? [120, 120, 120] : grain(x, y),
  );
  const box = { x0: 0, y0: 0, x1: 3 * inch, y1: 5 * inch };
  const map = seamVisibility(picture, fitToBox(picture, box).registration, inch / 16, box);
  const line = trimLine(map, { axis: "x", box, near: 1.5 * inch });
  expect(line[0]?.y).toBe(0);
  expect(line.at(-1)?.y).toBe(5 * inch);
  for (const { x, y } of line) {
    expect(Math.abs((x / inch) * 32 - middleAt((y / inch) * 32))).toBeLessThanOrEqual(5);
  }
});

test("mirrored, the line mirrors", () => {
  const grain = noise(3, 1, 9);
  const values = Array.from({ length: 9 * 30 }, (_, i) => grain(i % 9, Math.floor(i / 9))[0]);
  const turned = values.map((_, i) => values[i - (i % 9) + 8 - (i % 9)] as number);
  const band = { axis: "x" as const, box: { x0: 0, y0: 0, x1: 900, y1: 3000 }, near: 450 };
  const line = trimLine(mapOf(9, values), band);
  expect(trimLine(mapOf(9, turned), band)).toEqual(line.map(({ x, y }) => ({ x: 900 - x, y })));
});
