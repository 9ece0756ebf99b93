import { describe, expect, test } from "vitest";
import type { Layout, Plan } from "../../../core/model/plan.ts";
import { verifyPlan } from "../../../core/verifying/verifyPlan.ts";
import {
  type Document,
  type Draft,
  drafted,
  elevationE,
  rulesBroken,
  rulesBrokenBy,
  seamOfE,
  smallJob,
  TICK,
} from "./support.ts";

const wide = { films: [{ id: "f", rollWidths: [110], pricePerArea: 0.01, lay: "two-way" }] };

/** Panels of an elevation parted upright at one place, and their seam. */
const parted = (id: string, at: number): { panels: Document[]; seam: Document } => ({
  panels: [
    { id: `${id}/1`, elevation: id, window: [-1, -1, at + 0.5, 21] },
    { id: `${id}/2`, elevation: id, window: [at - 0.5, -1, 101, 21] },
  ],
  seam: seamOfE({ id: `${id}:1`, elevation: id, at, between: [`${id}/1`, `${id}/2`], top: `${id}/1` }),
});

const draftOf = (sides: readonly ReturnType<typeof parted>[], differences?: Document[]): Draft => ({
  panels: sides.flatMap(({ panels }) => panels) as Draft["panels"],
  seams: sides.map(({ seam }) => seam),
  applyOrder: sides.flatMap(({ panels }) => [panels[1]?.id, panels[0]?.id]),
  ...(differences === undefined ? {} : { parts: { differences } }),
});

