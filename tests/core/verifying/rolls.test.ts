import { describe, expect, test } from "vitest";
import { verifyPlan } from "../../../core/verifying/verifyPlan.ts";
import {
  boothJob,
  boothPlan,
  type Document,
  type Draft,
  drafted,
  rectangle,
  rulesBroken,
  rulesBrokenBy,
  smallJob,
  TICK,
  verified,
} from "./support.ts";

/** Rules that the hand-made plan breaks once its job, or the plan itself, is changed. */
function booth(change: (job: Document, plan: Document) => void): string[] {
  const [job, plan] = [boothJob(), boothPlan()];
  change(job, plan);
  return rulesBroken(verified(job, plan));
}

/** The load of a layout of the hand-made plan. */
const load = (plan: Document, id: string, layout = 0): Document =>
  plan.layouts[layout].rolls.find((entry: Document) => entry.id === id);

describe("what the stock holds", () => {
  // Loads: r1 uses 217 of S1, r2 106 (110 in the looser layout) of S2, r3 57 of a new roll of g.
  test.each([
    [
      "a roll of stock",
      (job: Document, more: number) => {
        job.stock[0].length = 217 + more;
      },
    ],
    [
      "a new roll",
      (job: Document, more: number) => {
        job.films[1].rollLength = 57 + more;
      },
    ],
    [
      "one run",
      (job: Document, more: number) => {
        job.films[0].maxRun = 217 + more;
      },
    ],
  ])("%s holds exactly its loads, and a tick less does not", (_, set) => {
    expect(booth((job) => void set(job, 0))).toEqual([]);
    expect(booth((job) => void set(job, -TICK))).toEqual(["loadsFit"]);
  });
  test("new rolls are bought up to their number", () => {
    expect(
      booth((job) => {
        job.films[1].newRolls = 1;
      }),
    ).toEqual([]);
    expect(
      booth((job) => {
        job.films[1].newRolls = 0;
      }),
    ).toEqual(["loadsFit"]);
  });
  test("a new roll is not used where stock would do", () => {
    const offcut = (length: number) => ({ id: "S3", film: "g", lot: "L3", kind: "offcut", width: 12, length });
    const withOffcut = (length: number) =>
      booth((job) => {
        job.stock.push(offcut(length));
        job.films[1].newRolls = 1;
      });
    expect(withOffcut(57)).toEqual(["stockFirst"]);
    expect(withOffcut(57 - TICK)).toEqual([]);
  });
  test("an offcut of a width that is not sold carries what fits, leader and trailer included", () => {
    const job = (length: number) =>
      smallJob([{ id: "E", film: "f", outline: rectangle(0, 0, 10, 20) }], {
        stock: [{ id: "O", film: "f", lot: "L", kind: "offcut", width: 12, length }],
      });
    const draft: Draft = {
      panels: [{ id: "E/1", window: [-1, -1, 11, 21] }],
      rollWidth: 12,
      rolls: [
        {
          id: "o",
          stock: "O",
          film: "f",
          lot: "L",
          width: 12,
          used: 37,
          cuts: [
            { start: 10, length: 22, pieces: [{ id: "E/1", copy: 1, x: 0, y: 0, across: 12, along: 22, turn: 0 }] },
          ],
        },
      ],
    };
    expect(rulesBrokenBy(job(37), draft)).toEqual([]);
    expect(rulesBrokenBy(job(37 - TICK), draft)).toEqual(["loadsFit"]);
  });
  test("two loads of one entry share its length", () => {
    const job = (length: number) =>
      smallJob([{ id: "E", film: "f", count: 2, outline: rectangle(0, 0, 10, 20) }], {
        stock: [{ id: "O", film: "f", lot: null, kind: "roll", width: 60, length }],
      });
    const loadOf = (copy: number) => ({
      id: `o${copy}`,
      stock: "O",
      film: "f",
      lot: null,
      width: 60,
      used: 37,
      cuts: [{ start: 10, length: 22, pieces: [{ id: "E/1", copy, x: 0, y: 0, across: 12, along: 22, turn: 0 }] }],
    });
    const draft: Draft = { panels: [{ id: "E/1", window: [-1, -1, 11, 21] }], rolls: [loadOf(1), loadOf(2)] };
    expect(rulesBrokenBy(job(74), draft)).toEqual([]);
    expect(rulesBrokenBy(job(74 - TICK), draft)).toEqual(["loadsFit"]);
  });
});

