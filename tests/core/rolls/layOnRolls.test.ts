import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { Instance } from "../../../core/model/instance.ts";
import type { Panel } from "../../../core/model/plan.ts";
import { lotGroups } from "../../../core/rolls/batches.ts";
import { layOnRolls } from "../../../core/rolls/layOnRolls.ts";
import { stockInstead } from "../../../core/rolls/stockInstead.ts";
import { supplyOf } from "../../../core/rolls/supply.ts";
import { area, elevation, faults, film, headed, job, loose, panel, roll, rules, run } from "./jobs.ts";

function laid(instance: Instance, panels: readonly Panel[], rollWidth: number | null = 50) {
  const answer = layOnRolls(instance, panels, rollWidth, run());
  if ("reasons" in answer) throw new Error(JSON.stringify(answer.reasons));
  expect(faults(instance, panels, rollWidth, answer.rolls)).toEqual([]);
  return answer;
}

function reasons(instance: Instance, panels: readonly Panel[], rollWidth: number | null = 50) {
  const answer = layOnRolls(instance, panels, rollWidth, run());
  if (!("reasons" in answer)) throw new Error("laid");
  return answer.reasons.map(({ why }) => why);
}

describe("cuts", () => {
  test("panels too wide for each other take a cut each, a gap apart", () => {
    // 10 + 3 x 80 + 2 x 1 + 5 = 257
    const { rolls } = laid(
      job({ elevations: [elevation("a")] }),
      [1, 2, 3].map((n) => panel("a", n, 40, 80)),
    );
    expect(rolls.map(({ used }) => used)).toEqual([257]);
    expect(rolls[0]?.cuts.map(({ start }) => start)).toEqual([10, 91, 172]);
    expect(rolls[0]?.cuts.map(({ pieces }) => pieces[0]?.id)).toEqual(["a/whole/1", "a/whole/2", "a/whole/3"]);
  });

  test("two panels that fill the width with the gap between them share a cut", () => {
    // 30 + 1 + 19 = 50: one cut of 80; 10 + 80 + 5 = 95
    const { rolls } = laid(job({ elevations: [elevation("a")] }), [panel("a", 1, 30, 80), panel("a", 2, 19, 80)]);
    expect(rolls.map(({ used }) => used)).toEqual([95]);
  });

  test("a gap one tick too wide keeps them apart", () => {
    // 10 + 80 + 1 + 80 + 5 = 176
    const { rolls } = laid(job({ elevations: [elevation("a")] }), [panel("a", 1, 30, 80), panel("a", 2, 20, 80)]);
    expect(rolls.map(({ used }) => used)).toEqual([176]);
  });

  test("small pieces are stacked beside a long panel", () => {
    // Beside 30 x 80 lie 19 across: five decals of 19 x 15 with gaps take 79 of the 80 along.
    const { rolls } = laid(job({ elevations: [elevation("a")], pieces: [loose("badge", 19, 15, 5)] }), [
      panel("a", 1, 30, 80),
    ]);
    expect(rolls.map(({ used }) => used)).toEqual([95]);
  });

  test("the width is filled by the best sum, not by the next longest", () => {
    // 24 + 1 + 25 and 16 + 1 + 16 + 1 + 16: two cuts of 60. Longest first alone would pair 25 with 16 and need three.
    const across = [25, 24, 16, 16, 16];
    const { rolls } = laid(
      job({ elevations: [elevation("a")] }),
      across.map((wide, i) => panel("a", i + 1, wide, 60)),
    );
    expect(rolls.map(({ used }) => used)).toEqual([10 + 60 + 1 + 60 + 5]);
  });

  test("a quarter turn is used where film and piece allow it", () => {
    // 40 x 9 turned lies 9 along: 10 + 40... without the turn 40 along. On a 50 roll: 10 + 9 + 5 = 24.
    const piece = loose("strip", 9, 40, 1, { turn: "quarter" });
    expect(area(laid(job({ films: [film({ lay: "any" })], pieces: [piece] }), [], null).rolls)).toBe(50 * 24);
    expect(area(laid(job({ films: [film({ lay: "two-way" })], pieces: [piece] }), [], null).rolls)).toBe(50 * 55);
    const half = { ...piece, turn: "half" as const };
    expect(area(laid(job({ films: [film({ lay: "any" })], pieces: [half] }), [], null).rolls)).toBe(50 * 55);
  });

  test("margins and laminate narrow the printable width", () => {
    // 50 - 2 x 2 = 46, laminate 41: 20 + 1 + 20 fits just so.
    const narrow = film({ edgeMargin: 2, laminateWidth: 41 });
    const pair = [panel("a", 1, 20, 30), panel("a", 2, 20, 30)];
    const { rolls } = laid(job({ elevations: [elevation("a")], films: [narrow] }), pair);
    expect(rolls[0]?.cuts).toHaveLength(1);
    expect(rolls[0]?.cuts[0]?.pieces.map(({ x }) => x)).toEqual([2, 23]);
    const wider = [panel("a", 1, 20, 30), panel("a", 2, 21, 30)];
    expect(laid(job({ elevations: [elevation("a")], films: [narrow] }), wider).rolls[0]?.cuts).toHaveLength(2);
  });
});

