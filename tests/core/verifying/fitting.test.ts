import { describe, expect, test } from "vitest";
import type { Instance, Rules } from "../../../core/model/instance.ts";
import type { Layout, Plan } from "../../../core/model/plan.ts";
import { verifyPlan } from "../../../core/verifying/verifyPlan.ts";
import {
  type Document,
  type Draft,
  drafted,
  elevationE,
  halvesOfE,
  rectangle,
  rulesBroken,
  rulesBrokenBy,
  seamOfE,
  smallJob,
  TICK,
} from "./support.ts";

const films = [{ id: "f", rollWidths: [110], pricePerArea: 0.01, lay: "two-way" }];
const halves = halvesOfE(0.5);

type Shifts = readonly [left: number, right: number, down: number, up: number];

/** The draft with the slack of some panels stated. */
const stating = (draft: Draft, slacks: Readonly<Record<string, Shifts>>): Draft => ({
  ...draft,
  panels: draft.panels.map((panel) => {
    const slack = slacks[panel.id];
    if (slack === undefined) return panel;
    const [left, right, down, up] = slack;
    return { ...panel, slack: { left, right, down, up } };
  }),
});

/** Each shift passes as it stands, and a tick more of any of them is too much. */
function expectMost(job: Document, draft: Draft, id: string, shifts: Shifts): void {
  expect(rulesBrokenBy(job, stating(draft, { [id]: shifts }))).toEqual([]);
  shifts.forEach((_, i) => {
    const more = shifts.map((shift, k) => (k === i ? shift + TICK : shift)) as unknown as Shifts;
    expect(rulesBrokenBy(job, stating(draft, { [id]: more })), `${id}, shift ${i}`).toEqual(["slackTrue"]);
  });
}

