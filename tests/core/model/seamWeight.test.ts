import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { Axis, Box, Interval } from "../../../core/geometry/box.ts";
import type { HeightZone, SeamMap } from "../../../core/model/instance.ts";
import { isWeighted, SeamWeights } from "../../../core/model/seamWeight.ts";
import { elevationOf, instanceOf, plainRules, rectangle } from "../panelling/builders.ts";

const box: Box = { x0: 0, y0: 0, x1: 400, y1: 300 };

const mapOf = (columns: number, rows: number, upright: number[], level = upright): SeamMap => ({
  x0: 100,
  y0: 50,
  cell: 10,
  columns,
  rows,
  upright: Uint8Array.from(upright),
  level: Uint8Array.from(level),
});

const weights = (seamMap: SeamMap | null, heightZones: HeightZone[] = [], artworkWeight = 4, ground = 0) =>
  new SeamWeights({ ground, box, seamMap }, { ...plainRules, heightZones, artworkWeight });

describe("how much a seam counts", () => {
  test("by its length alone where nothing weighs it", () => {
    const plain = weights(null);
    expect(plain.plain).toBe(true);
    expect(plain.lengthOn("x", 7, [{ from: 3, to: 40 }])).toBe(37);
  });

  test("by height over the ground: the first zone that holds the place, its lower edge with it", () => {
    const zones = [
      { from: 20, to: 50, weight: 3 },
      { from: 40, to: 100, weight: 0.5 },
    ];
    // Ground at 10: weight 3 from 30 to 60, 0.5 from 60 to 110, 1 elsewhere. 10..120 = 20 + 30 x 3 + 50 x 0.5 + 10.
    const high = weights(null, zones, 4, 10);
    expect(high.lengthOn("x", 7, [{ from: 10, to: 120 }])).toBe(145);
    // A level line lies in one height; at 60 the second zone holds it, at 110 none.
    expect([29, 30, 59, 60, 109, 110].map((y) => high.lengthOn("y", y, [{ from: 0, to: 10 }]))).toEqual([
      10, 30, 30, 5, 5, 10,
    ]);
  });

  test("by the cells of the map that it crosses: 1 + artworkWeight x value / 255, upright and level apart", () => {
    // Columns 100..110 and 110..120, rows 50..60 and 60..70, from the bottom left.
    const map = mapOf(2, 2, [0, 51, 255, 102], [255, 0, 51, 0]);
    const seen = weights(map, [], 5);
    // x 100: value 0 then 255, weight 1 and 6: 10 + 60, with 5 each side outside the map.
    expect(seen.lengthOn("x", 100, [{ from: 45, to: 75 }])).toBe(80);
    // x 119: 51 / 255 = a fifth, weight 2, then 102 / 255, weight 3: 20 + 30.
    expect(seen.lengthOn("x", 119, [{ from: 50, to: 70 }])).toBe(50);
    // The right edge belongs to no column, nor the top edge to a row.
    expect(seen.lengthOn("x", 120, [{ from: 50, to: 70 }])).toBe(20);
    expect(seen.lengthOn("y", 70, [{ from: 100, to: 120 }])).toBe(20);
    // y 50: 255 then 0; y 69: 51 then 0.
    expect(seen.lengthOn("y", 50, [{ from: 100, to: 120 }])).toBe(70);
    expect(seen.lengthOn("y", 69, [{ from: 100, to: 120 }])).toBe(30);
    expect(seen.lengthOn("x", 99, [{ from: 50, to: 70 }])).toBe(20);
  });

  test("both multiplied, over several stretches, to the nearest tick", () => {
    const zones = [{ from: 55, to: 65, weight: 0.25 }];
    // x 105: 50..55 x 1, 55..60 x 0.25, 60..65 x 0.25 x 5, 65..70 x 5; 52..56 and 58..66: 3 + .25 + .5 + 6.25 + 5 = 15.
    const both = weights(mapOf(1, 2, [0, 255]), zones);
    const stretches = [
      { from: 52, to: 56 },
      { from: 58, to: 66 },
    ];
    expect(both.lengthOn("x", 105, stretches)).toBe(15);
    // One tick less at the low end: 14, and one less at the other: 14.75, to the nearest 15.
    expect(both.lengthOn("x", 105, [{ from: 53, to: 56 }, stretches[1] as Interval])).toBe(14);
    expect(both.lengthOn("x", 105, [{ from: 52, to: 55 }, stretches[1] as Interval])).toBe(15);
  });

  test("the least is that of a height that the elevation has; the map only adds", () => {
    const low = { from: -100, to: 0, weight: 0.1 };
    expect(weights(mapOf(1, 1, [255]), [low]).least).toBe(1);
    expect(weights(null, [low, { from: 100, to: 110, weight: 0.5 }]).least).toBe(0.5);
    // All heights of 0 to 300 in zones above 1.
    expect(weights(null, [{ from: 0, to: 300, weight: 2 }]).least).toBe(2);
    expect(weights(null, [{ from: 0, to: 299, weight: 2 }]).least).toBe(1);
    expect(weights(null, [{ from: 1, to: 300, weight: 2 }]).least).toBe(1);
  });
});

