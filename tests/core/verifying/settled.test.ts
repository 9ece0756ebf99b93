import { describe, expect, test } from "vitest";
import type { Plan } from "../../../core/model/plan.ts";
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

/** Rules that a draft breaks once pieces are turned on the roll, by panel id. */
function brokenWhenTurned(job: Document, draft: Draft, turns: Readonly<Record<string, 0 | 180>>): string[] {
  const { instance, plan } = drafted(job, draft);
  const turned: Plan = {
    ...plan,
    layouts: plan.layouts.map((layout) => ({
      ...layout,
      rolls: layout.rolls.map((load) => ({
        ...load,
        cuts: load.cuts.map((cut) => ({
          ...cut,
          pieces: cut.pieces.map((piece) => ({ ...piece, turn: turns[piece.id] ?? piece.turn })),
        })),
      })),
    })),
  };
  return rulesBroken(verifyPlan(instance, turned));
}

/** Three upright panels that meet at 30 and 60. */
const thirds: Draft = {
  panels: [
    { id: "E/1", window: [-1, -1, 30.5, 21] },
    { id: "E/2", window: [29.5, -1, 60.5, 21] },
    { id: "E/3", window: [59.5, -1, 101, 21] },
  ],
  seams: [seamOfE({ at: 30 }), seamOfE({ id: "t", at: 60, between: ["E/2", "E/3"], top: "E/2" })],
  applyOrder: ["E/3", "E/2", "E/1"],
};

describe("heads", () => {
  test("alternate: the even panels stand on their heads against the odd ones, whichever way those lie", () => {
    const job = smallJob([elevationE({ heads: "alternate" })]);
    expect(brokenWhenTurned(job, thirds, { "E/2": 180 })).toEqual([]);
    expect(brokenWhenTurned(job, thirds, { "E/1": 180, "E/3": 180 })).toEqual([]);
    expect(brokenWhenTurned(job, thirds, {})).toEqual(["piecesTurned"]);
    expect(brokenWhenTurned(job, thirds, { "E/2": 180, "E/3": 180 })).toEqual(["piecesTurned"]);
  });
  test("a section says it for itself, and alike is the default", () => {
    const own = (heads: string) => [{ id: "whole", box: [0, 0, 100, 20], direction: "either", heads }];
    const job = (heads: string) => smallJob([elevationE({ heads: "alternate", sections: own(heads) })]);
    expect(brokenWhenTurned(job("same"), thirds, {})).toEqual([]);
    expect(brokenWhenTurned(job("same"), thirds, { "E/2": 180 })).toEqual(["piecesTurned"]);
    expect(brokenWhenTurned(smallJob([elevationE()]), thirds, { "E/2": 180 })).toEqual(["piecesTurned"]);
  });
});

describe("lots held together", () => {
  const pair = [
    { id: "E", film: "f", count: 2, outline: rectangle(0, 0, 10, 20) },
    { id: "M", film: "f", count: 2, outline: rectangle(0, 0, 10, 20) },
  ];
  const stock = ["P", "Q"].map((id) => ({ id, film: "f", lot: `lot ${id}`, kind: "roll", width: 60, length: 100 }));
  const job = (oneLot: string, sameLot: Document[]) => smallJob(pair, { stock, sameLot, rules: { oneLot } });
  // Each roll holds two panels: id and copy.
  const draft = (onP: [string, number][], onQ: [string, number][]): Draft => ({
    panels: [
      { id: "E/1", window: [-1, -1, 11, 21] },
      { id: "M/1", elevation: "M", window: [-1, -1, 11, 21] },
    ],
    rolls: [
      { id: "p", stock: "P", pieces: onP },
      { id: "q", stock: "Q", pieces: onQ },
    ].map(({ id, stock: entry, pieces }) => ({
      id,
      stock: entry,
      film: "f",
      lot: `lot ${entry}`,
      width: 60,
      used: 37,
      cuts: [
        {
          start: 10,
          length: 22,
          pieces: pieces.map(([panel, copy], i) => ({
            id: panel,
            copy,
            x: 13 * i,
            y: 0,
            across: 12,
            along: 22,
            turn: 0,
          })),
        },
      ],
    })),
  });
  const together = draft(
    [
      ["E/1", 1],
      ["M/1", 1],
    ],
    [
      ["E/1", 2],
      ["M/1", 2],
    ],
  );
  const crossed = draft(
    [
      ["E/1", 1],
      ["M/1", 2],
    ],
    [
      ["E/1", 2],
      ["M/1", 1],
    ],
  );
  const held = [{ id: "pair", elevations: ["E", "M"] }];
  test("copy by copy, beside any rule for all", () => {
    for (const oneLot of ["none", "elevation"]) {
      expect(rulesBrokenBy(job(oneLot, held), together)).toEqual([]);
      expect(rulesBrokenBy(job(oneLot, held), crossed)).toEqual(["oneLot"]);
      expect(rulesBrokenBy(job(oneLot, []), crossed)).toEqual([]);
    }
  });
});

