import { describe, expect, test } from "vitest";
import { skylineFiller } from "../../../core/nesting/skyline.ts";

const upright = (across: number, along: number) => ({ shapes: [{ across, along, turn: 0 as const }] });
const one = (size: number, count = 1) => ({ size, count });

describe("skyline filling", () => {
  test("the lowest gap first, the leftmost of equals, the earlier piece of equal fit", () => {
    // 4 x 2 lies at the left; 3 x 3 against the side of the strip, which is taller. Nothing fits the 1 between them, so it
    // is raised to 2 and joined to the left wall: 5 wide.
    const filler = skylineFiller([upright(4, 2), upright(3, 3), upright(5, 1)], [one(0), one(1), one(2)]);
    expect(filler.fill([0, 1, 2], 8, Infinity, Infinity, true)).toBe(0);
    expect(filler.laid().map(({ size, x, y }) => [size, x, y])).toEqual([
      [0, 0, 0],
      [1, 5, 0],
      [2, 0, 2],
    ]);
    expect(filler.top()).toBe(3);
  });

  test("a piece level with a wall goes before an earlier one, and lies against that wall", () => {
    // After 2 x 4 at the left, the gap is 6 wide between a wall of 4 and the side: 3 x 4 is level with it, 3 x 1 is not.
    const filler = skylineFiller([upright(2, 4), upright(3, 1), upright(3, 4)], [one(0), one(1), one(2)]);
    filler.fill([0, 1, 2], 8, Infinity, Infinity, true);
    expect(filler.laid()[1]).toMatchObject({ size: 2, x: 2, y: 0 });
  });

  test("bunches of like pieces are counted, their area too", () => {
    const filler = skylineFiller([upright(2, 3)], [one(0, 4)]);
    expect(filler.area).toBe(24);
    // Two side by side, twice: 2 x 3 = 6.
    expect(filler.fill([0], 5, 6, Infinity, true)).toBe(0);
    expect(filler.top()).toBe(6);
    // Under a height of 5 only one row fits: two pieces of 6 stay outside.
    expect(filler.fill([0], 5, 5, Infinity, true)).toBe(12);
    expect(filler.laid()).toHaveLength(2);
  });

  test("a filling bound to leave more outside than allowed is given up, one that leaves as much is not", () => {
    const filler = skylineFiller([upright(2, 3)], [one(0, 4)]);
    expect(filler.fill([0], 5, 5, 12, true)).toBe(12);
    expect(filler.fill([0], 5, 5, 11, true)).toBe(Infinity);
  });

  test("a quarter turn is used where it fills the width", () => {
    const turning = {
      shapes: [
        { across: 2, along: 6, turn: 0 as const },
        { across: 6, along: 2, turn: 90 as const },
      ],
    };
    const filler = skylineFiller([turning], [one(0, 2)]);
    expect(filler.fill([0, 1], 6, Infinity, Infinity, true)).toBe(0);
    expect(filler.laid().map(({ shape, y }) => [shape.turn, y])).toEqual([
      [90, 0],
      [90, 2],
    ]);
    // By the order alone the first that the gap takes is laid.
    filler.fill([0, 1], 6, Infinity, Infinity, false);
    expect(filler.laid().map(({ shape, x }) => [shape.turn, x])).toEqual([
      [0, 0],
      [0, 2],
    ]);
  });

  test("the same filler fills again as if anew", () => {
    const filler = skylineFiller([upright(4, 2), upright(3, 3), upright(5, 1)], [one(0), one(1), one(2)]);
    filler.fill([2, 1, 0], 8, Infinity, Infinity, true);
    const first = filler.laid();
    filler.fill([0, 1, 2], 5, 3, Infinity, true);
    filler.fill([2, 1, 0], 8, Infinity, Infinity, true);
    expect(filler.laid()).toEqual(first);
  });
});