describe("loads", () => {
  test("a roll's length splits the cuts; both loads cost a leader and a trailer", () => {
    // Worked job 5 in small: two cuts of 640 a load of 1800, the third on the next.
    const instance = job({
      elevations: [elevation("a")],
      films: [film({ rollLength: 1800 })],
      rules: { ...rules, leader: 12, trailer: 0 },
    });
    const { rolls, warnings } = laid(
      instance,
      [1, 2, 3].map((n) => panel("a", n, 40, 640)),
    );
    expect(rolls.map(({ used }) => used)).toEqual([12 + 640 + 1 + 640, 12 + 640]);
    expect(warnings).toEqual(["Copy 1 of a spans several new rolls of film cast: order them from one lot"]);
  });

  test("a load is as long as the longest run, to the tick", () => {
    const panels = [1, 2].map((n) => panel("a", n, 40, 80));
    // 10 + 80 + 1 + 80 + 5 = 176
    expect(laid(job({ elevations: [elevation("a")], films: [film({ maxRun: 176 })] }), panels).rolls).toHaveLength(1);
    expect(laid(job({ elevations: [elevation("a")], films: [film({ maxRun: 175 })] }), panels).rolls).toHaveLength(2);
  });

  test("one stock entry gives several loads while its length lasts", () => {
    // Two loads of 95 from 190; 189 is too short.
    const panels = [1, 2].map((n) => panel("a", n, 40, 80));
    const films = [film({ maxRun: 100, newRolls: 0 })];
    const { rolls } = laid(job({ elevations: [elevation("a")], films, stock: [roll("R1", 190)] }), panels);
    expect(rolls.map(({ stock, used }) => [stock, used])).toEqual([
      ["R1", 95],
      ["R1", 95],
    ]);
    expect(reasons(job({ elevations: [elevation("a")], films, stock: [roll("R1", 189)] }), panels)).toHaveLength(1);
  });

  test("stock is used before new rolls where that takes no more film", () => {
    const instance = job({ elevations: [elevation("a")], stock: [roll("R1", 95)] });
    const { rolls } = laid(instance, [panel("a", 1, 40, 80)]);
    expect(rolls.map(({ stock }) => stock)).toEqual(["R1"]);
  });

  test("stock is left alone where it takes more film", () => {
    // Two part rolls would spend one leader and trailer more than one new roll.
    const instance = job({
      elevations: [elevation("a")],
      stock: [roll("R1", 95, { lot: "A" }), roll("R2", 95, { lot: "A" })],
    });
    const { rolls } = laid(
      instance,
      [1, 2].map((n) => panel("a", n, 40, 80)),
    );
    expect(rolls.map(({ stock, used }) => [stock, used])).toEqual([[null, 176]]);
  });

  test("loads are filled by subset sums where the sequence would need one more", () => {
    // Room for cuts 100 - 15 = 85, counted with gap 86: 41+1 +43+1 and 50+1 +34+1 fit in two loads; in sequence three.
    const lengths = [41, 50, 34, 43];
    const instance = job({ elevations: [elevation("a")], films: [film({ rollLength: 100 })] });
    const { rolls } = laid(
      instance,
      lengths.map((along, i) => panel("a", i + 1, 40, along)),
    );
    expect(rolls.map(({ used }) => used)).toEqual([100, 100]);
  });
});

