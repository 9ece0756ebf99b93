import { describe, expect, test } from "vitest";
import type { Load, Panel, Seam } from "../../../core/model/plan.ts";
import { cutLengths } from "../../../core/rolls/cutLengths.ts";
import { layOnRolls } from "../../../core/rolls/layOnRolls.ts";
import { applyOrder } from "../../../core/sequencing/applyOrder.ts";
import { fittingSteps } from "../../../core/sequencing/fittingSteps.ts";
import { circleProblem, type Sequence } from "../../../core/sequencing/lapOrder.ts";
import { printOrder } from "../../../core/sequencing/printOrder.ts";
import { elevation, film, job, loose, panel, roll, rules, run } from "../rolls/jobs.ts";

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

/** The steps of an order that a test expects to exist. */
const stepsOf = <Step>(sequence: Sequence<Step>): readonly Step[] => {
  if ("circle" in sequence) throw new Error(`circle: ${sequence.circle.join(", ")}`);
  return sequence.steps;
};

describe("apply order", () => {
  const three = [1, 2, 3].map((n) => window(panel("a", n, 42, 80), n * 40, 0, n * 40 + 42, 80));
  const laps = (left: boolean) =>
    [1, 2].map((n) =>
      seam({ at: n * 40 + 41, between: [`a/whole/${n}`, `a/whole/${n + 1}`], top: `a/whole/${left ? n : n + 1}` }),
    );
  const ids = (steps: readonly { panel: string }[]) => steps.map((step) => step.panel);

  test("goes from the rear to the front, each panel before the one that laps over it", () => {
    const front = (travel: "left" | "right") => job({ elevations: [elevation("a", 1, { travel })] });
    expect(ids(stepsOf(applyOrder(front("left"), three, laps(true))))).toEqual(["a/whole/3", "a/whole/2", "a/whole/1"]);
    expect(ids(stepsOf(applyOrder(front("right"), three, laps(false))))).toEqual([
      "a/whole/1",
      "a/whole/2",
      "a/whole/3",
    ]);
  });

  test("gives a reason with the neighbour and the overlap", () => {
    // Windows share 2 ticks across each seam; a unit of 25 nm is written in mm as 0.
    const instance = job({ unit: "in", elevations: [elevation("a")] });
    const inch = 1_016_000;
    const wide = [0, 1].map((n) =>
      window(panel("a", n + 1, 42 * inch, 80), n * 40 * inch, 0, (n * 40 + 41.5) * inch, 80 * inch),
    );
    const open = stepsOf(applyOrder(instance, wide, [seam({ at: 40.75 * inch })]));
    expect(open.map(({ why }) => why)).toEqual([
      "Lies under a/whole/1, which laps over it by 1 1/2 in",
      "Laps over a/whole/2",
    ]);
    const trimmed = stepsOf(applyOrder(instance, wide, [seam({ at: 110.5 * inch, kind: "break" })]));
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
    const steps = stepsOf(applyOrder(instance, [upper, lower(1), lower(3)], [border]));
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
    expect(ids(stepsOf(applyOrder(job({ elevations: [elevation("a")] }), [body, fill], [border])))).toEqual([
      "a/fill-top/1",
      "a/whole/1",
    ]);
  });

  test("a circle of laps is no order: it is told as data, each panel lying under the next", () => {
    const seams = [...laps(true), seam({ between: ["a/whole/1", "a/whole/2"], top: "a/whole/2" })];
    const instance = job({ elevations: [elevation("a")] });
    const found = applyOrder(instance, three, seams);
    expect(found).toEqual({ circle: ["a/whole/2", "a/whole/1"] });
    expect(fittingSteps(instance, three, seams)).toEqual(found);
    expect(circleProblem(instance.elevations, ["a/whole/1", "a/whole/2"])).toMatchObject({
      path: "elevations[0].sections",
      why: expect.stringContaining("a/whole/1, a/whole/2"),
    });
  });

  test("a panel caught behind a circle is not called part of it", () => {
    // 3 lies under 2, which lies under 1 and over it; only 1 and 2 form the circle, whichever is asked first.
    const seams = [
      seam({ between: ["a/whole/1", "a/whole/2"], top: "a/whole/1" }),
      seam({ between: ["a/whole/1", "a/whole/2"], top: "a/whole/2" }),
      seam({ between: ["a/whole/2", "a/whole/3"], top: "a/whole/3" }),
    ];
    const [one, two, last] = three as [Panel, Panel, Panel];
    const found = applyOrder(job({ elevations: [elevation("a")] }), [last, one, two], seams);
    expect("circle" in found && [...found.circle].sort()).toEqual(["a/whole/1", "a/whole/2"]);
  });

  test("the panel that must be straight goes first among those free, and never before what it lies over", () => {
    const zone = {
      id: "name",
      label: "COUNTY",
      box: { x0: 41, y0: 10, x1: 70, y1: 20 },
      rule: "never",
      reason: "lettering",
    } as const;
    const straight = job({ elevations: [elevation("a", 1, { keepClear: [zone], straight: "name" })] });
    // Without it the rightmost is first; panel 1, from 40 to 82, holds 29 of the zone, panel 2 none.
    expect(ids(stepsOf(applyOrder(straight, three, [])))).toEqual(["a/whole/1", "a/whole/3", "a/whole/2"]);
    expect(ids(stepsOf(applyOrder(straight, three, laps(true))))).toEqual(["a/whole/3", "a/whole/2", "a/whole/1"]);
  });

  test("every panel of every elevation comes once", () => {
    const instance = job({ elevations: [elevation("a", 5), elevation("b")] });
    const panels = [...three, panel("b", 1, 10, 10)];
    expect(ids(stepsOf(applyOrder(instance, panels, laps(true)))).sort()).toEqual(panels.map(({ id }) => id).sort());
  });
});

