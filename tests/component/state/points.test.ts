import { expect, test } from "vitest";
import { readPoints, showPoints } from "../../../renderer/controls/PointsField.tsx";

test("points are read from what people type, and shown so that they read the same", () => {
  const read = readPoints("0, 22; 40 1/2, 23 1/2; 4'5\", 590.55 mm", "in", "straight");
  // 4'5" = 53 in, 590.55 mm = 23.25 in
  expect(read).toEqual({ value: [[0, 22], [40.5, 23.5], [53, 23.25]] }); // biome-ignore format: one line
  const shown = showPoints("value" in read ? read.value : null, "in", "straight");
  expect(shown).toBe("0, 22; 40 1/2, 23 1/2; 53, 23 1/4");
  expect(readPoints(shown, "in", "straight")).toEqual(read);
});

test("nothing typed, or the word for it, is a straight edge", () => {
  expect(readPoints("  ", "in", "straight")).toEqual({ value: null });
  expect(readPoints("Straight", "in", "straight")).toEqual({ value: null });
  expect(showPoints(null, "in", "straight")).toBe("straight");
});

test("what is no line says why", () => {
  expect(readPoints("0, 22", "in", "straight")).toEqual({ why: "A line has two points at least." });
  expect(readPoints("0, 22; 40", "in", "straight")).toMatchObject({
    why: expect.stringContaining("‘40’ is not a point"),
  });
  expect(readPoints("0, 22; 1, 2, 3", "in", "straight")).toMatchObject({ why: expect.stringContaining("1, 2, 3") });
  expect(readPoints("0, 22; one, 2", "in", "straight")).toHaveProperty("why");
});