describe("lots", () => {
  const panels = [1, 2].map((n) => panel("a", n, 40, 80));

  test("one copy of an elevation lies on one lot", () => {
    // One copy takes 176. 300 + 200 hold one copy each, though one copy and a half would fit on the first.
    const instance = job({
      elevations: [elevation("a", 2)],
      films: [film({ newRolls: 0 })],
      stock: [roll("R1", 300, { lot: "A" }), roll("R2", 200, { lot: "B" })],
    });
    const { rolls } = laid(instance, panels);
    expect(rolls.map(({ lot, used }) => [lot, used])).toEqual([
      ["A", 176],
      ["B", 176],
    ]);
  });

  test("two entries of one lot may share a copy", () => {
    const stock = [roll("R1", 100, { lot: "A" }), roll("R2", 100, { lot: "A" })];
    const instance = job({ elevations: [elevation("a")], films: [film({ newRolls: 0 })], stock });
    expect(laid(instance, panels).rolls.map(({ stock: from }) => from)).toEqual(["R1", "R2"]);
    const apart = { ...instance, stock: [roll("R1", 100, { lot: "A" }), roll("R2", 100, { lot: "B" })] };
    expect(reasons(apart, panels)[0]).toContain("one copy of a takes");
    expect(laid({ ...apart, rules: { ...rules, oneLot: "none" } }, panels).rolls).toHaveLength(2);
  });

  test("all elevations of one subject's copy lie on one lot", () => {
    const both = [elevation("a", 2, { subject: "bus" }), elevation("b", 2, { subject: "bus" })];
    const mixed = [panel("a", 1, 40, 80), panel("b", 1, 40, 60)];
    // One bus: 10 + 80 + 1 + 60 + 5 = 156.
    const instance = job({
      elevations: both,
      films: [film({ newRolls: 0 })],
      stock: [roll("R1", 156, { lot: "A" }), roll("R2", 156, { lot: "B" })],
      rules: { ...rules, oneLot: "subject" },
    });
    expect(laid(instance, mixed).rolls.map(({ used }) => used)).toEqual([156, 156]);
  });

  test("copies that fit no single lot are named with their length", () => {
    const instance = job({
      elevations: [elevation("a", 2)],
      films: [film({ newRolls: 0 })],
      stock: [roll("R1", 310)],
      unit: "mm",
    });
    // Needed 10 + 4 x 80 + 3 + 5 = 338 ticks of 310.
    expect(reasons(instance, panels)[0]).toMatch(
      /has 0.008 mm left but 0.008 mm are needed, and no new roll may be bought/,
    );
  });
});