describe("across the roll", () => {
  test("the printable width is filled to the edge margin", () => {
    // 30 wide, margin 1: the widest panel of 28 lies at 1 to 29.
    expect(
      booth((job) => {
        job.films[0].edgeMargin = 1 + TICK;
      }),
    ).toContain("insidePrintable");
    expect(
      booth((_, plan) => {
        load(plan, "r1").cuts[1].pieces[0].x = 7.5;
      }),
    ).toEqual([]);
    expect(
      booth((_, plan) => {
        load(plan, "r1").cuts[1].pieces[0].x = 7.5 + TICK;
      }),
    ).toEqual(["insidePrintable"]);
  });
  test("a laminate narrower than the printable width", () => {
    expect(
      booth((job) => {
        job.films[0].laminateWidth = 28;
      }),
    ).toEqual([]);
    expect(
      booth((job) => {
        job.films[0].laminateWidth = 28 - TICK;
      }),
    ).toEqual(["insidePrintable"]);
  });
  test("pieces side by side keep the cut gap", () => {
    const flagAt = (x: number) =>
      booth((_, plan) => {
        load(plan, "r2").cuts[2].pieces[1].x = x;
      });
    expect(flagAt(7.5)).toEqual([]);
    expect(flagAt(7.5 - TICK)).toEqual(["piecesApart"]);
    expect(flagAt(23)).toEqual([]);
  });
  test("pieces in neighbouring cuts keep it too", () => {
    // Loosest case: no gap is asked of cuts as such, only of what lies in them.
    const shifted = (by: number) =>
      booth((_, plan) => {
        const [, , flags] = load(plan, "r2", 1).cuts;
        flags.start -= by;
      });
    expect(shifted(0)).toEqual([]);
    expect(shifted(TICK)).toEqual(["piecesApart"]);
  });
  test("cuts do not overlap, though their pieces keep apart", () => {
    const long = (length: number) =>
      booth((_, plan) => {
        load(plan, "r1").cuts[0].length = length;
      });
    expect(long(22.5)).toEqual([]);
    expect(long(22.5 + TICK)).toEqual(["cutsFollow"]);
  });
  test("what is used reaches the last cut's end and the trailer", () => {
    const late = (start: number) =>
      booth((_, plan) => {
        load(plan, "r2", 1).cuts[2].start = start;
      });
    expect(late(99)).toEqual([]); // 99 + 6 + 5 = 110
    expect(late(99 + TICK)).toEqual(["cutsFollow"]);
  });
  test("the leader is kept free", () => {
    const leader = (length: number) =>
      booth((job) => {
        job.rules.leader = length;
      });
    expect(leader(10 + TICK)).toContain("cutsFollow");
  });
});