test("a job is weighted with a height zone, or a map on any elevation", () => {
  const side = elevationOf(rectangle(0, 0, 10, 10), 0);
  expect(isWeighted(instanceOf([side]))).toBe(false);
  expect(isWeighted(instanceOf([side], { heightZones: [{ from: 0, to: 1, weight: 1 }] }))).toBe(true);
  expect(isWeighted(instanceOf([side, { ...side, id: "b", seamMap: mapOf(1, 1, [0]) }]))).toBe(true);
});

const cases = fc.record({
  map: fc.option(
    fc.record({
      x0: fc.integer({ min: -20, max: 40 }),
      y0: fc.integer({ min: -20, max: 40 }),
      cell: fc.integer({ min: 1, max: 9 }),
      columns: fc.integer({ min: 1, max: 5 }),
      rows: fc.integer({ min: 1, max: 5 }),
      values: fc.array(fc.integer({ min: 0, max: 255 }), { minLength: 50, maxLength: 50 }),
    }),
  ),
  zones: fc.array(
    fc.tuple(fc.integer({ min: -10, max: 50 }), fc.integer({ min: 1, max: 30 }), fc.constantFrom(0, 0.5, 1, 3)),
    { maxLength: 3 },
  ),
  ground: fc.integer({ min: -5, max: 15 }),
  axis: fc.constantFrom<Axis>("x", "y"),
  at: fc.integer({ min: -25, max: 90 }),
  stretches: fc.array(fc.tuple(fc.integer({ min: -30, max: 90 }), fc.integer({ min: 1, max: 40 })), { maxLength: 3 }),
});

test("is the sum over single ticks of the weight at each", () => {
  fc.assert(
    fc.property(cases, ({ map, zones, ground, axis, at, stretches }) => {
      const seamMap: SeamMap | null =
        map === null
          ? null
          : {
              ...map,
              upright: Uint8Array.from(map.values.slice(0, map.columns * map.rows)),
              level: Uint8Array.from(map.values.slice(25, 25 + map.columns * map.rows)),
            };
      const heightZones = zones.map(([from, size, weight]) => ({ from, to: from + size, weight }));
      const own = weights(seamMap, heightZones, 4, ground);
      const at_ = (x: number, y: number): number => {
        const zone = heightZones.find(({ from, to }) => from <= y - ground && y - ground < to);
        let value = 0;
        if (seamMap !== null) {
          const [column, row] = [
            Math.floor((x - seamMap.x0) / seamMap.cell),
            Math.floor((y - seamMap.y0) / seamMap.cell),
          ];
          const inside = column >= 0 && row >= 0 && column < seamMap.columns && row < seamMap.rows;
          if (inside)
            value = (axis === "x" ? seamMap.upright : seamMap.level)[row * seamMap.columns + column] as number;
        }
        return (zone?.weight ?? 1) * (1 + (4 * value) / 255);
      };
      for (const [from, size] of stretches) {
        let sum = 0;
        for (let v = from; v < from + size; v++) sum += axis === "x" ? at_(at, v) : at_(v, at);
        expect(own.integral(axis, at, { from, to: from + size })).toBeCloseTo(sum, 9);
      }
      // Between two changes every line counts alike.
      const stretch = { from: -30, to: 90 };
      const same = !own.changesOn(axis).includes(at + 1);
      if (same) expect(own.integral(axis, at + 1, stretch)).toBe(own.integral(axis, at, stretch));
    }),
    { seed: 20261126, numRuns: 500 },
  );
});