describe("same lot", () => {
  const both = [panel("a", 1, 40, 80), panel("b", 1, 40, 60)];
  const pair = [{ id: "facing", elevations: ["a", "b"] }];
  const lots = [roll("R1", 110, { lot: "A" }), roll("R2", 110, { lot: "B" })];

  test("elevations of one group share a lot, copy by copy, though they are of no one subject", () => {
    // A pair: 10 + 80 + 1 + 60 + 5 = 156. The longest of A holds both of copy 1, that of B both of copy 2.
    const instance = job({
      elevations: [elevation("a", 2), elevation("b", 2)],
      films: [film({ newRolls: 0 })],
      stock: [roll("R1", 156, { lot: "A" }), roll("R2", 156, { lot: "B" })],
      sameLot: pair,
    });
    const { rolls } = laid(instance, both);
    expect(rolls.map(({ lot, cuts }) => [lot, cuts.flatMap(({ pieces }) => pieces.map(({ copy }) => copy))])).toEqual([
      ["A", [1, 1]],
      ["B", [2, 2]],
    ]);
  });

  test("a group that no lot holds is named; without it each elevation takes its own lot", () => {
    const instance = job({
      elevations: [elevation("a"), elevation("b")],
      films: [film({ newRolls: 0 })],
      stock: lots,
    });
    expect(laid(instance, both).rolls.map(({ lot }) => lot)).toEqual(["A", "B"]);
    expect(reasons({ ...instance, sameLot: pair }, both)[0]).toContain("one copy of facing takes");
  });

  test("it binds where the rule leaves lots free, and binds nobody else", () => {
    // 110 and 110 hold one panel each. The group of a and b has no lot; c alone, unbound, goes anywhere.
    const instance = job({
      elevations: [elevation("c"), elevation("a"), elevation("b")],
      films: [film({ newRolls: 0 })],
      stock: [...lots, roll("R3", 160, { lot: "C" })],
      sameLot: pair,
      rules: { ...rules, oneLot: "none" },
    });
    // c by itself takes two cuts of 80, which lie on A and on B; a and b (156) on C.
    const panels = [panel("c", 1, 40, 80), panel("c", 2, 40, 80), ...both];
    const { rolls } = laid(instance, panels);
    expect(
      new Map(rolls.flatMap((load) => load.cuts.flatMap((cut) => cut.pieces.map((p) => [p.id, load.lot])))),
    ).toEqual(
      new Map([
        ["c/whole/1", "A"],
        ["c/whole/2", "B"],
        ["a/whole/1", "C"],
        ["b/whole/1", "C"],
      ]),
    );
    expect(reasons({ ...instance, rules }, panels)[0]).toContain("on one lot");
  });

  test("groups with an elevation in common are one; one with no panels of the film joins nobody", () => {
    const elevations = [elevation("a"), elevation("b"), elevation("c")];
    const chain = [
      { id: "first", elevations: ["a", "b"] },
      { id: "second", elevations: ["b", "c"] },
    ];
    const groups = (panels: readonly Panel[]) =>
      lotGroups(job({ elevations, sameLot: chain }), panels).map(({ name, panels: own }) => [name, own.length]);
    expect(groups(["a", "b", "c"].map((id) => panel(id, 1, 40, 80)))).toEqual([["a, b and c", 3]]);
    expect(groups(["a", "c"].map((id) => panel(id, 1, 40, 80)))).toEqual([
      ["a", 1],
      ["c", 1],
    ]);
    expect(groups(["a", "b"].map((id) => panel(id, 1, 40, 80)))).toEqual([["first", 2]]);
  });

  test("a copy of a group that spans new rolls is warned of by the group's name", () => {
    const instance = job({
      elevations: [elevation("a"), elevation("b")],
      films: [film({ rollLength: 100 })],
      sameLot: pair,
    });
    expect(laid(instance, both).warnings).toEqual([
      "Copy 1 of facing spans several new rolls of film cast: order them from one lot",
    ]);
    expect(laid({ ...instance, sameLot: [] }, both).warnings).toEqual([]);
  });

  test("copies of one group come out together", () => {
    const instance = job({ elevations: [elevation("a", 2), elevation("b", 2)], sameLot: pair });
    const order = (of: Instance) =>
      laid(of, both).rolls.flatMap(({ cuts }) =>
        cuts.flatMap(({ pieces }) => pieces.map(({ id, copy }) => `${id[0]}${copy}`)),
      );
    expect(order(instance)).toEqual(["a1", "b1", "a2", "b2"]);
    expect(order({ ...instance, sameLot: [] })).toEqual(["a1", "a2", "b1", "b2"]);
  });
});