describe("how far a panel may be shifted", () => {
  test("as far as its bleed, and toward where the other laps until a quarter stays of it", () => {
    // Overlap 1, of which 0.25 stays at a seam: 0.75 away from the neighbour; 1 of bleed on the three other sides.
    const job = smallJob([elevationE()]);
    expectMost(job, halves, "E/1", [0.75, 1, 1, 1]);
    expectMost(job, halves, "E/2", [1, 0.75, 1, 1]);
    expect(rulesBrokenBy(job, stating(halves, { "E/1": [0, 0.5, 0, 0] }))).toEqual([]);
    expect(rulesBrokenBy(job, stating(halves, { "E/1": [0, -TICK, 0, 0] }))).toEqual(["panelShape"]);
  });
  test("in a gap too, whatever is trimmed there", () => {
    const job = smallJob([elevationE({ breaks: [{ id: "door", axis: "x", at: 50, from: 0, to: 20 }] })]);
    expectMost(job, halvesOfE(2, { kind: "break", finishedOverlap: 0 }), "E/1", [3.75, 1, 1, 1]);
  });
  test("film that meets edge to edge not at all away from its neighbour", () => {
    const job = smallJob([elevationE()], { films: [{ ...films[0], joint: "butted" }] });
    expectMost({ ...job }, halvesOfE(0), "E/1", [0, 1, 1, 1]);
    // Lapped by 1 all the same, nothing needs to stay of it.
    expectMost(job, halvesOfE(0.5, { finishedOverlap: 0 }), "E/1", [1, 1, 1, 1]);
  });
  test("at most by its own size, where others cover all that it covers", () => {
    const job = smallJob([elevationE()], { films });
    const over: Draft = {
      panels: [
        { id: "E/1", window: [-1, -1, 61, 21] },
        { id: "E/2", window: [40, -1, 60, 21] },
        { id: "E/3", window: [39, -1, 101, 21] },
      ],
      seams: [
        seamOfE({ at: 45, overlap: 20, finishedOverlap: 20 }),
        seamOfE({ id: "t", at: 55, overlap: 20, finishedOverlap: 20, between: ["E/2", "E/3"], top: "E/2" }),
      ],
      applyOrder: ["E/3", "E/2", "E/1"],
    };
    // 20 wide, 22 high. Its neighbours reach 1 past it, so 0.75 more would still lap: its size is what binds.
    expectMost(job, over, "E/2", [20, 20, 22, 22]);
  });
  test("over a slope as far as the highest point that it alone covers", () => {
    // The top falls from 40 to 20 over 100: E/2 alone covers from 50.5 on, where the top stands at 29.9.
    const outline = [
      [0, 0],
      [100, 0],
      [100, 20],
      [0, 40],
    ];
    const job = smallJob([elevationE({ outline, sections: [] })]);
    const draft: Draft = {
      panels: [
        { id: "E/1", window: [-1, -1, 50.5, 41] },
        { id: "E/2", window: [49.5, -1, 101, 31.1] },
      ],
      seams: [seamOfE({ to: 30 })],
      applyOrder: ["E/2", "E/1"],
    };
    expectMost(job, draft, "E/1", [0.75, 1, 1, 1]);
    expectMost(job, draft, "E/2", [1, 0.75, 1.2, 1]);
  });
  test("with an opening in it as far as what is needed beside the opening allows", () => {
    // A window from 10 up, over the whole of E/2 but its last 10.
    const openings = [{ id: "w", outline: rectangle(50, 10, 90, 21) }];
    const job = smallJob([elevationE({ openings })]);
    const draft: Draft = { ...halves, seams: [seamOfE({ to: 20 })] };
    // Shifted right, E/2 bares what lies from 50.5 on below the window: still 1.
    expectMost(job, draft, "E/2", [1, 0.75, 1, 1]);
    // Shifted down, E/1 bares its top at 20.
    expectMost(job, draft, "E/1", [0.75, 1, 1, 1]);
  });
  test("at borders of sections as at seams, every window beyond them counted", () => {
    const sections = [
      { id: "lower", box: [0, 0, 40, 10], direction: "either" },
      { id: "upper", box: [0, 10, 40, 20], direction: "either" },
    ];
    const job = smallJob([elevationE({ outline: rectangle(0, 0, 40, 20), sections })]);
    const draft: Draft = {
      panels: [
        { id: "E/l", section: "lower", direction: "horizontal", window: [-1, -1, 41, 11] },
        { id: "E/1", section: "upper", window: [-1, 9, 20.5, 21] },
        { id: "E/2", section: "upper", window: [19.5, 9.5, 41, 21] },
      ],
      seams: [
        seamOfE({ section: "upper", at: 20, from: 10 }),
        seamOfE({
          id: "b",
          section: null,
          border: true,
          axis: "y",
          at: 10,
          to: 40,
          overlap: 1.5,
          finishedOverlap: 1.5,
          between: ["lower", "upper"],
          top: "upper",
        }),
      ],
      applyOrder: ["E/l", "E/2", "E/1"],
    };
    // E/l shares 2 with E/1 and 1.5 with E/2: down by 1.25 at most for the lap with E/2, up by its bleed of 1.
    expectMost(job, draft, "E/l", [1, 1, 1.25, 1]);
    expectMost(job, draft, "E/1", [0.75, 1, 1, 1.75]);
    expectMost(job, draft, "E/2", [1, 0.75, 1, 1.25]);
  });
  test("the least that the job asks is there, stated or not", () => {
    const asking = (leastSlack: number): string[] => {
      const { instance, plan } = drafted(smallJob([elevationE()]), halves);
      // The rules' own overlap is raised at the door, so that only a plan made for less would fall short.
      const rules: Rules = { ...instance.rules, leastSlack: Math.round(leastSlack / TICK) };
      return rulesBroken(verifyPlan({ ...instance, rules } satisfies Instance, plan));
    };
    expect(asking(0.75)).toEqual([]);
    expect(asking(0.75 + TICK)).toEqual(["leastSlackKept"]);
  });
  test("bleed and overlap as the door raises them leave it", () => {
    // 2 of slack: bleed 2, overlap 0.25 + 2.
    const job = smallJob([elevationE()], { rules: { leastSlack: 2 } });
    const draft: Draft = {
      ...halvesOfE(1.125),
      panels: [
        { id: "E/1", window: [-2, -2, 51.125, 22] },
        { id: "E/2", window: [48.875, -2, 102, 22] },
      ],
    };
    expect(rulesBrokenBy(job, draft)).toEqual([]);
    const unlike = { ...draft, panels: [{ id: "E/1", window: [-2 + TICK, -2, 51.125, 22] as const }, draft.panels[1]] };
    expect(rulesBrokenBy(job, unlike as Draft)).toEqual(["leastSlackKept", "windowsReachAcross"]);
  });
});

