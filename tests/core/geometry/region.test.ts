import { describe, expect, test } from "vitest";
import type { Box, Polygon } from "../../../core/geometry/box.ts";
import { neededRegion } from "../../../core/geometry/region.ts";

const box = (x0: number, y0: number, x1: number, y1: number): Box => ({ x0, y0, x1, y1 });
const rectangle = (x0: number, y0: number, x1: number, y1: number): Polygon => [
  { x: x0, y: y0 },
  { x: x1, y: y0 },
  { x: x1, y: y1 },
  { x: x0, y: y1 },
];
const everything = { from: -1e9, to: 1e9 };

describe("a wall 100 x 50 with a doorway 40..60 of full height", () => {
  const wall = neededRegion(rectangle(0, 0, 100, 50), [rectangle(40, 0, 60, 50)]);

  test("needs the lines beside the doorway and none inside it", () => {
    expect(wall.line("x", 40, everything)).toEqual([{ from: 0, to: 50 }]);
    expect(wall.line("x", 60, everything)).toEqual([{ from: 0, to: 50 }]);
    expect(wall.line("x", 50, everything)).toEqual([]);
    expect(wall.line("y", 0, everything)).toEqual([
      { from: 0, to: 40 },
      { from: 60, to: 100 },
    ]);
  });

  test("knows which side of a line needs film", () => {
    expect(wall.beside("x", 40, everything, -1)).toEqual([{ from: 0, to: 50 }]);
    expect(wall.beside("x", 40, everything, 1)).toEqual([]);
  });

  test("measures: 100 x 50 - 20 x 50 = 4000", () => {
    expect(wall.area(box(-5, -5, 200, 200))).toBe(4000);
    expect(wall.area(box(30, 10, 70, 20))).toBe((10 + 10) * 10);
    expect(wall.outlineArea(box(30, 10, 70, 20))).toBe(400);
  });

  test("gives the extent of what is needed inside a box", () => {
    expect(wall.extent(box(30, 10, 70, 20))).toEqual(box(30, 10, 70, 20));
    expect(wall.extent(box(35, 10, 55, 20))).toEqual(box(35, 10, 40, 20));
    expect(wall.extent(box(45, 10, 55, 20))).toBeNull();
  });

  test("ends at the opening on both sides of it", () => {
    const rows = wall.profile(box(0, 0, 100, 50), "right");
    expect(rows).toEqual([{ from: 0, to: 50, outline: [100, 100], opening: [40, 40], beyond: false }]);
  });
});

describe("two openings", () => {
  test("that overlap are taken off once", () => {
    const pane = neededRegion(rectangle(0, 0, 10, 10), [rectangle(2, 2, 6, 6), rectangle(4, 4, 8, 8)]);
    expect(pane.area(box(0, 0, 10, 10))).toBe(100 - 16 - 16 + 4);
    expect(pane.line("x", 5, everything)).toEqual([
      { from: 0, to: 2 },
      { from: 8, to: 10 },
    ]);
  });

  test("that share an edge leave no thread of film between them", () => {
    const pane = neededRegion(rectangle(0, 0, 10, 10), [rectangle(2, 2, 5, 8), rectangle(5, 2, 8, 8)]);
    expect(pane.line("x", 5, everything)).toEqual([
      { from: 0, to: 2 },
      { from: 8, to: 10 },
    ]);
    expect(pane.extent(box(3, 3, 7, 7))).toBeNull();
  });

  test("of which one reaches past the outline cut a notch", () => {
    const pane = neededRegion(rectangle(0, 0, 10, 10), [rectangle(3, -5, 5, 4)]);
    expect(pane.area(box(-9, -9, 20, 20))).toBe(100 - 8);
    expect(pane.line("y", 0, everything)).toEqual([
      { from: 0, to: 3 },
      { from: 5, to: 10 },
    ]);
  });
});

describe("a sloped nose (0,0) (30,0) (30,20) (10,20)", () => {
  const nose = neededRegion(
    [
      { x: 0, y: 0 },
      { x: 30, y: 0 },
      { x: 30, y: 20 },
      { x: 10, y: 20 },
    ],
    [],
  );

  test("rounds crossings outward: at y = 5 the edge stands at 2.5, at x = 3 at 6", () => {
    expect(nose.line("y", 5, everything)).toEqual([{ from: 2, to: 30 }]);
    expect(nose.line("x", 3, everything)).toEqual([{ from: 0, to: 6 }]);
  });

  test("tells film that goes on beyond a box from an edge: the box's top at 10 meets the slope at x = 5", () => {
    expect(nose.profile(box(0, 0, 30, 10), "top")).toEqual([
      { from: 0, to: 5, outline: [0, 10], opening: null, beyond: false },
      { from: 5, to: 10, outline: null, opening: null, beyond: true },
      { from: 10, to: 30, outline: null, opening: null, beyond: true },
    ]);
  });

  test("measures a cut of the slope: triangle 5 x 10 / 2 = 25", () => {
    expect(nose.area(box(0, 0, 5, 20))).toBe(25);
    expect(nose.area(box(0, 0, 30, 20))).toBe(500);
  });

  test("has the extent of what lies inside the box", () => {
    expect(nose.extent(box(0, 15, 30, 20))).toEqual(box(7, 15, 30, 20));
  });
});

test("an edge that lies on the box's side ends there; film above it goes on", () => {
  const stepped = neededRegion(rectangle(0, 0, 20, 20), [rectangle(5, 10, 10, 15)]);
  const slabs = stepped.profile(box(0, 0, 20, 10), "top");
  expect(slabs.map(({ from, to, opening, beyond }) => ({ from, to, opening, beyond }))).toEqual([
    { from: 0, to: 5, opening: null, beyond: true },
    { from: 5, to: 10, opening: [10, 10], beyond: false },
    { from: 10, to: 20, opening: null, beyond: true },
  ]);
});

test("a slope crossed by an opening's slope has its event there", () => {
  const wedge = neededRegion(rectangle(0, 0, 100, 10), [
    [
      { x: 40, y: -10 },
      { x: 60, y: 10 },
      { x: 60, y: -10 },
    ],
  ]);
  expect(wedge.line("x", 50, everything)).toEqual([{ from: 0, to: 10 }]);
  expect(wedge.line("x", 55, everything)).toEqual([{ from: 5, to: 10 }]);
  expect(wedge.area(box(0, 0, 100, 10))).toBe(1000 - 50);
});