describe("heads", () => {
  const turns = (instance: Instance, panels: readonly Panel[]) =>
    new Map(
      laid(instance, panels).rolls.flatMap(({ cuts }) =>
        cuts.flatMap(({ pieces }) => pieces.map(({ id, copy, turn }) => [`${id} ${copy}`, turn] as const)),
      ),
    );

  test("of a section that alternates the even panels lie head to foot, on every copy", () => {
    const films = [film({ lay: "two-way" })];
    const panels = [1, 2, 3].map((n) => panel("a", n, 40, 80));
    const alternate = job({ elevations: [elevation("a", 2, headed("alternate"))], films });
    expect(turns(alternate, panels)).toEqual(
      new Map([
        ["a/whole/1 1", 0],
        ["a/whole/2 1", 180],
        ["a/whole/3 1", 0],
        ["a/whole/1 2", 0],
        ["a/whole/2 2", 180],
        ["a/whole/3 2", 0],
      ]),
    );
    const same = job({ elevations: [elevation("a", 1)], films });
    expect([...turns(same, panels).values()]).toEqual([0, 0, 0]);
  });

  test("each section goes by its own heads; fills and sections found by the elevation's", () => {
    const own = elevation("a", 1, { heads: "alternate" });
    const instance = job({ elevations: [own], films: [film({ lay: "any" })] });
    const ofSection = (section: string, role: "panel" | "fill" = "panel"): Panel => ({
      ...panel("a", 2, 40, 80),
      id: `a/${section}/2`,
      section,
      role,
    });
    // "whole" is listed and says "same"; the others are not listed.
    expect(turns(instance, [panel("a", 2, 40, 80), ofSection("fill-top", "fill"), ofSection("found-1")])).toEqual(
      new Map([
        ["a/whole/2 1", 0],
        ["a/fill-top/2 1", 180],
        ["a/found-1/2 1", 180],
      ]),
    );
  });

  test("alternating heads take no more film", () => {
    const films = [film({ lay: "any" })];
    const panels = [30, 19, 24, 25].map((across, i) => panel("a", i + 1, across, 80));
    const length = (heads: "same" | "alternate") =>
      area(laid(job({ elevations: [elevation("a", 3, headed(heads))], films }), panels).rolls);
    expect(length("alternate")).toBe(length("same"));
  });
});

describe("loose pieces", () => {
  test("lie on a narrower roll when that takes less film", () => {
    // The panel leaves nothing beside it. On 50: 10 + 80 + 1 + 20 + 5 = 116 x 50 = 5800. On 24: 4750 + 24 x 35 = 5590.
    const instance = job({
      elevations: [elevation("a")],
      films: [film({ rollWidths: [24, 50] })],
      pieces: [loose("badge", 20, 20)],
    });
    const { rolls } = laid(instance, [panel("a", 1, 50, 80)]);
    expect(area(rolls)).toBe(Math.min(5800, 4750 + 24 * 35));
  });

  test("use up an offcut", () => {
    const stock = [roll("O1", 40, { kind: "offcut", width: 24 })];
    const instance = job({
      elevations: [elevation("a")],
      films: [film({ newRolls: 5 })],
      stock,
      pieces: [loose("badge", 20, 20)],
    });
    const { rolls } = laid(instance, [panel("a", 1, 50, 80)]);
    expect(rolls.map(({ stock: from }) => from)).toEqual([null, "O1"]);
  });

  test("one that fits no roll is named with its width", () => {
    const instance = job({ pieces: [loose("banner", 60, 70, 1, { turn: "quarter" })], films: [film({ lay: "any" })] });
    expect(reasons(instance, [], null)).toEqual([
      "Piece banner is 0.001 mm across; of film cast at most 0.001 mm can be printed, and a loose piece is never split".replace(
        "0.001 mm across",
        `${Number((60 / 40000).toFixed(3))} mm across`,
      ),
    ]);
  });
});

test("a panel that no load holds is named with both lengths", () => {
  const inch = 1_016_000;
  const instance = job({
    unit: "in",
    elevations: [elevation("bus")],
    films: [film({ rollLength: 600 * inch, rollWidths: [54 * inch] })],
    rules: { ...rules, leader: 12 * inch, trailer: 6 * inch },
  });
  expect(reasons(instance, [panel("bus", 2, 40 * inch, 640 * inch)], 54 * inch)).toEqual([
    "Panel bus/whole/2 is 640 in long; a load of film cast 54 in wide holds 582 in after leader and trailer",
  ]);
});

test("nothing to make takes no film", () => {
  expect(layOnRolls(job(), [], null, run())).toEqual({ rolls: [], warnings: [] });
});

