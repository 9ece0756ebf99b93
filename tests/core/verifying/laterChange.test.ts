import { describe, expect, test } from "vitest";
import { planToFile } from "../../../core/model/planDocument.ts";
import { verifyPlan } from "../../../core/verifying/verifyPlan.ts";
import { type Allowed, at, changed, leaves, misjudgedBy } from "./changes.ts";
import {
  boothJob,
  boothPlan,
  type Document,
  drafted,
  elevationE,
  instanceOf,
  planOf,
  seamOfE,
  smallJob,
} from "./support.ts";

/** As in everyChange.test.ts, for the parts of a plan that came after its first version: two plans worked out by hand. */

const pathOf = (place: readonly (string | number)[]): string =>
  place.map((key) => (typeof key === "number" ? "#" : key)).join(".");

const freeText = /\.(why|says|name)$/;

/** Every part is listed once: with an entry left out or doubled it is wrong, but for those named. */
function expectListed(judge: (plan: Document) => number, plan: Document, place: (string | number)[], may: boolean) {
  const list: Document[] = at(plan, place);
  expect(list.length).toBeGreaterThan(0);
  list.forEach((entry, i) => {
    const without = list.filter((_, k) => k !== i);
    expect(judge(changed(plan, place, without)) === 0, `${place.join(".")} without ${i}`).toBe(may);
    expect(judge(changed(plan, place, [...list, entry])), `${place.join(".")} with ${i} twice`).toBeGreaterThan(0);
  });
}

describe("slack, measures and steps of the plan worked out by hand", () => {
  const instance = instanceOf(boothJob());
  const plan = fitted();
  const judge = (changedPlan: Document): number => verifyPlan(instance, planOf(changedPlan)).length;
  const allowed: Allowed = (whole, place, value) => {
    const path = pathOf(place);
    if (freeText.test(path) && String(value).trim() !== "") return "a reason or a name is free text";
    const old = at(whole, place);
    const slack = /\.slack(\.[a-z]+)?$/.test(path);
    if (slack && (value as number) >= 0 && (value as number) <= old) return "less may be told than there is";
    return null;
  };
  const misjudged = misjudgedBy(instance, allowed);

  test("it keeps every rule", () => expect(verifyPlan(instance, planOf(plan))).toEqual([]));
  test.each(["slack", "dimensions", "fitting"])("every change of %s", (part) => {
    const own = leaves(plan).filter(({ place }) => place.includes(part));
    expect(own.length).toBeGreaterThan(30);
    expect(own.flatMap(({ place, value }) => misjudged(plan, place, value))).toEqual([]);
  });
  test("lists", () => {
    expectListed(judge, plan, ["layouts", 0, "fitting"], false);
    expectListed(judge, plan, ["layouts", 0, "dimensions"], true);
  });
});

describe("sections found, differences, weighed seams and shortfalls of a second one", () => {
  const { job, draft } = parted();
  const { instance, plan: read } = drafted(job, draft);
  const plan: Document = planToFile(read);
  const judge = (changedPlan: Document): number => verifyPlan(instance, planOf(changedPlan)).length;
  const allowed: Allowed = (_, place, value) => {
    const path = pathOf(place);
    if (freeText.test(path) && String(value).trim() !== "") return "a reason is free text";
    if (path === "shortfalls.#.elevation" && value === "F") return "the other side is the same and falls short alike";
    if (path === "shortfalls.#.choices.#.way" && value === "otherDirection" && place[3] === 0) {
      return "the section may be split either way, and on the same roll";
    }
    const planned = /^shortfalls\.#\.choices\.#\.(panels|seamLength|filmArea|wastePercent|cost)$/.exec(path)?.[1];
    if (planned === undefined) return null;
    const least = planned === "panels" ? 1 : planned === "wastePercent" ? -Infinity : 0;
    const most = planned === "wastePercent" ? 100 : Infinity;
    return (value as number) >= least && (value as number) <= most ? "what a way comes to was planned apart" : null;
  };
  const misjudged = misjudgedBy(instance, allowed);

  test("it keeps every rule", () => expect(verifyPlan(instance, read)).toEqual([]));
  test.each([
    ["sections", 20],
    ["differences", 10],
    ["shortfalls", 10],
    ["weightedSeamLength", 1],
  ])("every change of %s", (part, least) => {
    const own = leaves(plan).filter(({ place }) => place.includes(part));
    expect(own.length).toBeGreaterThanOrEqual(least);
    expect(own.flatMap(({ place, value }) => misjudged(plan, place, value))).toEqual([]);
  });
  test("lists", () => {
    expectListed(judge, plan, ["layouts", 0, "sections"], false);
    expectListed(judge, plan, ["layouts", 0, "differences"], false);
    expectListed(judge, plan, ["shortfalls"], true);
  });
});

/**
 * The first layout of the booth with what its fitters need. Bleed 1; overlap 1 of which 0.25 stays, so that a panel may
 * leave its neighbour by 0.75; 4 at the gap of A (25) and of B (45), so by 3.75 there.
 */