describe("measures of the body", () => {
  const measure = (axis: string, from: number, to: number, slack: number, more: Document = {}): Document => ({
    elevation: "E",
    name: "length",
    axis,
    from,
    to,
    slack,
    ...more,
  });
  const told = (draft: Draft, dimensions: Document[]): Draft => ({ ...draft, parts: { dimensions } });

  /** Every measure passes with its slack, less of it too, and neither with a tick more nor a tick elsewhere. */
  function expectMeasures(job: Document, draft: Draft, dimensions: Document[]): void {
    expect(rulesBrokenBy(job, told(draft, dimensions))).toEqual([]);
    dimensions.forEach((own, i) => {
      const instead = (change: Document): string[] =>
        rulesBrokenBy(
          job,
          told(
            draft,
            dimensions.map((one, k) => (k === i ? { ...own, ...change } : one)),
          ),
        );
      expect(instead({ slack: own.slack - 0.1 })).toEqual([]);
      for (const change of [
        { slack: own.slack + TICK },
        { slack: -TICK },
        { from: own.from + TICK },
        { to: own.to - TICK },
        { axis: own.axis === "x" ? "y" : "x" },
        { elevation: "Z" },
        { name: " " },
      ]) {
        expect(instead(change), JSON.stringify({ ...own, ...change })).toEqual(["dimensionsTrue"]);
      }
      expect(rulesBrokenBy(job, told(draft, [...dimensions, own]))).toEqual(["dimensionsTrue"]);
    });
  }

  test("across an open seam: both bleeds and what the seam can give; along the panels twice the bleed", () => {
    // 1 + 1 + (1 - 0.25) = 2.75; 1 + 1.
    expectMeasures(smallJob([elevationE()]), halves, [measure("x", 0, 100, 2.75), measure("y", 0, 20, 2)]);
  });
  test("a gap in the body is a fixed line: film must still reach its far side", () => {
    // 4 shared, 2 on each side of which half of the gap's 2: bleed 1 + 2 - 1 on both sides of it.
    const breaks = [{ id: "door", axis: "x", at: 50, from: 0, to: 20, width: 2 }];
    const draft = halvesOfE(2, { kind: "break", finishedOverlap: 0 });
    expectMeasures(smallJob([elevationE({ breaks })]), draft, [measure("x", 0, 50, 2), measure("x", 50, 100, 2)]);
    expect(rulesBrokenBy(smallJob([elevationE({ breaks })]), told(draft, [measure("x", 0, 100, 2)]))).toEqual([
      "dimensionsTrue",
    ]);
  });
  test("so is a doorway, whose width is no measure of film", () => {
    const openings = [{ id: "door", outline: rectangle(40, -1, 60, 21) }];
    const draft: Draft = {
      panels: [
        { id: "E/1", window: [-1, -1, 41, 21] },
        { id: "E/2", window: [59, -1, 101, 21] },
      ],
    };
    const job = smallJob([elevationE({ openings })], { films });
    expectMeasures(job, draft, [measure("x", 0, 40, 2), measure("x", 60, 100, 2)]);
    expect(rulesBrokenBy(job, told(draft, [measure("x", 40, 60, 0)]))).toEqual(["dimensionsTrue"]);
    // One panel over it: up to the doorway it has all that lies beyond to spare.
    const one: Draft = { panels: [{ id: "E/1", window: [-1, -1, 101, 21] }] };
    expectMeasures(job, one, [measure("x", 0, 40, 62), measure("x", 60, 100, 62), measure("y", 0, 20, 2)]);
  });
  test("at a border of sections half of what must stay of the lap is kept back", () => {
    const sections = [
      { id: "lower", box: [0, 0, 40, 10], direction: "horizontal" },
      { id: "upper", box: [0, 10, 40, 20], direction: "vertical" },
    ];
    const job = smallJob([elevationE({ outline: rectangle(0, 0, 40, 20), sections })]);
    const draft: Draft = {
      panels: [
        { id: "E/l", section: "lower", direction: "horizontal", window: [-1, -1, 41, 11] },
        { id: "E/1", section: "upper", window: [-1, 9.5, 20.5, 21] },
        { id: "E/2", section: "upper", window: [19.5, 9.5, 41, 22] },
      ],
      seams: [
        seamOfE({ section: "upper", at: 20, from: 10 }),
        seamOfE({
          id: "b",
          section: null,
          border: true,
          axis: "y",
          at: 10,
          to: 40,
          overlap: 1.5,
          finishedOverlap: 1.5,
          between: ["lower", "upper"],
          top: "upper",
        }),
      ],
      applyOrder: ["E/l", "E/2", "E/1"],
    };
    // Lower: 1 below, 1 - 0.125 above the border. Upper, along its panels: 0.5 - 0.125 + 1 for the tighter one.
    expectMeasures(job, draft, [measure("y", 0, 10, 1.875), measure("x", 0, 40, 2.75), measure("y", 10, 20, 1.375)]);
    // The lower one is 40 long as well, and bears 2: told twice, each within its own.
    const both = [measure("x", 0, 40, 2), measure("x", 0, 40, 2.75, { name: "upper" })];
    expect(rulesBrokenBy(job, told(draft, both))).toEqual([]);
    expect(rulesBrokenBy(job, told(draft, [measure("x", 0, 40, 2.1), both[1]]))).toEqual(["dimensionsTrue"]);
  });
});

