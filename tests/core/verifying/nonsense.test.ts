import fc from "fast-check";
import { expect, test } from "vitest";
import type { Layout, Plan } from "../../../core/model/plan.ts";
import { readPlan } from "../../../core/model/planDocument.ts";
import { verifyLayout, verifyPlan } from "../../../core/verifying/verifyPlan.ts";
import { boothJob, boothPlan, type Document, instanceOf, planOf, rectangle, rulesBroken, smallJob } from "./support.ts";

const instance = instanceOf(boothJob());
const empty = instanceOf(smallJob([], { films: [] }));

test("an empty layout is told what it lacks", () => {
  const plan = boothPlan();
  Object.assign(plan.layouts[0], { panels: [], seams: [], rolls: [], printOrder: [], applyOrder: [] });
  const broken = rulesBroken(verifyPlan(instance, planOf(plan)));
  expect(broken).toEqual(expect.arrayContaining(["bordersListed", "piecesOnce", "totalsAgree", "windowsReachAcross"]));
});

test("a plan of another job is told so", () => {
  expect(rulesBroken(verifyPlan(empty, planOf(boothPlan())))).toEqual(
    expect.arrayContaining(["idsResolve", "planHead"]),
  );
});

test("words that no rule knows are breaches", () => {
  const plan = planOf(boothPlan());
  const layout = plan.layouts[0] as Layout;
  const odd = (change: object): string[] => rulesBroken(verifyLayout(instance, { ...layout, ...change } as Layout));
  expect(odd({ nesting: "spiral" })).toEqual(["wordsKnown"]);
  const seams = layout.seams.map((seam, i) => (i === 1 ? { ...seam, kind: "stitched" } : seam));
  expect(odd({ seams })).toEqual(expect.arrayContaining(["seamKinds", "wordsKnown"]));
  const films = instance.films.map((film) => ({ ...film, lay: "sideways" }));
  const broken = verifyLayout({ ...instance, films } as unknown as typeof instance, layout);
  expect(rulesBroken(broken)).toEqual(expect.arrayContaining(["piecesTurned", "wordsKnown"]));
  const rules = { ...instance.rules, oneLot: "street" };
  expect(rulesBroken(verifyLayout({ ...instance, rules } as unknown as typeof instance, layout))).toContain(
    "wordsKnown",
  );
});

test("two of one id are told", () => {
  const twice = (list: "panels" | "seams" | "rolls"): string[] => {
    const plan = boothPlan();
    const entries = plan.layouts[0][list];
    entries[1].id = entries[0].id;
    return rulesBroken(verifyPlan(instance, planOf(plan)));
  };
  for (const list of ["panels", "seams", "rolls"] as const) expect(twice(list)).toContain("idsResolve");
});

test("a panel and a loose piece of one id are told", () => {
  const job = boothJob();
  job.pieces[0].id = "flag";
  const plan = boothPlan();
  const text = JSON.stringify(plan).replaceAll('"D/1"', '"flag"');
  expect(rulesBroken(verifyPlan(instance, planOf(JSON.parse(text))))).toContain("idsResolve");
});

/** Several places of a plan and what is put there: numbers for numbers, texts for texts, lists emptied. */
const nonsense = fc.array(
  fc.record({
    where: fc.nat(),
    number: fc.oneof(fc.constantFrom(0, -1, 1, 90, 1e6, -1e6), fc.integer({ min: -50, max: 50 })),
    text: fc.constantFrom(
      "",
      "A/1",
      "D/fill",
      "whole",
      "fill-left",
      "fill-bottom",
      "C",
      "D",
      "f",
      "g",
      "S1",
      "r1:1",
      "tight",
    ),
  }),
  { minLength: 1, maxLength: 12 },
);

const instead = (old: unknown, number: number, text: string): unknown => {
  if (typeof old === "number") return number;
  if (typeof old === "string") return text;
  return typeof old === "boolean" ? !old : Array.isArray(old) && old.length !== 2 && old.length !== 4 ? [] : old;
};

function places(value: Document, place: (string | number)[] = []): (string | number)[][] {
  if (typeof value !== "object" || value === null) return [place];
  const inner = Object.keys(value).flatMap((key) => places(value[key], [...place, key]));
  return place.length === 0 ? inner : [place, ...inner];
}

test("nothing that a plan file can hold stops the verifier,", () => {
  let judged = 0;
  fc.assert(
    fc.property(nonsense, (changes) => {
      const plan = boothPlan();
      for (const { where, number, text } of changes) {
        const all = places(plan);
        const place = all[where % all.length] ?? [];
        const holder = place.slice(0, -1).reduce((inner: Document, key) => inner[key], plan);
        const last = place[place.length - 1] as string;
        holder[last] = instead(holder[last], number, text);
      }
      const reading = readPlan(plan);
      if (reading.plan === null) return;
      judged++;
      expect(Array.isArray(verifyPlan(instance, reading.plan))).toBe(true);
      expect(Array.isArray(verifyPlan(empty, reading.plan))).toBe(true);
    }),
    { seed: 20261125, numRuns: 400 },
  );
  expect(judged).toBeGreaterThan(100);
});

test("sizes turned inside out are told", () => {
  const plan = planOf(boothPlan());
  const insideOut = (layout: Layout): Layout => ({
    ...layout,
    panels: layout.panels.map((panel) => ({
      ...panel,
      window: { x0: panel.window.x1, y0: panel.window.y1, x1: panel.window.x0, y1: panel.window.y0 },
      across: -panel.across,
      along: -panel.along,
    })),
  });
  const broken = rulesBroken(verifyPlan(instance, { ...plan, layouts: plan.layouts.map(insideOut) } as Plan));
  expect(broken).toEqual(expect.arrayContaining(["panelShape", "piecesTurned"]));
});

test("thousands of pieces on one spot do not keep it for long", () => {
  const job = smallJob([{ id: "E", film: "f", count: 3000, outline: rectangle(0, 0, 10, 20) }], {
    films: [{ id: "f", rollWidths: [60], pricePerArea: 0.01 }],
  });
  const plan = boothPlan();
  const [layout] = plan.layouts;
  const pieces = Array.from({ length: 3000 }, (_, i) => ({
    id: "E/1",
    copy: i + 1,
    x: 0,
    y: 0,
    across: 12,
    along: 22,
    turn: 0,
  }));
  Object.assign(layout, {
    panels: [
      {
        id: "E/1",
        elevation: "E",
        section: "whole",
        role: "panel",
        film: "f",
        direction: "vertical",
        window: [-1, -1, 11, 21],
        across: 12,
        along: 22,
      },
    ],
    seams: [],
    rolls: [
      { id: "r", stock: null, film: "f", lot: null, width: 60, used: 37, cuts: [{ start: 10, length: 22, pieces }] },
    ],
    printOrder: ["r:1"],
    applyOrder: [{ panel: "E/1", why: "alone" }],
  });
  plan.layouts = [layout];
  const violations = verifyPlan(instanceOf(job), planOf(plan));
  expect(violations.filter(({ rule }) => rule === "piecesApart")).toHaveLength(100);
});