describe("turns", () => {
  const outline = [
    [0, 0],
    [6, 0],
    [0, 4],
  ];
  const job = (lay: string, turn: string) =>
    smallJob([], {
      films: [{ id: "f", rollWidths: [60], pricePerArea: 0.01, lay }],
      pieces: [{ id: "flag", role: "decal", film: "f", outline, turn }],
    });
  const draft = (turn: number): Draft => {
    const [across, along] = turn % 180 === 0 ? [6, 4] : [4, 6];
    const pieces = [{ id: "flag", copy: 1, x: 0, y: 0, across, along, turn }];
    return {
      panels: [],
      rolls: [
        {
          id: "r",
          stock: null,
          film: "f",
          lot: null,
          width: 60,
          used: 15 + along,
          cuts: [{ start: 10, length: along, pieces }],
        },
      ],
    };
  };
  const free: readonly (readonly [string, string, readonly number[]])[] = [
    ["any", "quarter", [0, 90, 180, 270]],
    ["any", "half", [0, 180]],
    ["any", "fixed", [0]],
    ["two-way", "quarter", [0, 180]],
    ["one-way", "quarter", [0]],
  ];
  test.each(free)("%s film and a piece that may lie %s", (lay, turn, turns) => {
    for (const angle of [0, 90, 180, 270]) {
      expect(rulesBrokenBy(job(lay, turn), draft(angle))).toEqual(turns.includes(angle) ? [] : ["piecesTurned"]);
    }
  });
  test("a panel lies head or foot first on any film, never across", () => {
    const side = smallJob([{ id: "E", film: "f", outline: rectangle(0, 0, 10, 10) }], {
      films: [{ id: "f", rollWidths: [60], pricePerArea: 0.01, lay: "any" }],
    });
    const turned = (turn: number): Draft => ({
      panels: [{ id: "E/1", window: [-1, -1, 11, 11] }],
      rolls: [
        {
          id: "r",
          stock: null,
          film: "f",
          lot: null,
          width: 60,
          used: 27,
          cuts: [{ start: 10, length: 12, pieces: [{ id: "E/1", copy: 1, x: 0, y: 0, across: 12, along: 12, turn }] }],
        },
      ],
    });
    expect(rulesBrokenBy(side, turned(180))).toEqual([]);
    expect(rulesBrokenBy(side, turned(90))).toEqual(["piecesTurned"]);
  });
  test("panels of a section turn together, copy by copy", () => {
    const turn = (cuts: readonly number[]) =>
      booth((_, plan) => {
        for (const index of cuts) load(plan, "r1").cuts[index].pieces[0].turn = 180;
      });
    expect(turn([0, 1, 2])).toEqual([]);
    expect(turn([0, 1])).toEqual(["piecesTurned"]);
    expect(turn([0, 1, 5])).toEqual(["piecesTurned"]);
  });
  test("one elevation in two directions on one-way film asks for a warning", () => {
    const sections = [
      { id: "l", box: [0, 0, 20, 20], direction: "vertical" },
      { id: "r", box: [20, 0, 40, 20], direction: "horizontal" },
    ];
    const mixed = smallJob([{ id: "E", name: "Kerb side", film: "f", outline: rectangle(0, 0, 40, 20), sections }], {
      films: [{ id: "f", rollWidths: [60], pricePerArea: 0.01, lay: "one-way" }],
    });
    const panels: Draft["panels"] = [
      { id: "E/l", section: "l", window: [-1, -1, 20.5, 21] },
      { id: "E/r", section: "r", direction: "horizontal", window: [19.5, -1, 41, 21] },
    ];
    const seams = [
      {
        id: "s",
        elevation: "E",
        section: null,
        border: true,
        axis: "x",
        at: 20,
        from: 0,
        to: 20,
        kind: "open",
        overlap: 1,
        finishedOverlap: 1,
        between: ["l", "r"],
        top: "l",
      },
    ];
    const draftOf = (warnings: string[]): Draft => ({ panels, seams, applyOrder: ["E/r", "E/l"], warnings });
    expect(rulesBrokenBy(mixed, draftOf(["Kerb side mixes directions on one-way film."]))).toEqual([]);
    expect(rulesBrokenBy(mixed, draftOf([]))).toEqual(["warningsGiven"]);
  });
});

