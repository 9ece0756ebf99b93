import { describe, expect, test } from "vitest";
import type { Load, Panel, Seam } from "../../../core/model/plan.ts";
import { cutLengths } from "../../../core/rolls/cutLengths.ts";
import { layOnRolls } from "../../../core/rolls/layOnRolls.ts";
import { applyOrder } from "../../../core/sequencing/applyOrder.ts";
import { printOrder } from "../../../core/sequencing/printOrder.ts";
import { elevation, film, job, panel, roll, rules, run } from "../rolls/jobs.ts";

const seam = (over: Partial<Seam>): Seam => ({
  id: "s",
  elevation: "a",
  section: "whole",
  axis: "x",
  at: 0,
  from: 0,
  to: 80,
  kind: "open",
  overlap: 2,
  finishedOverlap: 2,
  between: ["a/whole/1", "a/whole/2"],
  top: "a/whole/1",
  border: false,
  ...over,
});

const window = (base: Panel, x0: number, y0: number, x1: number, y1: number): Panel => ({
  ...base,
  window: { x0, y0, x1, y1 },
});

describe("apply order", () => {
  const three = [1, 2, 3].map((n) => window(panel("a", n, 42, 80), n * 40, 0, n * 40 + 42, 80));
  const laps = (left: boolean) =>
    [1, 2].map((n) =>
      seam({ at: n * 40 + 41, between: [`a/whole/${n}`, `a/whole/${n + 1}`], top: `a/whole/${left ? n : n + 1}` }),
    );
  const ids = (steps: readonly { panel: string }[]) => steps.map((step) => step.panel);

  test("goes from the rear to the front, each panel before the one that laps over it", () => {
    const front = (travel: "left" | "right") => job({ elevations: [elevation("a", 1, { travel })] });
    expect(ids(applyOrder(front("left"), three, laps(true)))).toEqual(["a/whole/3", "a/whole/2", "a/whole/1"]);
    expect(ids(applyOrder(front("right"), three, laps(false)))).toEqual(["a/whole/1", "a/whole/2", "a/whole/3"]);
  });

  test("gives a reason with the neighbour and the overlap", () => {
    // Windows share 2 ticks across each seam; a unit of 25 nm is written in mm as 0.
    const instance = job({ unit: "in", elevations: [elevation("a")] });
    const inch = 1_016_000;
    const wide = [0, 1].map((n) =>
      window(panel("a", n + 1, 42 * inch, 80), n * 40 * inch, 0, (n * 40 + 41.5) * inch, 80 * inch),
    );
    const open = applyOrder(instance, wide, [seam({ at: 40.75 * inch })]);
    expect(open.map(({ why }) => why)).toEqual([
      "Lies under a/whole/1, which laps over it by 1 1/2 in",
      "Laps over a/whole/2",
    ]);
    const trimmed = applyOrder(instance, wide, [seam({ at: 110.5 * inch, kind: "break" })]);
    expect(trimmed[0]?.why).toBe(
      "Lies under a/whole/1, which laps over it by 1 1/2 in until both are trimmed in the gap at 110 1/2 in",
    );
  });

  test("at a border only windows that overlap wait for one another", () => {
    const lower = (n: number) => ({
      ...window(panel("a", n, 42, 41), n * 40, 0, n * 40 + 41, 41),
      section: "lower",
      id: `a/lower/${n}`,
    });
    const upper = { ...window(panel("a", 1, 42, 41), 40, 39, 81, 80), section: "upper", id: "a/upper/1" };
    const border = seam({ section: null, border: true, axis: "y", at: 40, between: ["lower", "upper"], top: "upper" });
    const instance = job({ elevations: [elevation("a", 1, { travel: "right" })] });
    const steps = applyOrder(instance, [upper, lower(1), lower(3)], [border]);
    expect(ids(steps)).toEqual(["a/lower/1", "a/lower/3", "a/upper/1"]);
    expect(steps.map(({ why }) => why)[1]).toBe("Laps no other panel");
    expect(steps.map(({ why }) => why)[2]).toBe("Laps over a/lower/1");
  });

  test("a fill lies under the panels and is applied first, at the top edge too", () => {
    const body = window(panel("a", 1, 40, 70), 0, 0, 40, 71);
    const fill: Panel = {
      ...window(panel("a", 1, 40, 12), 0, 69, 40, 80),
      id: "a/fill-top/1",
      section: "fill-top",
      role: "fill",
    };
    const border = seam({
      section: null,
      border: true,
      axis: "y",
      at: 70,
      between: ["whole", "fill-top"],
      top: "whole",
    });
    expect(ids(applyOrder(job({ elevations: [elevation("a")] }), [body, fill], [border]))).toEqual([
      "a/fill-top/1",
      "a/whole/1",
    ]);
  });

  test("a circle of laps is an error that names the panels", () => {
    const seams = [...laps(true), seam({ between: ["a/whole/1", "a/whole/2"], top: "a/whole/2" })];
    expect(() => applyOrder(job({ elevations: [elevation("a")] }), three, seams)).toThrow(
      /circle: a\/whole\/1, a\/whole\/2/,
    );
  });

  test("every panel of every elevation comes once", () => {
    const instance = job({ elevations: [elevation("a", 5), elevation("b")] });
    const panels = [...three, panel("b", 1, 10, 10)];
    expect(ids(applyOrder(instance, panels, laps(true))).sort()).toEqual(panels.map(({ id }) => id).sort());
  });
});

