import { expect, test } from "vitest";
import type { SeamMap } from "../../../core/index.ts";
import { heatPaths } from "../../../renderer/drawing/heat.ts";

const box = { x0: 0, y0: 0, x1: 400, y1: 200 };
/** One tick is a tenth of a pixel; the box's upper left corner lies at (10, 20). */
const frame = { scale: 0.1, x0: 0, y1: 200, left: 10, top: 20 };
const map = (values: readonly number[], cell = 100, columns = 4): SeamMap => ({
  x0: 0,
  y0: 0,
  cell,
  columns,
  rows: values.length / columns,
  upright: Uint8Array.from(values),
  level: Uint8Array.from(values, (value) => 255 - value),
});

test("cells of one step are drawn together along their row, the lowest row at the bottom", () => {
  const [little, clearly, much, most] = heatPaths(map([0, 15, 16, 63, 64, 128, 200, 255]), "x", frame, box);
  // Row 0 is the lower one: 30 to 40 pixels down; its last two cells lie 30 to 50 pixels from the left.
  expect(little).toBe("M30 30H50V40H30Z");
  expect(clearly).toBe("M10 20H20V30H10Z");
  expect(much).toBe("M20 20H30V30H20Z");
  expect(most).toBe("M30 20H50V30H30Z");
});

test("level seams have their own values", () => {
  const paths = heatPaths(map([255, 255, 255, 0, 255, 255, 255, 255]), "y", frame, box);
  expect(paths).toEqual(["", "", "", "M40 30H50V40H40Z"]);
});

test("cells too small to be seen are drawn together by the highest, and none beyond the elevation", () => {
  // Two rows of four cells of 10 ticks, one pixel each: three of them make a square of three pixels, cut at the box.
  const small = map([0, 0, 20, 255, 0, 0, 0, 0], 10);
  const paths = heatPaths(small, "x", frame, { x0: 0, y0: 0, x1: 35, y1: 20 });
  expect(paths).toEqual(["M10 38H13V40H10Z", "", "", "M13 38H13.5V40H13Z"]);
});