describe("free nesting by true outlines", () => {
  const triangle = [
    [0, 0],
    [6, 0],
    [0, 6],
  ];
  const job = (cutGap: number, outline: number[][] = triangle) =>
    smallJob([], {
      pieces: [
        { id: "big", role: "decal", film: "f", outline: triangle, turn: "half" },
        { id: "small", role: "decal", film: "f", outline, turn: "half" },
      ],
      rules: { cutGap },
    });
  const nested = (x: number, y: number, turn: 0 | 180, size: number, nesting: "free" | "crosscut" = "free"): Draft => {
    const length = Math.max(6, y + size);
    const pieces = [
      { id: "big", copy: 1, x: 0, y: 0, across: 6, along: 6, turn: 0 },
      { id: "small", copy: 1, x, y, across: size, along: size, turn },
    ];
    const cuts = [{ start: 10, length, pieces }];
    return {
      panels: [],
      nesting,
      rolls: [{ id: "r", stock: null, film: "f", lot: null, width: 60, used: 15 + length, cuts }],
    };
  };
  test("slanted edges lie the gap apart, straight across: boxes may overlap", () => {
    // Slants X + Y = 6 and X + Y = 6 + dx + dy lie (dx + dy) / sqrt 2 apart: 0.5 wants dx + dy = 0.70711.
    expect(rulesBrokenBy(job(0.5), nested(0.3536, 0.3536, 180, 6))).toEqual([]);
    expect(rulesBrokenBy(job(0.5), nested(0.3535, 0.3535, 180, 6))).toEqual(["piecesApart"]);
    expect(rulesBrokenBy(job(0.5), nested(0.3536, 0.3536, 180, 6, "crosscut"))).toEqual(["piecesApart"]);
  });
  test("without a gap they may touch and not overlap, not even one inside the other or two alike", () => {
    expect(rulesBrokenBy(job(0), nested(0, 0, 180, 6))).toEqual([]);
    expect(rulesBrokenBy(job(0), nested(0, 0, 0, 6))).toEqual(["piecesApart"]);
    expect(
      rulesBrokenBy(
        job(0, [
          [0, 0],
          [1, 0],
          [0, 1],
        ]),
        nested(1, 1, 0, 1),
      ),
    ).toEqual(["piecesApart"]);
    expect(rulesBrokenBy(job(0), nested(-TICK * -1000, 0, 0, 6))).toEqual(["piecesApart"]);
  });
  test("rectangles keep the gap in x or in y", () => {
    const squares = job(0.5, rectangle(0, 0, 2, 2));
    squares.pieces[0].outline = rectangle(0, 0, 6, 6);
    // A corner 0.4 off in both is 0.566 away in a straight line, and yet too near.
    expect(rulesBrokenBy(squares, nested(6.4, 6.4, 0, 2))).toEqual(["piecesApart"]);
    expect(rulesBrokenBy(squares, nested(6.5, 6.4, 0, 2))).toEqual([]);
  });
});