describe("fitting steps", () => {
  const inch = 1_016_000;
  const two = [0, 1].map((n) =>
    window(panel("a", n + 1, 42 * inch, 80 * inch), n * 40 * inch, 0, (n * 40 + 42) * inch, 80 * inch),
  );
  const at = 41 * inch;
  const gap = { id: "door", axis: "x", at, from: 0, to: 80 * inch, type: "gap", width: 0, mustSplit: false } as const;
  const items = (steps: readonly { item: string }[]) => steps.map(({ item }) => item);

  test("a lap that is trimmed in a gap frees the order and says so; another binds it", () => {
    const zone = {
      id: "name",
      label: "COUNTY",
      box: { x0: 2, y0: 2, x1: 9, y1: 9 },
      rule: "never",
      reason: "lettering",
    } as const;
    const instance = job({
      unit: "in",
      elevations: [elevation("a", 1, { keepClear: [zone], straight: "name", breaks: [gap] })],
    });
    const lapped = stepsOf(fittingSteps(instance, two, [seam({ at, to: 80 * inch })]));
    expect(items(lapped)).toEqual(["a/whole/2", "a/whole/1"]);
    expect(lapped.map(({ why }) => why)).toEqual([
      "Lies under a/whole/1, which laps over it by 2 in",
      'Carries "COUNTY", which must be straight, so it goes on as early as laps allow; laps over a/whole/2',
    ]);
    const trimmed = stepsOf(fittingSteps(instance, two, [seam({ at, to: 80 * inch, kind: "break" })]));
    expect(items(trimmed)).toEqual(["a/whole/1", "a/whole/2"]);
    expect(trimmed[1]?.why).toBe("Trimmed in the gap at 41 in, so either side may go first");
    const moulding = job({ unit: "in", elevations: [elevation("a", 1, { breaks: [{ ...gap, type: "moulding" }] })] });
    const ended = stepsOf(fittingSteps(moulding, two, [seam({ at, to: 80 * inch, kind: "break" })]));
    expect(ended[1]?.why).toBe("Trimmed at the moulding at 41 in, so either side may go first");
  });

  test("a circle that a break parts is none", () => {
    const seams = [seam({ at }), seam({ at, top: "a/whole/2", kind: "break" })];
    expect("circle" in applyOrder(job({ elevations: [elevation("a")] }), two, seams)).toBe(true);
    expect(items(stepsOf(fittingSteps(job({ elevations: [elevation("a")] }), two, seams)))).toEqual([
      "a/whole/2",
      "a/whole/1",
    ]);
  });

  test("windows that only touch bind no order", () => {
    const butted = two.map((one, n) => window(one, n * 41 * inch, 0, (n + 1) * 41 * inch, 80 * inch));
    const instance = job({ elevations: [elevation("a", 1, { travel: "right" })] });
    // The lap would have panel 2 go first; with travel to the right the left panel is the rearmost.
    const steps = stepsOf(fittingSteps(instance, butted, [seam({ at, overlap: 0 })]));
    expect(items(steps)).toEqual(["a/whole/1", "a/whole/2"]);
    expect(steps.map(({ why }) => why)).toEqual(["Laps no other panel", "Laps no other panel"]);
  });

  test("inlays and what lies beneath before the panels, overlays after them, others not at all", () => {
    const piece = (id: string, over: Parameters<typeof loose>[4]) => loose(id, 5, 5, 1, over);
    const instance = job({
      unit: "in",
      elevations: [elevation("a"), elevation("b")],
      pieces: [
        piece("badge", { role: "overlay", elevation: "a", at: { x: 60 * inch, y: inch } }),
        piece("channel", { role: "inlay", elevation: "a", at: { x: inch, y: inch } }),
        piece("backing", { role: "decal", elevation: "a", layer: -1 }),
        piece("flag", { role: "decal", elevation: "a" }),
        piece("elsewhere", { role: "overlay", elevation: null }),
        piece("other", { role: "overlay", elevation: "b" }),
      ],
    });
    const steps = stepsOf(fittingSteps(instance, two, [seam({ at })]));
    expect(steps.map(({ elevation: on, item, role }) => [on, item, role])).toEqual([
      ["a", "channel", "inlay"],
      ["a", "backing", "decal"],
      ["a", "a/whole/2", "panel"],
      ["a", "a/whole/1", "panel"],
      ["a", "badge", "overlay"],
      ["a", "flag", "decal"],
      ["b", "other", "overlay"],
    ]);
    expect(steps.map(({ why }) => why)).toEqual([
      "Goes into its recess under a/whole/1, so it goes on before the panels",
      "Lies under the panels, so it goes on before the panels",
      "Lies under a/whole/1, which laps over it by 2 in",
      "Laps over a/whole/2",
      "Lies over a/whole/2, so it goes on after the panels",
      "Lies over the panels, so it goes on after the panels",
      "Lies over the panels, so it goes on after the panels",
    ]);
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
