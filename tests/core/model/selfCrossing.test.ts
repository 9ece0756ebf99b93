import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { Box } from "../../../core/geometry/box.ts";
import { selfCrossing, turn } from "../../../core/model/selfCrossing.ts";
import { tilingFaults } from "../../../core/model/tiling.ts";

type Corner = readonly [number, number];
const polygon = (...corners: Corner[]) => corners.map(([x, y]) => ({ x, y }));

describe("outlines", () => {
  const good: [string, Corner[]][] = [
    [
      "triangle",
      [
        [0, 0],
        [4, 0],
        [0, 3],
      ],
    ],
    [
      "points on a straight side",
      [
        [0, 0],
        [2, 0],
        [4, 0],
        [4, 4],
        [0, 4],
      ],
    ],
    [
      "a corner that touches a side",
      [
        [0, 0],
        [8, 0],
        [8, 8],
        [4, 0],
        [0, 8],
      ],
    ],
    [
      "two corners in one place, not passing through",
      [
        [0, 0],
        [4, 4],
        [8, 0],
        [8, 8],
        [4, 4],
        [0, 8],
      ],
    ],
  ];
  const bad: [string, Corner[]][] = [
    [
      "bow tie",
      [
        [0, 0],
        [4, 4],
        [4, 0],
        [0, 4],
      ],
    ],
    [
      "bow tie through one corner",
      [
        [0, 0],
        [4, 4],
        [8, 8],
        [8, 0],
        [4, 4],
        [0, 8],
      ],
    ],
    [
      "a spike along its own side",
      [
        [0, 0],
        [8, 0],
        [8, 4],
        [8, 8],
        [8, 2],
        [4, 8],
        [0, 8],
      ],
    ],
    [
      "a way there and back",
      [
        [0, 0],
        [4, 0],
        [4, 4],
        [9, 4],
        [4, 4],
        [0, 4],
      ],
    ],
    [
      "twice round",
      [
        [0, 0],
        [9, 0],
        [9, 9],
        [1, 1],
        [8, 1],
        [8, 8],
      ],
    ],
  ];
  // Whatever holds of an outline holds of it turned, mirrored, begun elsewhere and gone round the other way.
  const variants = (corners: Corner[]): Corner[][] =>
    [corners, corners.map(([x, y]): Corner => [-y, x]), corners.map(([x, y]): Corner => [-x, y])].flatMap((one) => [
      one,
      [...one].reverse(),
      [...one.slice(2), ...one.slice(0, 2)],
    ]);
  test.each(good)("%s is fine", (_, corners) => {
    for (const variant of variants(corners)) expect(selfCrossing(polygon(...variant))).toBe(null);
  });
  test.each(bad)("%s is refused", (_, corners) => {
    for (const variant of variants(corners)) expect(selfCrossing(polygon(...variant))).not.toBe(null);
  });

  test("star-shaped outlines never cross", () => {
    const spokes = fc.array(fc.integer({ min: 1, max: 1000 }), { minLength: 3, maxLength: 40 });
    fc.assert(
      fc.property(spokes, (lengths) => {
        const outline = lengths.map((length, i) => {
          const angle = (2 * Math.PI * i) / lengths.length;
          return { x: Math.round(1e6 * length * Math.cos(angle)), y: Math.round(1e6 * length * Math.sin(angle)) };
        });
        expect(selfCrossing(outline)).toBe(null);
      }),
      { seed: 20260101, numRuns: 200 },
    );
  });
});

test("turns are exact where doubles are not", () => {
  const far = 1_000_000_000_001;
  expect(turn({ x: 0, y: 0 }, { x: far, y: far - 1 }, { x: far + 1, y: far })).toBe(1);
  expect(turn({ x: 0, y: 0 }, { x: far, y: far }, { x: far - 1, y: far - 1 })).toBe(0);
  expect(turn({ x: 0, y: 0 }, { x: far - 1, y: far }, { x: far, y: far + 1 })).toBe(-1);
});

describe("tiling", () => {
  const frame: Box = { x0: 0, y0: 0, x1: 10, y1: 10 };
  const box = (x0: number, y0: number, x1: number, y1: number): Box => ({ x0, y0, x1, y1 });
  test("boxes round a middle one tile the frame", () => {
    const wheel = [box(0, 0, 7, 3), box(7, 0, 10, 7), box(3, 7, 10, 10), box(0, 3, 3, 10), box(3, 3, 7, 7)];
    expect(tilingFaults(wheel, frame)).toEqual([]);
    expect(tilingFaults(wheel.slice(0, 4), frame)).toEqual([{ kind: "hole", x: 3, y: 3 }]);
    expect(tilingFaults([...wheel, box(4, 4, 5, 5)], frame)).toEqual([{ kind: "overlap", box: 5, other: 4 }]);
  });
  test("holes at each side, and boxes outside", () => {
    expect(tilingFaults([box(1, 0, 10, 10)], frame)).toEqual([{ kind: "hole", x: 0, y: 0 }]);
    expect(tilingFaults([box(0, 0, 9, 10)], frame)).toEqual([{ kind: "hole", x: 9, y: 0 }]);
    expect(tilingFaults([box(0, 1, 10, 10)], frame)).toEqual([{ kind: "hole", x: 0, y: 0 }]);
    expect(tilingFaults([box(0, 0, 10, 9)], frame)).toEqual([{ kind: "hole", x: 0, y: 9 }]);
    expect(tilingFaults([box(0, 0, 10, 11)], frame)).toEqual([{ kind: "outside", box: 0 }]);
    expect(tilingFaults([], frame)).toEqual([{ kind: "hole", x: 0, y: 0 }]);
  });
});
