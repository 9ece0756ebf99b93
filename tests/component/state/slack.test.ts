import { expect, test } from "vitest";
import { roomWords, safeWords } from "../../../renderer/state/slack.ts";

test("room to move is rounded down to the tape, never up", () => {
  expect(roomWords(0.375, "in")).toBe("3/8 in");
  // 0.4374 in lies just under 7/16 in (0.4375), so 6/16.
  expect(roomWords(0.4374, "in")).toBe("3/8 in");
  expect(roomWords(0.4375, "in")).toBe("7/16 in");
  expect(roomWords(9.99, "mm")).toBe("9 mm");
});

test("less than the tape shows is not nothing, and nothing is said plainly", () => {
  expect(roomWords(0.05, "in")).toBe("under 1/16 in");
  expect(roomWords(0, "in")).toBe("none");
  expect(roomWords(-1, "mm")).toBe("none");
});

test("how much longer a measure may turn out", () => {
  expect(safeWords(0.375, "in")).toBe("safe to +3/8 in");
  expect(safeWords(0.05, "in")).toBe("under 1/16 in to spare");
  expect(safeWords(0, "in")).toBe("no room at all");
});