describe("a side that follows another", () => {
  const job = smallJob([elevationE(), { id: "F", film: "f", mirrorOf: "E", mirror: "follow" }], wide);
  const difference = (at: number | null, more: Document = {}): Document => ({
    elevation: "F",
    follows: "E",
    section: "whole",
    axis: at === null ? null : "x",
    at,
    says: "lettering is in the way",
    ...more,
  });

  test("repeats it: nothing is different", () => {
    expect(rulesBrokenBy(job, draftOf([parted("E", 40), parted("F", 60)]))).toEqual([]);
    expect(rulesBrokenBy(job, draftOf([parted("E", 40), parted("F", 60)], []))).toEqual([]);
    expect(rulesBrokenBy(job, draftOf([parted("E", 40), parted("F", 60)], [difference(60)]))).toEqual([
      "differencesListed",
    ]);
  });
  test("has its seam elsewhere, be it by a tick: the place missed and the place taken are listed, each once", () => {
    const moved = [parted("E", 40), parted("F", 60 + TICK)];
    const both = [difference(60), difference(60 + TICK)];
    expect(rulesBrokenBy(job, draftOf(moved, both))).toEqual([]);
    for (const listed of [[], both.slice(1), both.slice(0, 1), [...both, difference(60)], [...both, difference(40)]]) {
      expect(rulesBrokenBy(job, draftOf(moved, listed))).toEqual(["differencesListed"]);
    }
  });
  test.each([
    ["another side", { follows: "F" }],
    ["another section", { section: "upper" }],
    ["another axis", { axis: "y" }],
    ["an elevation that follows none", { elevation: "E" }],
    ["an elevation that is not there", { elevation: "none" }],
    ["nothing said", { says: " " }],
  ])("a difference of %s is none", (_, more) => {
    const moved = [parted("E", 40), parted("F", 70)];
    expect(rulesBrokenBy(job, draftOf(moved, [difference(60), difference(70)]))).toEqual([]);
    expect(rulesBrokenBy(job, draftOf(moved, [difference(60), difference(70, more)]))).toEqual(["differencesListed"]);
  });
  test("is split the other way: the section as a whole, and every seam", () => {
    const lying = {
      panels: [
        { id: "F/1", elevation: "F", direction: "horizontal", window: [-1, -1, 101, 10.5] },
        { id: "F/2", elevation: "F", direction: "horizontal", window: [-1, 9.5, 101, 21] },
      ],
      seam: seamOfE({ id: "F:1", elevation: "F", axis: "y", at: 10, to: 100, between: ["F/1", "F/2"], top: "F/2" }),
    };
    const draft = (listed: Document[]): Draft => ({
      ...draftOf([parted("E", 40), lying], listed),
      applyOrder: ["E/2", "E/1", "F/1", "F/2"],
    });
    const all = [difference(null), difference(60), difference(10, { axis: "y" })];
    expect(rulesBrokenBy(job, draft(all))).toEqual([]);
    expect(rulesBrokenBy(job, draft(all.slice(1)))).toEqual(["differencesListed"]);
  });
  test("has windows of its own, and what repeats it repeats those", () => {
    const chain = smallJob(
      [elevationE(), { id: "F", film: "f", mirrorOf: "E", mirror: "follow" }, { id: "G", film: "f", mirrorOf: "F" }],
      wide,
    );
    const listed = [difference(60), difference(70)];
    expect(rulesBrokenBy(chain, draftOf([parted("E", 40), parted("F", 70), parted("G", 30)], listed))).toEqual([]);
    expect(rulesBrokenBy(chain, draftOf([parted("E", 40), parted("F", 70), parted("G", 40)], listed))).toEqual([
      "mirrorsExact",
    ]);
  });
  test("a fill on the left stands on the right there", () => {
    const films = [...wide.films, { id: "g", rollWidths: [60], pricePerArea: 0.01, lay: "any" }];
    const filled = smallJob(
      [
        elevationE({ fill: [{ edge: "left", maxDepth: 10, film: "g" }], sections: [] }),
        { id: "F", film: "f", mirrorOf: "E", mirror: "follow" },
      ],
      { films },
    );
    // The fill is 10 deep and lies along the edge, parted at 8 on E, on F at 8 too or at 12.
    const side = (id: string, edge: "left" | "right", at: number): { panels: Document[]; seams: Document[] } => {
      const fill = `fill-${edge}`;
      const [low, high] = edge === "left" ? [fill, "whole"] : ["whole", fill];
      const border = edge === "left" ? 10 : 90;
      const across = edge === "left" ? [-1, 10.5] : [89.5, 101];
      const rest = edge === "left" ? [9.5, 101] : [-1, 90.5];
      const strip = { elevation: id, section: fill, direction: "horizontal", film: "g" };
      return {
        panels: [
          { id: `${id}/a`, ...strip, window: [across[0], -1, across[1], at + 0.5] },
          { id: `${id}/b`, ...strip, window: [across[0], at - 0.5, across[1], 21] },
          { id: `${id}/c`, elevation: id, direction: "horizontal", window: [rest[0], -1, rest[1], 21] },
        ],
        seams: [
          seamOfE({
            id: `${id}:1`,
            elevation: id,
            section: fill,
            axis: "y",
            at,
            from: edge === "left" ? 0 : 90,
            to: edge === "left" ? 10 : 100,
            between: [`${id}/a`, `${id}/b`],
            top: `${id}/b`,
          }),
          seamOfE({
            id: `${id}|`,
            elevation: id,
            section: null,
            border: true,
            at: border,
            between: [low, high],
            top: "whole",
          }),
        ],
      };
    };
    const draft = (at: number, differences: Document[]): Draft => {
      const sides = [side("E", "left", 8), side("F", "right", at)];
      return {
        panels: sides.flatMap(({ panels }) => panels) as Draft["panels"],
        seams: sides.flatMap(({ seams }) => seams),
        parts: { differences },
      };
    };
    expect(rulesBrokenBy(filled, draft(8, []))).toEqual([]);
    const listed = [8, 12].map((at) => difference(at, { section: "fill-right", axis: "y" }));
    expect(rulesBrokenBy(filled, draft(12, listed))).toEqual([]);
    expect(rulesBrokenBy(filled, draft(12, []))).toEqual(["differencesListed"]);
  });
});