function fitted(): Document {
  const plan = boothPlan();
  const layout = plan.layouts.find(({ id }: Document) => id === "tight");
  const slacks: Readonly<Record<string, readonly number[]>> = {
    // left, right, down, up
    "A/1": [3.75, 1, 1, 1],
    "A/2": [0.75, 3.75, 1, 1],
    "A/3": [1, 0.75, 1, 1],
    "B/1": [0.75, 1, 1, 1],
    "B/2": [3.75, 0.75, 1, 1],
    "B/3": [1, 3.75, 1, 1],
    "C/lower": [1, 1, 0.75, 1],
    "C/upper": [1, 1, 1, 0.75],
    "D/1": [1, 1, 1, 0.75],
    "D/fill": [1, 1, 0.75, 1],
  };
  for (const panel of layout.panels) {
    const [left, right, down, up] = slacks[panel.id] ?? [];
    panel.slack = { left, right, down, up };
  }
  // Across a gap without breadth 1 + 2; over an open seam 2 + 0.75 + 1; at a border 1 + 0.5 - 0.125; else twice the bleed.
  const measures: readonly (readonly [string, string, number, number, number])[] = [
    ["A", "x", 0, 25, 3],
    ["A", "x", 25, 70, 3.75],
    ["A", "y", 0, 20, 2],
    ["B", "x", 0, 45, 3.75],
    ["B", "x", 45, 70, 3],
    ["B", "y", 0, 20, 2],
    ["C", "y", 0, 10, 1.375],
    ["C", "x", 0, 40, 2],
    ["C", "y", 10, 20, 1.375],
    ["C", "x", 0, 40, 2],
    ["D", "y", 5, 30, 1.375],
    ["D", "x", 0, 40, 2],
    ["D", "y", 0, 5, 1.375],
    ["D", "x", 0, 40, 2],
  ];
  layout.dimensions = measures.map(([elevation, axis, from, to, slack]) => ({
    elevation,
    name: "end to end",
    axis,
    from,
    to,
    slack,
  }));
  layout.fitting = layout.applyOrder.map(({ panel }: Document) => {
    const { elevation, role } = layout.panels.find(({ id }: Document) => id === panel);
    return { elevation, item: panel, role, why: "its turn" };
  });
  return { ...plan, layouts: [layout], frontier: ["tight"], chosen: "tight" };
}

/** Two sides parted along a moulding at 10; the second follows the first and has one upright seam elsewhere. */
function parted() {
  const breaks = [{ id: "belt", axis: "y", at: 10, from: 0, to: 100, type: "moulding" }];
  const films = [
    { id: "f", rollWidths: [70, 90], pricePerArea: 0.01, lay: "two-way" },
    { id: "g", rollWidths: [20], pricePerArea: 0.02, lay: "any" },
  ];
  const job = smallJob(
    [elevationE({ breaks, findSections: true }), { id: "F", film: "f", mirrorOf: "E", mirror: "follow" }],
    { films, rules: { heightZones: [{ from: 0, to: 12, weight: 2 }] } },
  );
  // Above the moulding each side is split in two upright, E at 40 and F at 68 where 60 would be the same.
  const side = (id: string, at: number) => ({
    panels: [
      { id: `${id}/low`, elevation: id, section: "low", direction: "horizontal" as const, window: [-1, -1, 101, 12] },
      { id: `${id}/1`, elevation: id, section: "high", window: [-1, 8, at + 0.5, 21] },
      { id: `${id}/2`, elevation: id, section: "high", window: [at - 0.5, 8, 101, 21] },
    ],
    seams: [
      seamOfE({
        id: `${id}:1`,
        elevation: id,
        section: "high",
        at,
        from: 10,
        between: [`${id}/1`, `${id}/2`],
        top: `${id}/1`,
      }),
      seamOfE({
        id: `${id}|`,
        elevation: id,
        section: null,
        border: true,
        axis: "y",
        at: 10,
        to: 100,
        kind: "break",
        overlap: 4,
        finishedOverlap: 0,
        between: ["low", "high"],
        top: "high",
      }),
    ],
    order: [`${id}/low`, `${id}/2`, `${id}/1`],
    sections: [
      { elevation: id, id: "low", box: [0, 0, 100, 10], direction: "horizontal", why: "below the moulding" },
      { elevation: id, id: "high", box: [0, 10, 100, 20], direction: "vertical", why: "above the moulding" },
    ],
  });
  const sides = [side("E", 40), side("F", 68)];
  const choice = { says: "so", panels: 2, seamLength: 20, filmArea: 5000, wastePercent: 40, cost: 100 };
  // Upright panels of the section as given are 102 across in all: one of 70 leaves 32 bare.
  return {
    job,
    draft: {
      panels: sides.flatMap(({ panels }) => panels),
      seams: sides.flatMap(({ seams }) => seams),
      applyOrder: sides.flatMap(({ order }) => order),
      parts: {
        sections: sides.flatMap(({ sections }) => sections),
        differences: [60, 68].map((at) => ({
          elevation: "F",
          follows: "E",
          section: "high",
          axis: "x",
          at,
          says: "elsewhere",
        })),
      },
      planParts: {
        shortfalls: [
          {
            elevation: "E",
            section: "whole",
            rollWidth: 70,
            direction: "vertical",
            panels: 1,
            short: 32,
            choices: [
              { way: "onePanelMore", film: null, rollWidth: 70, ...choice },
              { way: "widerRoll", film: null, rollWidth: 90, ...choice },
              { way: "fillOtherFilm", film: "g", rollWidth: 70, ...choice },
            ],
          },
        ],
      },
    } as Document,
  };
}
