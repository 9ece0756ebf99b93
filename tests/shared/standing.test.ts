import { expect, test } from "vitest";
import { gapFigure, type Standing, withStanding } from "../../shared/standing.ts";

const at = (seconds: number, cost: number): Standing => ({
  seconds,
  cost,
  bound: 50,
  gapPercent: (100 * (cost - 50)) / cost,
  proven: false,
  by: "area",
});

test("what only repeats the last entry is no news; another cost, bound or name is", () => {
  const history = [at(1, 100)];
  expect(withStanding(history, at(2, 100))).toBe(history);
  expect(withStanding(history, at(2, 90))).toHaveLength(2);
  expect(withStanding(history, { ...at(2, 100), bound: 60 })).toHaveLength(2);
  expect(withStanding(history, { ...at(2, 100), by: "patterns" })).toHaveLength(2);
});

test("a long history is thinned, its first and last kept and its order with it", () => {
  let history: readonly Standing[] = [];
  for (let n = 0; n < 5000; n++) {
    history = withStanding(history, at(n, 10_000 - n));
    expect(history.length).toBeLessThanOrEqual(200);
    expect(history.at(-1)).toEqual(at(n, 10_000 - n));
  }
  expect(history[0]).toEqual(at(0, 10_000));
  const seconds = history.map((entry) => entry.seconds);
  expect(seconds).toEqual([...seconds].sort((a, b) => a - b));
  expect(history.length).toBeGreaterThan(100);
});

test("a gap is told rounded up: what is the most that could be saved is never told as less", () => {
  expect(gapFigure(0.51)).toBe("0.6");
  expect(gapFigure(0.5)).toBe("0.5");
  expect(gapFigure(0.5 + 1e-9)).toBe("0.5");
  expect(gapFigure(0)).toBe("0.0");
  expect(gapFigure(31.59)).toBe("31.6");
});