describe("steps at the vehicle", () => {
  const piece = (id: string, role: string, more: Document = {}): Document => ({
    id,
    role,
    film: "f",
    count: 1,
    outline: rectangle(0, 0, 6, 6),
    elevation: "E",
    at: [10, 10],
    ...more,
  });
  const pieces = [
    piece("strip", "inlay"),
    piece("under", "decal", { layer: -1 }),
    piece("patch", "fill"),
    piece("name", "overlay"),
    piece("spare", "decal", { elevation: null, at: null }),
  ];
  const job = (more: Document = {}) => smallJob([elevationE(more)], { pieces });
  const step = (item: string, role: string, more: Document = {}): Document => ({
    elevation: "E",
    item,
    role,
    why: "its turn",
    ...more,
  });
  const steps = [
    step("strip", "inlay"),
    step("under", "decal"),
    step("E/2", "panel"),
    step("patch", "fill"),
    step("E/1", "panel"),
    step("name", "overlay"),
  ];
  const fitted = (fitting: Document[], draft: Draft = halves): Draft => ({ ...draft, parts: { fitting } });
  const swapped = (i: number, k: number): Document[] =>
    steps.map((own, place) => (place === i ? (steps[k] as Document) : place === k ? (steps[i] as Document) : own));

  test("in order, loose pieces of the elevation among them", () => {
    expect(rulesBrokenBy(job(), fitted(steps))).toEqual([]);
    // What lies under the panels goes on in any order, and a loose fill at any time.
    expect(rulesBrokenBy(job(), fitted(swapped(0, 1)))).toEqual([]);
    expect(rulesBrokenBy(job(), fitted(swapped(3, 4)))).toEqual([]);
  });
  test.each([
    ["an inlay after a panel", 0, 2],
    ["a decal under the panels after one of them", 1, 2],
    ["an overlay before a panel", 4, 5],
    ["the panel under after the one over it", 2, 4],
  ])("%s is refused", (_, i, k) => {
    expect(rulesBrokenBy(job(), fitted(swapped(i, k)))).toEqual(["fittingOrder"]);
  });
  test("each once, as what it is, with a reason", () => {
    steps.forEach((own, i) => {
      const others = steps.filter((_, k) => k !== i);
      const instead = (change: Document): string[] =>
        rulesBrokenBy(job(), fitted(steps.map((one, k) => (k === i ? { ...own, ...change } : one))));
      expect(rulesBrokenBy(job(), fitted(others))).toEqual(["fittingOrder"]);
      expect(rulesBrokenBy(job(), fitted([...steps, own]))).toEqual(["fittingOrder"]);
      for (const change of [{ elevation: "Z" }, { why: " " }, { item: "spare" }, { item: "none" }]) {
        expect(instead(change), JSON.stringify({ ...own, ...change })).toEqual(["fittingOrder"]);
      }
      const roles = ["inlay", "panel", "fill", "overlay", "decal"].filter((role) => role !== own.role);
      for (const role of roles) expect(instead({ role })).toEqual(["fittingOrder"]);
    });
  });
  test("a trimmed gap leaves it open which side goes on first; the apply order does not", () => {
    const breaks = [{ id: "door", axis: "x", at: 50, from: 0, to: 20 }];
    const trimmed = halvesOfE(2, { kind: "break", finishedOverlap: 0 });
    expect(rulesBrokenBy(job({ breaks }), fitted(swapped(2, 4), trimmed))).toEqual([]);
    const turned = { ...fitted(steps, trimmed), applyOrder: ["E/1", "E/2"] };
    expect(rulesBrokenBy(job({ breaks }), turned)).toEqual(["applyOrder"]);
  });
  test("a circle of laps has no order, and every order is refused", () => {
    // Three windows that all overlap, each said to lie over the next and the last over the first.
    const wide = smallJob([elevationE()], { films });
    const names = ["E/1", "E/2", "E/3"] as const;
    const round = (order: readonly string[]): string[] => {
      const { instance, plan } = drafted(wide, {
        panels: [
          { id: "E/1", window: [-1, -1, 60, 21] },
          { id: "E/2", window: [30, -1, 70, 21] },
          { id: "E/3", window: [40, -1, 101, 21] },
        ],
        seams: [
          seamOfE({ at: 45, overlap: 30, finishedOverlap: 30 }),
          seamOfE({ id: "t", at: 55, overlap: 30, finishedOverlap: 30, between: ["E/2", "E/3"], top: "E/2" }),
          seamOfE({ id: "u", at: 50, overlap: 20, finishedOverlap: 20, between: ["E/1", "E/3"], top: "E/3" }),
        ],
        applyOrder: order,
        parts: { fitting: order.map((item) => step(item, "panel")) },
      });
      return rulesBroken(verifyPlan(instance, plan));
    };
    for (const a of names) {
      for (const b of names) {
        const order = [a, b, ...names].filter((id, i, all) => all.indexOf(id) === i);
        expect(round(order)).toEqual(expect.arrayContaining(["applyOrder", "fittingOrder", "lapsRight"]));
      }
    }
  });
});

test("what a plan says of slack, measures and steps is read from its file and judged by layout", () => {
  const { instance, plan } = drafted(smallJob([elevationE()]), stating(halves, { "E/1": [0.75, 1, 1, 1] }));
  const layout = plan.layouts[0] as Layout;
  const twice: Plan = {
    ...plan,
    layouts: [layout, { ...layout, id: "second", dimensions: [], fitting: [] }],
    frontier: ["drafted"],
  };
  const told = verifyPlan(instance, twice);
  expect(rulesBroken(told)).toEqual(["fittingOrder"]);
  expect(new Set(told.map(({ at }) => at[0]))).toEqual(new Set(["second"]));
});