test("neighbours follow one another, copy by copy", () => {
  const instance = job({ elevations: [elevation("a", 2)] });
  const { rolls } = laid(
    instance,
    [3, 1, 2].map((n) => panel("a", n, 40, 80)),
  );
  expect(rolls[0]?.cuts.flatMap(({ pieces }) => pieces.map(({ id, copy }) => `${copy} ${id}`))).toEqual([
    "1 a/whole/1",
    "1 a/whole/2",
    "1 a/whole/3",
    "2 a/whole/1",
    "2 a/whole/2",
    "2 a/whole/3",
  ]);
});

test("ten thousand copies are counted while deciding", () => {
  const instance = job({
    elevations: [elevation("a", 10_000)],
    pieces: [loose("badge", 9, 9, 50_000)],
    films: [film({ rollLength: 1000 })],
  });
  const panels = [panel("a", 1, 40, 80), panel("a", 2, 30, 80), panel("a", 3, 19, 60)];
  const answer = layOnRolls(instance, panels, 50, run());
  if ("reasons" in answer) throw new Error("not laid");
  const placed = answer.rolls.flatMap(({ cuts }) =>
    cuts.flatMap(({ pieces }) => pieces.map(({ id, copy }) => `${id} ${copy}`)),
  );
  expect(placed).toHaveLength(80_000);
  expect(new Set(placed).size).toBe(80_000);
  // Panel 2 and 3 share a cut (30 + 1 + 19); a load holds (1000 - 15 + 1) / 81 = 12 cuts: 20,000 / 12 rounds up to 1,667.
  expect(answer.rolls.length).toBeLessThanOrEqual(1667);
});

const jobs = fc
  .record({
    counts: fc.array(fc.integer({ min: 1, max: 3 }), { minLength: 1, maxLength: 3 }),
    panels: fc.array(fc.tuple(fc.nat(), fc.integer({ min: 1, max: 46 }), fc.integer({ min: 1, max: 90 })), {
      maxLength: 8,
    }),
    pieces: fc.array(
      fc.tuple(
        fc.integer({ min: 1, max: 26 }),
        fc.integer({ min: 1, max: 60 }),
        fc.integer({ min: 1, max: 6 }),
        fc.constantFrom("fixed" as const, "half" as const, "quarter" as const),
      ),
      { maxLength: 6 },
    ),
    lay: fc.constantFrom("one-way" as const, "two-way" as const, "any" as const),
    oneLot: fc.constantFrom("elevation" as const, "subject" as const, "none" as const),
    rollLength: fc.constantFrom(null, 150, 400),
    maxRun: fc.constantFrom(null, 120, 300),
    newRolls: fc.constantFrom(null, 0, 2),
    gap: fc.integer({ min: 0, max: 3 }),
    stock: fc.array(
      fc.tuple(fc.constantFrom(30, 50), fc.integer({ min: 20, max: 900 }), fc.constantFrom(null, "A", "B")),
      { maxLength: 5 },
    ),
    width: fc.constantFrom(50, null),
    heads: fc.constantFrom("same" as const, "alternate" as const),
    sameLot: fc.constantFrom<string[]>([], ["e0", "e1"], ["e0"], ["e1", "e2"]),
  })
  .map((drawn) => {
    const elevations = drawn.counts.map((count, i) =>
      elevation(`e${i}`, count, {
        subject: i < 2 && drawn.counts[0] === drawn.counts[1] ? "bus" : null,
        ...headed(drawn.lay === "one-way" ? "same" : drawn.heads),
      }),
    );
    const paired = elevations.filter(({ id }) => drawn.sameLot.includes(id));
    const pairs = new Set(paired.map(({ count }) => count)).size === 1;
    const sameLot = pairs ? [{ id: "pair", elevations: paired.map(({ id }) => id) }] : [];
    const panels = drawn.panels.map(([at, across, along], i) =>
      panel(`e${at % elevations.length}`, i + 1, across, along),
    );
    const pieces = drawn.pieces.map(([wide, high, count, turn], i) => loose(`p${i}`, wide, high, count, { turn }));
    const stock = drawn.stock.map(([width, length, lot], i) => roll(`R${i}`, length, { width, lot }));
    const films = [
      film({
        rollWidths: [30, 50],
        edgeMargin: 2,
        lay: drawn.lay,
        rollLength: drawn.rollLength,
        maxRun: drawn.maxRun,
        newRolls: drawn.newRolls,
      }),
    ];
    return {
      instance: job({
        elevations,
        pieces,
        films,
        stock,
        sameLot,
        rules: { ...rules, oneLot: drawn.oneLot, cutGap: drawn.gap },
      }),
      panels,
      width: drawn.width,
    };
  });