describe("holds", () => {
  const holding = (hold: Document, more: Document = {}) =>
    smallJob([elevationE({ holds: [{ id: "h", ...hold }], ...more })]);
  const halves = halvesOfE(0.5);
  const lying: Draft = {
    panels: [
      { id: "E/1", direction: "horizontal", window: [-1, -1, 101, 10.5] },
      { id: "E/2", direction: "horizontal", window: [-1, 9.5, 101, 21] },
    ],
    seams: [seamOfE({ axis: "y", at: 10, to: 100, top: "E/2" })],
  };
  test("a seam lies exactly where it is held", () => {
    const at = (place: number, axis = "x") => holding({ kind: "seam", axis, at: place });
    expect(rulesBrokenBy(at(50), halves)).toEqual([]);
    expect(rulesBrokenBy(at(50 + TICK), halves)).toEqual(["holdsKept"]);
    expect(rulesBrokenBy(at(50), lying)).toEqual(["holdsKept"]);
    expect(rulesBrokenBy(at(10, "y"), lying)).toEqual([]);
    // At the end of the section there is nothing to split.
    expect(rulesBrokenBy(at(100), halves)).toEqual(["holdsKept"]);
  });
  test("a seam held where nothing is needed is kept nowhere", () => {
    const openings = [{ id: "door", outline: rectangle(40, -1, 60, 21) }];
    const apart: Draft = {
      panels: [
        { id: "E/1", window: [-1, -1, 41, 21] },
        { id: "E/2", window: [59, -1, 101, 21] },
      ],
    };
    expect(rulesBrokenBy(holding({ kind: "seam", axis: "x", at: 50 }, { openings }), apart)).toEqual(["holdsKept"]);
    // At the door's post film is needed on one side, and no seam lies there.
    expect(rulesBrokenBy(holding({ kind: "seam", axis: "x", at: 40 }, { openings }), apart)).toEqual(["holdsKept"]);
    expect(rulesBrokenBy(holding({ kind: "noSeam", axis: "x", from: 0, to: 100 }, { openings }), apart)).toEqual([]);
  });
  test("no seam lies in a stretch kept free, both its ends included", () => {
    const free = (from: number, to: number) => holding({ kind: "noSeam", axis: "x", from, to });
    expect(rulesBrokenBy(free(50 + TICK, 60), halves)).toEqual([]);
    expect(rulesBrokenBy(free(40, 50 - TICK), halves)).toEqual([]);
    expect(rulesBrokenBy(free(50, 60), halves)).toEqual(["holdsKept"]);
    expect(rulesBrokenBy(free(40, 50), halves)).toEqual(["holdsKept"]);
    expect(rulesBrokenBy(free(0, 100), lying)).toEqual([]);
  });
  test("a panel keeps its width, the one that begins at the place held", () => {
    // E/1 is 51.5 across and stands for 0 to 50, E/2 is 51.5 too; moved, E/2 starts at 40 and is 61.5.
    const width = (at: number, across: number) => holding({ kind: "width", axis: "x", at, width: across });
    const wide = { films: [{ id: "f", rollWidths: [70], pricePerArea: 0.01 }] };
    const shifted: Draft = {
      panels: [
        { id: "E/1", window: [-1, -1, 40.5, 21] },
        { id: "E/2", window: [39.5, -1, 101, 21] },
      ],
      seams: [seamOfE({ at: 40 })],
      applyOrder: ["E/2", "E/1"],
    };
    const onWide = (job: Document) => ({ ...job, ...wide });
    expect(rulesBrokenBy(onWide(width(30, 41.5)), shifted)).toEqual([]);
    expect(rulesBrokenBy(onWide(width(30, 41.5 + TICK)), shifted)).toEqual(["holdsKept"]);
    expect(rulesBrokenBy(onWide(width(40 - TICK, 41.5)), shifted)).toEqual([]);
    expect(rulesBrokenBy(onWide(width(40, 61.5)), shifted)).toEqual([]);
    expect(rulesBrokenBy(onWide(width(40, 41.5)), shifted)).toEqual(["holdsKept"]);
    expect(rulesBrokenBy(width(30, 51.5), lying)).toEqual(["holdsKept"]);
  });
  test("panels run the way held", () => {
    const way = (direction: string) => holding({ kind: "direction", direction });
    expect(rulesBrokenBy(way("vertical"), halves)).toEqual([]);
    expect(rulesBrokenBy(way("horizontal"), halves)).toEqual(["holdsKept"]);
    expect(rulesBrokenBy(way("horizontal"), lying)).toEqual([]);
  });

  const sections = [
    { id: "lower", box: [0, 0, 40, 10], direction: "either" },
    { id: "upper", box: [0, 10, 40, 20], direction: "either" },
  ];
  const stacked = (hold: Document) => holding(hold, { outline: rectangle(0, 0, 40, 20), sections });
  const border = seamOfE({
    id: "b",
    section: null,
    border: true,
    axis: "y",
    at: 10,
    to: 40,
    between: ["lower", "upper"],
    top: "upper",
  });
  // The upper section is split at 20, the lower one is not.
  const upperSplit: Draft = {
    panels: [
      { id: "E/l", section: "lower", direction: "horizontal", window: [-1, -1, 41, 10.5] },
      { id: "E/1", section: "upper", window: [-1, 9.5, 20.5, 21] },
      { id: "E/2", section: "upper", window: [19.5, 9.5, 41, 21] },
    ],
    seams: [seamOfE({ section: "upper", at: 20, from: 10 }), border],
    applyOrder: ["E/l", "E/2", "E/1"],
  };
  test("for one section or for all of them", () => {
    const seam = (section: string | null) => stacked({ kind: "seam", axis: "x", at: 20, section });
    expect(rulesBrokenBy(seam("upper"), upperSplit)).toEqual([]);
    expect(rulesBrokenBy(seam("lower"), upperSplit)).toEqual(["holdsKept"]);
    expect(rulesBrokenBy(seam(null), upperSplit)).toEqual(["holdsKept"]);
    const free = (section: string | null) => stacked({ kind: "noSeam", axis: "x", from: 20, to: 20, section });
    expect(rulesBrokenBy(free("lower"), upperSplit)).toEqual([]);
    expect(rulesBrokenBy(free(null), upperSplit)).toEqual(["holdsKept"]);
    const way = (section: string | null) => stacked({ kind: "direction", direction: "vertical", section });
    expect(rulesBrokenBy(way("upper"), upperSplit)).toEqual([]);
    expect(rulesBrokenBy(way(null), upperSplit)).toEqual(["holdsKept"]);
  });
  test("a border keeps a seam held for all sections, and is one where none may be", () => {
    expect(rulesBrokenBy(stacked({ kind: "seam", axis: "y", at: 10 }), upperSplit)).toEqual([]);
    expect(rulesBrokenBy(stacked({ kind: "seam", axis: "y", at: 10, section: "lower" }), upperSplit)).toEqual([
      "holdsKept",
    ]);
    const free = { kind: "noSeam", axis: "y", from: 10, to: 12 };
    expect(rulesBrokenBy(stacked(free), upperSplit)).toEqual(["holdsKept"]);
    expect(rulesBrokenBy(stacked({ ...free, section: "upper" }), upperSplit)).toEqual([]);
    expect(rulesBrokenBy(stacked({ ...free, from: 10 + TICK }), upperSplit)).toEqual([]);
  });
  test("what repeats another keeps its holds reflected, what follows only its own", () => {
    const both = (mirror: string) =>
      smallJob(
        [
          elevationE({ holds: [{ id: "h", kind: "seam", axis: "x", at: 40 }] }),
          { id: "M", film: "f", mirrorOf: "E", mirror },
        ],
        { films: [{ id: "f", rollWidths: [70], pricePerArea: 0.01 }] },
      );
    const draft = (place: number, parts: Document): Draft => ({
      panels: [
        { id: "E/1", window: [-1, -1, 40.5, 21] },
        { id: "E/2", window: [39.5, -1, 101, 21] },
        { id: "M/1", elevation: "M", window: [-1, -1, place + 0.5, 21] },
        { id: "M/2", elevation: "M", window: [place - 0.5, -1, 101, 21] },
      ],
      seams: [
        seamOfE({ at: 40 }),
        seamOfE({ id: "m", elevation: "M", at: place, between: ["M/1", "M/2"], top: "M/1" }),
      ],
      applyOrder: ["E/2", "E/1", "M/2", "M/1"],
      parts,
    });
    expect(rulesBrokenBy(both("exact"), draft(60, {}))).toEqual([]);
    expect(rulesBrokenBy(both("exact"), draft(62, {}))).toEqual(["holdsKept", "mirrorsExact"]);
    const differences = [60, 62].map((at) => ({
      elevation: "M",
      follows: "E",
      section: "whole",
      axis: "x",
      at,
      says: "elsewhere",
    }));
    expect(rulesBrokenBy(both("follow"), draft(62, { differences }))).toEqual([]);
  });
});