describe("sections that a layout has found", () => {
  const breaks = [{ id: "belt", axis: "y", at: 10, from: 0, to: 100, type: "moulding", width: 0 }];
  const job = (more: Document = {}) => smallJob([elevationE({ breaks, findSections: true, ...more })], wide);
  const section = (id: string, box: number[], more: Document = {}): Document => ({
    elevation: "E",
    id,
    box,
    direction: "horizontal",
    why: "a moulding hides the seam",
    ...more,
  });
  const lower = section("low", [0, 0, 100, 10]);
  const upper = section("high", [0, 10, 100, 20]);
  const draft = (sections: Document[], at = 10, more: Partial<Draft> = {}): Draft => ({
    panels: [
      { id: "E/1", section: "low", direction: "horizontal", window: [-1, -1, 101, at + 2] },
      { id: "E/2", section: "high", direction: "horizontal", window: [-1, at - 2, 101, 21] },
    ],
    seams: [
      seamOfE({
        section: null,
        border: true,
        axis: "y",
        at,
        to: 100,
        kind: "break",
        overlap: 4,
        finishedOverlap: 0,
        between: ["low", "high"],
        top: "high",
      }),
    ],
    parts: { sections },
    ...more,
  });

  test("take the place of those given, along the moulding", () => {
    expect(rulesBrokenBy(job(), draft([lower, upper]))).toEqual([]);
  });
  test("only where they are asked for", () => {
    expect(rulesBrokenBy(job({ findSections: false }), draft([lower, upper]))).toEqual(["foundSections"]);
  });
  test("a tick beside the moulding there is nothing to part along", () => {
    const at = 10 + TICK;
    const beside = [section("low", [0, 0, 100, at]), section("high", [0, at, 100, 20])];
    const open = draft(beside, at);
    const asOpen = {
      ...open,
      seams: open.seams?.map((seam) => ({ ...seam, kind: "open", finishedOverlap: 4 })) ?? [],
    };
    expect(rulesBrokenBy(job(), asOpen)).toEqual(["foundSections"]);
    const colourEdges = [{ id: "stripe", axis: "y", at, from: 0, to: 30 }];
    expect(rulesBrokenBy(job({ colourEdges }), asOpen)).toEqual([]);
    expect(rulesBrokenBy(job({ colourEdges: [{ ...colourEdges[0], axis: "x" }] }), asOpen)).toEqual(["foundSections"]);
  });
  test.each([
    ["that leave a hole", [lower]],
    ["that overlap", [section("low", [0, 0, 100, 10]), section("high", [0, 0, 100, 20])]],
    ["of one id", [lower, { ...upper, id: "low" }]],
    ["with the name of a fill", [lower, { ...upper, id: "fill-high" }]],
    ["with a mark in their name", [lower, { ...upper, id: "a|b" }]],
    ["of an elevation that is not there", [lower, upper, { ...lower, elevation: "Z" }]],
    ["without a reason", [lower, { ...upper, why: " " }]],
  ])("sections %s are told", (_, sections) => {
    expect(rulesBrokenBy(job(), draft(sections))).toContain("foundSections");
  });
  test("panels run as the section found says, whatever was given", () => {
    const given = [{ id: "whole", box: [0, 0, 100, 20], direction: "vertical" }];
    expect(rulesBrokenBy(job({ sections: given }), draft([lower, upper]))).toEqual([]);
    expect(rulesBrokenBy(job(), draft([lower, { ...upper, direction: "vertical" }]))).toEqual(["panelShape"]);
  });
  test("the least width allowed in a section given below binds", () => {
    // The window above is 21 - 8 = 13 across; the given sections meet at 60.
    const given = (maxAcross: number) => [
      { id: "front", box: [0, 0, 60, 20], direction: "either", maxAcross },
      { id: "back", box: [60, 0, 100, 20], direction: "either" },
    ];
    expect(rulesBrokenBy(job({ sections: given(13) }), draft([lower, upper]))).toEqual([]);
    expect(rulesBrokenBy(job({ sections: given(13 - TICK) }), draft([lower, upper]))).toEqual(["panelShape"]);
  });
  test("a mirror and a follower have them reflected", () => {
    const lines = [{ id: "door", axis: "x", at: 40, from: 0, to: 20 }];
    const pair = (mirror: string) =>
      smallJob(
        [elevationE({ breaks: lines, findSections: true }), { id: "M", film: "f", mirrorOf: "E", mirror }],
        wide,
      );
    const side = (id: string, at: number): { panels: Document[]; seam: Document; sections: Document[] } => ({
      panels: [
        { id: `${id}/1`, elevation: id, section: id === "E" ? "a" : "b", window: [-1, -1, at + 2, 21] },
        { id: `${id}/2`, elevation: id, section: id === "E" ? "b" : "a", window: [at - 2, -1, 101, 21] },
      ],
      seam: seamOfE({
        id: `${id}|`,
        elevation: id,
        section: null,
        border: true,
        at,
        kind: "break",
        overlap: 4,
        finishedOverlap: 0,
        between: id === "E" ? ["a", "b"] : ["b", "a"],
        top: id === "E" ? "a" : "b",
      }),
      sections: [
        section(id === "E" ? "a" : "b", [0, 0, at, 20], { elevation: id, direction: "vertical" }),
        section(id === "E" ? "b" : "a", [at, 0, 100, 20], { elevation: id, direction: "vertical" }),
      ],
    });
    const both = (sections: (own: Document[], mirrored: Document[]) => Document[]): Draft => {
      const [own, mirrored] = [side("E", 40), side("M", 60)];
      return {
        panels: [...own.panels, ...mirrored.panels] as Draft["panels"],
        seams: [own.seam, mirrored.seam],
        applyOrder: ["E/2", "E/1", "M/2", "M/1"],
        parts: { sections: sections(own.sections, mirrored.sections) },
      };
    };
    for (const mirror of ["exact", "follow"]) {
      expect(
        rulesBrokenBy(
          pair(mirror),
          both((own, mirrored) => [...own, ...mirrored]),
        ),
      ).toEqual([]);
      expect(
        rulesBrokenBy(
          pair(mirror),
          both((own) => own),
        ),
      ).toContain("foundSections");
      const turned = both((own, mirrored) => [...own, { ...mirrored[0], direction: "horizontal" }, mirrored[1]]);
      expect(rulesBrokenBy(pair(mirror), turned)).toContain("foundSections");
    }
  });

  test("a bound holds for layouts in the same sections alone, given or found", () => {
    const { instance, plan } = drafted(job(), draft([lower, upper]));
    const layout = plan.layouts[0] as Layout;
    const cheap = { ...layout, id: "cheap" };
    const { cost } = layout.totals;
    // Another layout claims a bound above what the first costs.
    const bound = { cost: cost.total + 1, filmArea: 0, gapPercent: 0, proven: false, by: "" };
    const claiming = (change: Partial<Layout>): string[] => {
      const bold = { ...layout, id: "bold", bound, ...change } as Layout;
      const both: Plan = { ...plan, layouts: [cheap, bold], frontier: ["cheap"], chosen: "cheap" };
      return rulesBroken(verifyPlan(instance, both).filter(({ rule }) => rule === "boundsAcrossLayouts"));
    };
    expect(claiming({})).toEqual(["boundsAcrossLayouts"]);
    const { sections: _, ...given } = layout;
    expect(claiming({ ...given, sections: [] })).toEqual([]);
    const [first, second] = layout.sections ?? [];
    expect(claiming({ sections: [second, first] as NonNullable<Layout["sections"]> })).toEqual(["boundsAcrossLayouts"]);
    // Its panels could not lie in sections of the other direction.
    const upright = layout.sections?.map((one) => ({ ...one, direction: "vertical" as const })) ?? [];
    expect(claiming({ sections: upright })).toEqual([]);
  });
});