describe("one lot", () => {
  const films = [{ id: "f", rollWidths: [60], pricePerArea: 0.01, newRolls: null }];
  const stock = (lots: readonly (string | null)[]) =>
    lots.map((lot, i) => ({ id: `S${i + 1}`, film: "f", lot, kind: "roll", width: 60, length: 37 }));
  const sides = [
    { id: "L", subject: "bus", film: "f", outline: rectangle(0, 0, 10, 20) },
    { id: "R", subject: "bus", film: "f", outline: rectangle(0, 0, 10, 20) },
  ];
  const job = (oneLot: string, lots: readonly (string | null)[]) =>
    smallJob(sides, { films, stock: stock(lots), rules: { oneLot } });
  const loadOf = (panel: string, from: string | null, lot: string | null) => ({
    id: `on-${panel[0]}`,
    stock: from,
    film: "f",
    lot,
    width: 60,
    used: 37,
    cuts: [{ start: 10, length: 22, pieces: [{ id: panel, copy: 1, x: 0, y: 0, across: 12, along: 22, turn: 0 }] }],
  });
  const draft = (loads: readonly (readonly [string | null, string | null])[], warnings: string[] = []): Draft => ({
    panels: ["L", "R"].map((elevation) => ({ id: `${elevation}/1`, elevation, window: [-1, -1, 11, 21] as const })),
    rolls: loads.map(([from, lot], i) => loadOf(["L/1", "R/1"][i] as string, from, lot)),
    warnings,
  });
  const twoLots = draft([
    ["S1", "a"],
    ["S2", "b"],
  ]);
  test("a subject's copy on two lots", () => {
    expect(rulesBrokenBy(job("elevation", ["a", "b"]), twoLots)).toEqual([]);
    expect(rulesBrokenBy(job("subject", ["a", "b"]), twoLots)).toEqual(["oneLot"]);
    expect(rulesBrokenBy(job("none", ["a", "b"]), twoLots)).toEqual([]);
    expect(
      rulesBrokenBy(
        job("subject", ["a", "a"]),
        draft([
          ["S1", "a"],
          ["S2", "a"],
        ]),
      ),
    ).toEqual([]);
  });
  test("stock of no known lot is a lot of its own", () => {
    expect(
      rulesBrokenBy(
        job("subject", [null, null]),
        draft([
          ["S1", null],
          ["S2", null],
        ]),
      ),
    ).toEqual(["oneLot"]);
  });
  test("new rolls are one lot, and two of them ask for a warning", () => {
    const bought = smallJob(sides, { films, rules: { oneLot: "subject" } });
    expect(
      rulesBrokenBy(
        bought,
        draft([
          [null, null],
          [null, null],
        ]),
      ),
    ).toEqual(["warningsGiven"]);
    expect(
      rulesBrokenBy(
        bought,
        draft(
          [
            [null, null],
            [null, null],
          ],
          ["bus lies on two new rolls of f"],
        ),
      ),
    ).toEqual([]);
  });
  test("stock that would tear a copy is rightly left", () => {
    // S1 could carry one of the two, and then the bus would lie on two lots.
    const torn = draft(
      [
        [null, null],
        [null, null],
      ],
      ["bus lies on two new rolls of f"],
    );
    expect(rulesBrokenBy(job("subject", ["a"]), torn)).toEqual([]);
    expect(rulesBrokenBy(job("none", ["a"]), torn)).toEqual(["stockFirst"]);
  });
});

describe("the layout's roll width", () => {
  const films = [
    { id: "f", rollWidths: [54, 60], pricePerArea: 0.01 },
    { id: "g", rollWidths: [54, 60], pricePerArea: 0.01 },
  ];
  const sides = ["f", "g"].map((film) => ({ id: film.toUpperCase(), film, outline: rectangle(0, 0, 10, 20) }));
  const on = (widths: readonly [number, number], rollWidth: number | null): string[] =>
    rulesBrokenBy(smallJob(sides, { films }), {
      panels: ["F", "G"].map((elevation) => ({
        id: `${elevation}/1`,
        elevation,
        film: elevation.toLowerCase(),
        window: [-1, -1, 11, 21] as const,
      })),
      rolls: ["f", "g"].map((film, i) => ({
        id: film,
        stock: null,
        film,
        lot: null,
        width: widths[i],
        used: 37,
        cuts: [
          {
            start: 10,
            length: 22,
            pieces: [{ id: `${film.toUpperCase()}/1`, copy: 1, x: 0, y: 0, across: 12, along: 22, turn: 0 }],
          },
        ],
      })),
      rollWidth,
    });
  test("is the one of all panels, or none when they are mixed", () => {
    expect(on([54, 54], 54)).toEqual([]);
    expect(on([54, 60], null)).toEqual([]);
    expect(on([54, 60], 54)).toEqual(["rollWidthHolds"]);
    expect(on([54, 54], 60)).toEqual(["rollWidthHolds"]);
    expect(on([54, 54], null)).toEqual(["rollWidthHolds"]);
  });
});