describe("print order", () => {
  test("names every cut once, ascending in a load, films and lots together", () => {
    const load = (id: string, over: Partial<Load>, cuts: readonly string[]): Load => ({
      id,
      stock: null,
      film: "cast",
      lot: null,
      width: 50,
      used: 0,
      cuts: cuts.map((of) => ({
        start: 0,
        length: 80,
        pieces: [{ id: of, copy: 1, x: 0, y: 0, across: 40, along: 80, turn: 0 }],
      })),
      ...over,
    });
    const instance = job({ elevations: [elevation("a"), elevation("b")], films: [film(), film({ id: "matt" })] });
    const panels = [panel("a", 1, 40, 80), panel("a", 2, 40, 80), panel("b", 1, 40, 80)];
    const rolls = [
      load("1", { film: "matt" }, ["loose"]),
      load("2", { lot: "B", stock: "R2" }, ["b/whole/1", "b/whole/1"]),
      load("3", { lot: "A", stock: "R1" }, ["a/whole/1"]),
      load("4", { lot: "B", stock: "R3" }, ["b/whole/1"]),
      load("5", { lot: "A", stock: "R4" }, ["a/whole/2", "a/whole/2"]),
    ];
    expect(printOrder(instance, panels, rolls)).toEqual(["3:1", "5:1", "5:2", "2:1", "2:2", "4:1", "1:1"]);
  });

  test("follows the numbers of the loads as they are laid", () => {
    const instance = job({
      elevations: [elevation("a", 3), elevation("b", 2)],
      films: [film({ newRolls: 0 })],
      stock: [roll("R1", 200, { lot: "A" }), roll("R2", 400, { lot: "B" }), roll("R3", 300, { lot: "A" })],
    });
    const panels = [panel("a", 1, 40, 80), panel("b", 1, 40, 60)];
    const laid = layOnRolls(instance, panels, 50, run());
    if ("reasons" in laid) throw new Error("not laid");
    expect(printOrder(instance, panels, laid.rolls)).toEqual(
      laid.rolls.flatMap(({ id, cuts }) => cuts.map((_, i) => `${id}:${i + 1}`)),
    );
  });
});

test("cut lengths: leader, gaps between cuts, trailer", () => {
  // 10, then 30 long; 10 + 30 + 1 = 41, 20 long; ends at 61, with the trailer 66.
  expect(cutLengths(rules, [30, 20])).toEqual({ starts: [10, 41], used: 66 });
  expect(cutLengths(rules, [30])).toEqual({ starts: [10], used: 45 });
});
