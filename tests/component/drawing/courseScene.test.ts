import { expect, test } from "vitest";
import { type CourseStep, courseScene, courseSentence } from "../../../renderer/drawing/courseScene.ts";

const step = (seconds: number, cost: number, bound: number): CourseStep => ({
  seconds,
  cost,
  bound,
  gapPercent: (100 * (cost - bound)) / cost,
  proven: cost === bound,
});
const three = [step(1, 1200, 900), step(2, 1100, 950), step(4, 1000, 980)];
const drawn = (steps: readonly CourseStep[], seconds = 9, width = 800) =>
  courseScene({ steps, seconds, currency: "USD" }, width, 132, true);

/** Heights that a path of level and upright lines passes through, in order. */
const heights = (path: string): number[] => [...path.matchAll(/(?:^M[\d.]+ |V)([\d.]+)/g)].map(([, y]) => Number(y));
const places = (path: string): number[] => [...path.matchAll(/(?:^M|H)([\d.]+)/g)].map(([, x]) => Number(x));

test("cost goes down the page and the ground up, never meeting while something could be saved", () => {
  const { costPath, groundLine, end } = drawn(three);
  const [costs, grounds] = [heights(costPath), heights(groundLine)];
  expect(costs).toHaveLength(3);
  expect(costs).toEqual([...costs].sort((a, b) => a - b));
  expect(grounds).toEqual([...grounds].sort((a, b) => b - a));
  expect(end.cost).toBeLessThan(end.ground);
  // 1200 at the top and 900 at the foot: 1000 lies a third up, the bound of 980 at 80 of 300.
  const [high, low] = [costs[0] ?? 0, grounds[0] ?? 0];
  expect(costs[2]).toBeCloseTo(low - (low - high) / 3, 1);
  expect(grounds[2]).toBeCloseTo(low - (80 / 300) * (low - high), 1);
});

test("time runs by its root, and the axis ends at the next round time", () => {
  const { costPath, ticks, plot } = drawn(three, 9);
  const [one, two, four, now] = places(costPath).map((x) => x - plot.x);
  expect((two ?? 0) / (one ?? 0)).toBeCloseTo(Math.SQRT2, 2);
  expect((four ?? 0) / (one ?? 0)).toBeCloseTo(2, 2);
  expect((now ?? 0) / (one ?? 0)).toBeCloseTo(3, 2);
  expect(ticks.at(-1)).toEqual({ x: plot.x + plot.width, text: "9 s" });
  expect(ticks[0]).toEqual({ x: plot.x, text: "0 s" });
  expect(drawn(three, 9.5).ticks.at(-1)?.text).toBe("10 s");
  expect(drawn(three, 100).ticks.at(-1)?.text).toBe("2 min");
});

test("marks of time stand apart", () => {
  for (const seconds of [0.3, 1, 2.5, 7, 33, 170, 3599]) {
    for (const width of [300, 520, 960]) {
      const xs = drawn([step(0.1, 10, 5)], seconds, width).ticks.map(({ x }) => x);
      for (const [place, x] of xs.slice(1).entries()) expect(x - (xs[place] ?? 0)).toBeGreaterThanOrEqual(44);
    }
  }
});

test("words stand beside what they tell of and never run into each other", () => {
  for (const gap of [0.1, 1, 20, 400]) {
    const words = drawn([step(1, 1200, 1000 - gap), step(2, 1000, 1000 - gap)]).words;
    expect(words.map(({ part }) => part)).toEqual(["cost", "gap", "bound"]);
    const ys = words.map(({ y }) => y);
    for (const [place, y] of ys.slice(1).entries()) expect(y - (ys[place] ?? 0)).toBeGreaterThanOrEqual(16 - 1e-9);
  }
  expect(drawn(three).words.map(({ text }) => text)).toEqual([
    "$1,000.00 best found",
    "at most 2.0 % could be saved",
    "$980.00 at the least",
  ]);
  expect(drawn(three, 9, 400).words.map(({ text }) => text)).toEqual(["$1,000.00", "≤ 2.0 %", "$980.00"]);
});

test("arrow ends point outward from between where there is room, and inward from outside where there is not", () => {
  const wide = drawn([step(1, 1000, 500)]).gapArrows;
  const close = drawn([step(1, 1200, 990), step(2, 1000, 990)]).gapArrows;
  expect(wide).toMatch(/^M[\d. ]+l-2\.4 6h/);
  expect(close).toMatch(/^M[\d. ]+l-2\.4 -6h/);
});

test("where nothing is left there is no dimension, and it says proven once", () => {
  const { gapLine, words, groundLine, costPath } = drawn([step(1, 1000, 1000)]);
  expect(gapLine).toBe("");
  expect(words.map(({ text }) => text)).toEqual(["$1,000.00 best found", "proven least cost"]);
  expect(heights(groundLine)).toEqual(heights(costPath));
});

test("before a first layout there is an empty plot of the same size", () => {
  const none = drawn([], 0.2);
  expect([none.width, none.height]).toEqual([drawn(three).width, drawn(three).height]);
  expect([none.costPath, none.ground, none.gapLine, none.words.length]).toEqual(["", "", "", 0]);
});

test("the small form has lines alone", () => {
  const small = courseScene({ steps: three, seconds: 5, currency: "USD" }, 136, 30, false);
  expect([small.ticks, small.words, small.first, small.gapLine]).toEqual([[], [], null, ""]);
  for (const y of [...heights(small.costPath), ...heights(small.groundLine)]) {
    expect(y).toBeGreaterThanOrEqual(0);
    expect(y).toBeLessThanOrEqual(30);
  }
});

test("it is said in a sentence", () => {
  expect(courseSentence({ steps: three, seconds: 5, currency: "USD" })).toBe(
    "Cost of the best layout: $1,200.00 after 1.0 s, $1,000.00 after 4.0 s; bound $980.00: at most 2.0 % could be saved",
  );
  expect(courseSentence({ steps: [], seconds: 5, currency: "USD" })).toBe("No layout yet");
});