describe("claims of layouts side by side", () => {
  test("a bound that another layout of its kind undercuts", () => {
    const claim = (cost: number) =>
      booth((_, plan) => {
        const { bound, totals } = plan.layouts[1];
        bound.cost = cost;
        bound.gapPercent = (100 * (totals.cost.total - cost)) / totals.cost.total;
      });
    // The tight layout costs 389.365; a bound half a cent above it is still equal to it.
    expect(claim(389.365)).toEqual([]);
    expect(claim(389.371)).toEqual(["boundsAcrossLayouts"]);
  });
  test("proven means without a gap, and without a gap means proven", () => {
    const claim = (cost: number, proven: boolean) =>
      booth((_, plan) => {
        plan.layouts.pop();
        const { bound, totals } = plan.layouts[0];
        bound.cost = cost;
        bound.proven = proven;
        bound.gapPercent = (100 * (totals.cost.total - cost)) / totals.cost.total;
      });
    expect(claim(389.365, true)).toEqual([]);
    expect(claim(389.365, false)).toEqual(["boundHonest"]);
    expect(claim(389.3, true)).toEqual(["boundHonest"]);
    expect(claim(389.4, true)).toEqual(["boundHonest"]);
  });
  test("the frontier holds what none beats, and the chosen one is its cheapest", () => {
    expect(booth((_, plan) => void plan.frontier.push("looser"))).toEqual(["frontierRight"]);
    expect(
      booth((_, plan) => {
        plan.frontier = [];
      }),
    ).toEqual(["frontierRight"]);
    expect(
      booth((_, plan) => {
        plan.chosen = "looser";
      }),
    ).toEqual(["frontierRight"]);
    const twin = (listed: string[]) =>
      booth((_, plan) => {
        plan.layouts[1] = { ...plan.layouts[0], id: "twin" };
        plan.frontier = listed;
      });
    expect(twin(["tight"])).toEqual([]);
    expect(twin(["tight", "twin"])).toEqual(["frontierRight"]);
  });
  test("a plan without layouts is no plan", () => {
    expect(
      booth((_, plan) => {
        plan.layouts = [];
      }),
    ).toEqual(["frontierRight", "planHead"]);
  });
});

test("a drafted plan that keeps every rule is told nothing", () => {
  const { instance, plan } = drafted(smallJob([{ id: "E", film: "f", outline: rectangle(0, 0, 10, 20), count: 3 }]), {
    panels: [{ id: "E/1", window: [-1, -1, 11, 21] }],
  });
  expect(verifyPlan(instance, plan)).toEqual([]);
});

describe("what loads leave", () => {
  // S1 is loaded once, 217 of it; the new roll of g gives 57.
  const left = (job: Document, keepLength?: number) => {
    job.stock[0].length = 300;
    job.films[1].rollLength = 100;
    if (keepLength !== undefined) job.rules.keepLength = keepLength;
  };

  test("is the roll's length less what is taken, to the tick", () => {
    const say = (r1: number, r3: number | null) =>
      booth((job, plan) => {
        left(job);
        load(plan, "r1").leaves = r1;
        load(plan, "r3").leaves = r3;
      });
    expect(say(83, 43)).toEqual([]);
    expect(say(83 - TICK, 43)).toEqual(["restsRight"]);
    expect(say(83, 43 + TICK)).toEqual(["restsRight"]);
    expect(say(83, null)).toEqual(["restsRight"]);
  });

  test("a roll that does not end leaves no length", () => {
    const say = (leaves: number | null) =>
      booth((job, plan) => {
        job.films[1].rollLength = null;
        load(plan, "r3").leaves = leaves;
      });
    expect(say(null)).toEqual([]);
    expect(say(43)).toEqual(["restsRight"]);
  });

  test("is worth keeping exactly from the length on that the job names", () => {
    const say = (keep: boolean, keepLength?: number) =>
      booth((job, plan) => {
        left(job, keepLength);
        load(plan, "r1").keep = keep;
      });
    expect(say(true, 83)).toEqual([]);
    expect(say(false, 83 + TICK)).toEqual([]);
    expect(say(false, 83)).toEqual(["restsRight"]);
    expect(say(true, 83 + TICK)).toEqual(["restsRight"]);
    expect(say(true)).toEqual(["restsRight"]);
  });
});