describe("whatever the job", () => {
  test("a laying keeps every rule, or there are reasons", () => {
    fc.assert(
      fc.property(jobs, ({ instance, panels, width }) => {
        const answer = layOnRolls(instance, panels, width, run());
        if ("reasons" in answer) {
          expect(answer.reasons.length).toBeGreaterThan(0);
          for (const { why, mend } of answer.reasons) expect(why.length * mend.length).toBeGreaterThan(0);
        } else expect(faults(instance, panels, width, answer.rolls)).toEqual([]);
      }),
      { seed: 20260301, numRuns: 400 },
    );
  });

  test("the same seed gives the same laying, and shuffled pieces take the same film", () => {
    fc.assert(
      fc.property(jobs, ({ instance, panels, width }) => {
        const answer = layOnRolls(instance, panels, width, run());
        expect(layOnRolls(instance, panels, width, run())).toEqual(answer);
        const shuffled = layOnRolls(
          { ...instance, pieces: [...instance.pieces].reverse() },
          [...panels].reverse(),
          width,
          run(),
        );
        if ("reasons" in answer) expect("reasons" in shuffled).toBe(true);
        else if ("rolls" in shuffled) expect(area(shuffled.rolls)).toBe(area(answer.rolls));
        else throw new Error("not laid once shuffled");
      }),
      { seed: 20260302, numRuns: 150 },
    );
  });
});

describe("stock instead of new rolls", () => {
  const draftOf = (instance: Instance, panels: readonly Panel[], used: readonly number[]) => {
    const own = instance.films[0] as Instance["films"][number];
    const loads = used.map((each, i) => ({
      stock: null,
      width: 50,
      used: each,
      cuts: [
        {
          length: 80,
          pattern: 0,
          rank: [0],
          pieces: [
            {
              item: { id: (panels[i] as Panel).id, copy: 1, rank: [0], headToFoot: false },
              shape: { across: 40, along: 80, turn: 0 as const },
              x: 0,
              y: 0,
            },
          ],
        },
      ],
    }));
    return { loads, supply: supplyOf(instance, own) };
  };
  const panels = [panel("a", 1, 40, 80), panel("b", 1, 40, 80)];
  const both = [elevation("a"), elevation("b")];

  test("the least entry that carries a load takes it", () => {
    const instance = job({ elevations: both, stock: [roll("R1", 94), roll("R2", 200), roll("R3", 95)] });
    const moved = stockInstead(draftOf(instance, panels, [95, 95]), lotGroups(instance, panels));
    expect(moved.loads.map(({ stock }) => stock?.id)).toEqual(["R3", "R2"]);
    expect(moved.supply.stock.map(({ left }) => left)).toEqual([94, 105, 0]);
  });

  test("a copy is not torn between lots", () => {
    const subject = { subject: "bus" };
    const instance = job({
      elevations: [elevation("a", 1, subject), elevation("b", 1, subject)],
      stock: [roll("R1", 100)],
      rules: { ...rules, oneLot: "subject" },
    });
    const draft = draftOf(instance, panels, [95, 95]);
    expect(stockInstead(draft, lotGroups(instance, panels)).loads.map(({ stock }) => stock)).toEqual([null, null]);
    const free = { ...instance, rules: { ...rules, oneLot: "none" as const } };
    expect(stockInstead(draft, lotGroups(free, panels)).loads.map(({ stock }) => stock?.id)).toEqual(["R1", undefined]);
  });
});
