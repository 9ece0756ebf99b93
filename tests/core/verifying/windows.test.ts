import { describe, expect, test } from "vitest";
import {
  type Document,
  type Draft,
  elevationE,
  halvesOfE,
  rectangle,
  rulesBrokenBy,
  seamOfE,
  smallJob,
  TICK,
} from "./support.ts";

const border = (more: Document): Document => seamOfE({ section: null, border: true, ...more });

/** Two upright panels that meet at 50. */
const halves = halvesOfE(0.5);

/** The draft with one window edge moved. */
const moved = (draft: Draft, id: string, edge: 0 | 1 | 2 | 3, by: number): Draft => ({
  ...draft,
  panels: draft.panels.map((panel) => {
    const window = [...panel.window] as [number, number, number, number];
    window[edge] += by;
    return panel.id === id ? { ...panel, window } : panel;
  }),
});

describe("bleed and overlap reach far enough, to the tick", () => {
  const job = smallJob([elevationE()]);
  test("two plain panels", () => expect(rulesBrokenBy(job, halves)).toEqual([]));
  test.each([
    ["E/1", 0, TICK, "windowsReachAcross"],
    ["E/2", 2, -TICK, "windowsReachAcross"],
    ["E/1", 1, TICK, "windowsReachAlong"],
    ["E/2", 3, -TICK, "windowsReachAlong"],
  ] as const)("%s edge %i moved by %d breaks %s alone", (id, edge, by, rule) => {
    expect(rulesBrokenBy(job, moved(halves, id, edge, by))).toEqual([rule]);
    expect(rulesBrokenBy(job, moved(halves, id, edge, -3 * by))).toEqual([]); // farther is allowed
  });
  test("half an overlap short on one side is short, whatever the other side does", () => {
    const short = moved(moved(halves, "E/1", 2, -TICK), "E/2", 0, -TICK);
    expect(rulesBrokenBy(job, short)).toEqual(["seamOverlaps"]);
  });
  test("more overlap is allowed when it is told", () => {
    const wide = moved(halves, "E/1", 2, 2);
    expect(rulesBrokenBy(job, { ...wide, seams: [seamOfE({ overlap: 3, finishedOverlap: 3 })] })).toEqual([]);
    expect(rulesBrokenBy(job, wide)).toEqual(["seamOverlaps"]);
  });
});

describe("a sloped outline", () => {
  // The top falls from 40 to 20 over 100: at 49.5 it stands at 40 - 49.5 / 5 = 30.1, at the seam's line at 30.
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
  test("its highest point in the strip counts, where the slope meets a whole tick to the tick", () => {
    expect(rulesBrokenBy(job, draft)).toEqual([]);
    expect(rulesBrokenBy(job, moved(draft, "E/2", 3, -TICK))).toEqual(["windowsReachAlong"]);
  });
  test("where it meets none, two ticks are allowed and three are not", () => {
    // 20 over 99.7: at 49.5 the top stands at 40 - 49.5 * 20 / 99.7 = 30.0702106..., 30551333.99 ticks, rounded out.
    const steep = smallJob([
      elevationE({
        outline: [
          [0, 0],
          [99.7, 0],
          [99.7, 20],
          [0, 40],
        ],
        sections: [],
      }),
    ]);
    const top = 40 - (49.5 * 20) / 99.7;
    const ticks = Math.ceil(top / TICK);
    const line = Math.ceil((40 - (50 * 20) / 99.7) / TICK);
    const at = (short: number): Draft => ({
      ...draft,
      panels: [
        { id: "E/1", window: [-1, -1, 50.5, 41] },
        { id: "E/2", window: [49.5, -1, 100.7, (ticks - short) * TICK + 1] },
      ],
      seams: [seamOfE({ to: line * TICK })],
    });
    expect(rulesBrokenBy(steep, at(0))).toEqual([]);
    expect(rulesBrokenBy(steep, at(2))).toEqual([]);
    expect(rulesBrokenBy(steep, at(3))).toEqual(["windowsReachAlong"]);
  });
  test("a sloped nose gets its bleed across", () => {
    // The left end leans from 10 at the foot to 0 at the top: the first panel starts at -1, not at 9.
    const nose = smallJob([
      elevationE({
        outline: [
          [10, 0],
          [50, 0],
          [50, 20],
          [0, 20],
        ],
        sections: [],
      }),
    ]);
    const one = (left: number): Draft => ({ panels: [{ id: "E/1", window: [left, -1, 51, 21] }] });
    expect(rulesBrokenBy(nose, one(-1))).toEqual([]);
    expect(rulesBrokenBy(nose, one(-1 + TICK))).toEqual(["windowsReachAcross"]);
  });
});

describe("bleed of each side", () => {
  const outline = rectangle(0, 0, 40, 20);
  const bleed = { left: 1, right: 2, bottom: 3, top: 4, openings: 0.5 };
  const openings = [{ id: "door", outline: rectangle(30, -5, 50, 8) }];
  const side = { id: "E", film: "f", outline, openings, bleed };
  const job = smallJob([side, { id: "M", film: "f", mirrorOf: "E" }]);
  const draft = (own: [number, number, number, number], mirrored: [number, number, number, number]): Draft => ({
    panels: [
      { id: "E/1", window: own },
      { id: "M/1", elevation: "M", window: mirrored },
    ],
  });
  test("each side has its own, and in the mirror left and right change places", () => {
    expect(rulesBrokenBy(job, draft([-1, -3, 42, 24], [-2, -3, 41, 24]))).toEqual([]);
  });
  test.each([0, 1, 2, 3] as const)("edge %i a tick short, on both sides of the vehicle", (edge) => {
    const own: [number, number, number, number] = [-1, -3, 42, 24];
    own[edge] += edge < 2 ? TICK : -TICK;
    const mirrored: [number, number, number, number] = [40 - own[2], own[1], 40 - own[0], own[3]];
    const rule = edge === 0 || edge === 2 ? "windowsReachAcross" : "windowsReachAlong";
    expect(rulesBrokenBy(job, draft(own, mirrored))).toEqual([rule]);
  });
  test("a mirror that differs by a tick is no mirror", () => {
    expect(rulesBrokenBy(job, draft([-1, -3, 42, 24], [-2, -3, 41 + TICK, 24]))).toEqual(["mirrorsExact"]);
  });
});

describe("a doorway through the whole height", () => {
  const openings = [{ id: "door", outline: rectangle(40, -1, 60, 21) }];
  const job = smallJob([elevationE({ openings })], { films: [{ id: "f", rollWidths: [110], pricePerArea: 0.01 }] });
  const draft: Draft = {
    panels: [
      { id: "E/1", window: [-1, -1, 41, 21] },
      { id: "E/2", window: [59, -1, 101, 21] },
    ],
  };
  test("panels end with bleed on both sides and no seam", () => {
    expect(rulesBrokenBy(job, draft)).toEqual([]);
    expect(rulesBrokenBy(job, moved(draft, "E/1", 2, -TICK))).toEqual(["windowsReachAcross"]);
    expect(rulesBrokenBy(job, moved(draft, "E/2", 0, TICK))).toEqual(["windowsReachAcross"]);
  });
  test("one panel may span it", () => {
    expect(rulesBrokenBy(job, { panels: [{ id: "E/1", window: [-1, -1, 101, 21] }] })).toEqual([]);
  });
  test("a panel in the doorway covers nothing needed", () => {
    const three = { panels: [...draft.panels, { id: "E/3", window: [42, -1, 58, 21] as const }] };
    expect(rulesBrokenBy(job, three)).toContain("windowsReachAlong");
  });
  test("a strip that ends on the line where film steps down holds that line", () => {
    // Film is 20 high to 50 and 10 high from there; the second window starts at 50, so its strip touches the step.
    const stepped = smallJob([
      elevationE({
        outline: [
          [0, 0],
          [100, 0],
          [100, 10],
          [50, 10],
          [50, 20],
          [0, 20],
        ],
        sections: [],
      }),
    ]);
    const at = (top: number): Draft => ({
      panels: [
        { id: "E/1", window: [-1, -1, 51, 21] },
        { id: "E/2", window: [50, -1, 101, top] },
      ],
      seams: [seamOfE({ at: 50.5, to: 10 })],
      applyOrder: ["E/2", "E/1"],
    });
    expect(rulesBrokenBy(stepped, at(21))).toEqual([]);
    expect(rulesBrokenBy(stepped, at(21 - TICK))).toEqual(["windowsReachAlong"]);
  });
  test("a seam in the doorway is none", () => {
    const lapped = moved(moved(draft, "E/1", 2, 9.5), "E/2", 0, -9.5);
    const withSeam = { ...lapped, seams: [seamOfE({})], applyOrder: ["E/2", "E/1"] };
    expect(rulesBrokenBy(job, withSeam)).toContain("seamLines");
  });
  test("without the doorway, two panels without a seam leave film bare", () => {
    expect(rulesBrokenBy(smallJob([elevationE()], { films: job.films }), draft)).toEqual(["windowsReachAcross"]);
  });
});

describe("sections and their borders", () => {
  const sections = [
    { id: "lower", box: [0, 0, 40, 10], direction: "horizontal" },
    { id: "upper", box: [0, 10, 40, 20], direction: "horizontal" },
  ];
  const boxes = elevationE({ outline: rectangle(0, 0, 40, 20), sections });
  const meeting = border({ axis: "y", at: 10, from: 0, to: 40, between: ["lower", "upper"], top: "upper" });
  const draft = (lowerTop: number, overlap = lowerTop - 9.5): Draft => ({
    panels: [
      { id: "E/lower", section: "lower", direction: "horizontal", window: [-1, -1, 41, lowerTop] },
      { id: "E/upper", section: "upper", direction: "horizontal", window: [-1, 9.5, 41, 21] },
    ],
    seams: [{ ...meeting, overlap, finishedOverlap: overlap }],
  });
  test("windows that meet at a border lap by half each", () => {
    expect(rulesBrokenBy(smallJob([boxes]), draft(10.5))).toEqual([]);
    // 10.5 less a tick: both the reach and the half are short.
    expect(rulesBrokenBy(smallJob([boxes]), draft(10.5 - TICK))).toEqual(["seamOverlaps", "windowsReachAcross"]);
  });
  test("a border with film on both sides is listed once", () => {
    const bare = { ...draft(10.5), seams: [] };
    expect(rulesBrokenBy(smallJob([boxes]), bare)).toEqual(["bordersListed"]);
  });
  test("an opening that touches the border from above asks its bleed of the window below", () => {
    const opened = { ...boxes, bleed: { openings: 3 }, openings: [{ id: "w", outline: rectangle(10, 10, 20, 15) }] };
    // Film lies below the whole line, so the seam runs over 0 to 40; the lower window ends 3 past the opening's sill.
    expect(rulesBrokenBy(smallJob([opened]), draft(13))).toEqual([]);
    expect(rulesBrokenBy(smallJob([opened]), draft(13 - TICK))).toEqual(["windowsReachAcross"]);
  });
  test("panels of a section keep its direction and its greatest width", () => {
    const narrow = (maxAcross: number) =>
      smallJob([{ ...boxes, sections: [{ ...sections[0], maxAcross }, sections[1]] }]);
    expect(rulesBrokenBy(narrow(11.5), draft(10.5))).toEqual([]);
    expect(rulesBrokenBy(narrow(11.5 - TICK), draft(10.5))).toEqual(["panelShape"]);
    const upright = smallJob([{ ...boxes, sections: [{ ...sections[0], direction: "vertical" }, sections[1]] }]);
    expect(rulesBrokenBy(upright, draft(10.5))).toEqual(["panelShape"]);
  });
  test("the least width shared by any two windows across a border is its overlap", () => {
    const split = [{ ...sections[0], direction: "vertical" }, sections[1]];
    const job = smallJob([{ ...boxes, sections: split }]);
    const lower = (tops: readonly [number, number], overlap: number): Draft => ({
      panels: [
        { id: "E/1", section: "lower", window: [-1, -1, 20.5, tops[0]] },
        { id: "E/2", section: "lower", window: [19.5, -1, 41, tops[1]] },
        { id: "E/upper", section: "upper", direction: "horizontal", window: [-1, 9.5, 41, 21] },
      ],
      seams: [
        seamOfE({ section: "lower", at: 20, to: 10 }),
        { ...meeting, id: "b", overlap, finishedOverlap: overlap },
      ],
      applyOrder: ["E/2", "E/1", "E/upper"],
    });
    expect(rulesBrokenBy(job, lower([12, 11], 1.5))).toEqual([]);
    expect(rulesBrokenBy(job, lower([12, 11], 2.5))).toEqual(["seamOverlaps"]);
  });
});

describe("fills", () => {
  const films = [
    { id: "f", rollWidths: [60], pricePerArea: 0.01 },
    { id: "g", rollWidths: [60], pricePerArea: 0.02, lay: "any" },
  ];
  const job = (maxDepth: number) =>
    smallJob(
      [
        elevationE({
          outline: rectangle(0, 0, 40, 30),
          sections: [],
          fill: [
            { edge: "bottom", maxDepth, film: "g" },
            { edge: "left", maxDepth: 4, film: "g" },
          ],
        }),
      ],
      { films },
    );
  // The one along the bottom is listed first and keeps the corner: it is 40 long, the one on the left stands on it.
  const draft: Draft = {
    panels: [
      { id: "E/b", section: "fill-bottom", direction: "horizontal", film: "g", window: [-1, -1, 41, 5.5] },
      { id: "E/l", section: "fill-left", film: "g", window: [-1, 4.5, 4.5, 31] },
      { id: "E/1", window: [3.5, 4.5, 41, 31] },
    ],
    seams: [
      border({ id: "bl", axis: "y", at: 5, from: 0, to: 4, between: ["fill-bottom", "fill-left"], top: "fill-left" }),
      border({ id: "bw", axis: "y", at: 5, from: 4, to: 40, between: ["fill-bottom", "whole"], top: "whole" }),
      border({ id: "lw", axis: "x", at: 4, from: 5, to: 30, between: ["fill-left", "whole"], top: "whole" }),
    ],
  };
  test("two meet at a corner", () => expect(rulesBrokenBy(job(5), draft)).toEqual([]));
  test("no deeper than allowed", () => expect(rulesBrokenBy(job(5 - TICK), draft)).toEqual(["sectionsTile"]));
  test("panels lap over fills, even where the fill is nearer the front", () => {
    const laps = (id: string, top: string): Draft => ({
      ...draft,
      seams: draft.seams?.map((entry) => (entry.id === id ? { ...entry, top } : entry)) ?? [],
      applyOrder: id === "lw" ? ["E/b", "E/1", "E/l"] : ["E/l", "E/b", "E/1"],
    });
    expect(rulesBrokenBy(job(5), laps("lw", "fill-left"))).toEqual(["lapsRight"]);
    expect(rulesBrokenBy(job(5), laps("bl", "fill-bottom"))).toEqual(["lapsRight"]);
  });
  test("a fill that the job doesn't allow", () => {
    const without = smallJob([elevationE({ outline: rectangle(0, 0, 40, 30), sections: [] })], { films });
    expect(rulesBrokenBy(without, draft)).toContain("sectionsTile");
  });
  test("two borders of one fill agree on its depth", () => {
    const torn = {
      ...draft,
      seams: draft.seams?.map((entry) => (entry.id === "bw" ? { ...entry, at: 4.9 } : entry)) ?? [],
    };
    expect(rulesBrokenBy(job(5), torn)).toContain("sectionsTile");
  });
  test("the end of a fill over a bare band needs no border", () => {
    // Nothing is needed between 5 and 8: the fill ends there with bleed, and so does the panel above.
    const openings = [{ id: "band", outline: rectangle(-1, 5, 41, 8) }];
    const banded = smallJob(
      [
        elevationE({
          outline: rectangle(0, 0, 40, 30),
          sections: [],
          openings,
          fill: [{ edge: "bottom", maxDepth: 6, film: "g" }],
        }),
      ],
      { films },
    );
    const apart: Draft = {
      panels: [
        { id: "E/b", section: "fill-bottom", direction: "horizontal", film: "g", window: [-1, -1, 41, 6] },
        { id: "E/1", window: [-1, 7, 41, 31] },
      ],
    };
    expect(rulesBrokenBy(banded, apart)).toEqual([]);
    expect(rulesBrokenBy(banded, moved(apart, "E/b", 3, -TICK))).toEqual(["windowsReachAcross"]);
    expect(rulesBrokenBy(banded, moved(apart, "E/1", 1, TICK))).toEqual(["windowsReachAlong"]);
  });
});

describe("kinds, breaks and what they ask", () => {
  const withLines = (more: Document) => smallJob([elevationE(more)]);
  const line = (more: Document) => ({ id: "b", axis: "x", at: 50, from: 0, to: 20, ...more });
  const lapped = (half: number, kind: string, finishedOverlap: number): Draft => ({
    panels: [
      { id: "E/1", window: [-1, -1, 50 + half, 21] },
      { id: "E/2", window: [50 - half, -1, 101, 21] },
    ],
    seams: [seamOfE({ kind, overlap: 2 * half, finishedOverlap })],
    applyOrder: ["E/2", "E/1"],
  });
  test("a gap asks the trim, a moulding its own width where that is more", () => {
    const gap = withLines({ breaks: [line({})] });
    expect(rulesBrokenBy(gap, lapped(2, "break", 0))).toEqual([]);
    expect(rulesBrokenBy(gap, lapped(2 - TICK, "break", 0))).toEqual(["seamOverlaps"]);
    const moulding = withLines({ breaks: [line({ type: "moulding", width: 6 })] });
    expect(rulesBrokenBy(moulding, lapped(3, "break", 0))).toEqual([]);
    expect(rulesBrokenBy(moulding, lapped(3 - TICK, "break", 0))).toEqual(["seamOverlaps"]);
  });
  test("a body line hides a seam that laps as usual", () => {
    expect(rulesBrokenBy(withLines({ breaks: [line({ type: "bodyLine" })] }), lapped(0.5, "bodyLine", 1))).toEqual([]);
    expect(rulesBrokenBy(withLines({ breaks: [line({ type: "bodyLine" })] }), lapped(0.5, "open", 1))).toEqual([
      "seamKinds",
    ]);
  });
  test("a colour edge is trimmed past the edge, and a break comes before it", () => {
    const colourEdges = [{ id: "c", axis: "x", at: 50, from: 0, to: 20 }];
    expect(rulesBrokenBy(withLines({ colourEdges }), lapped(0.5, "colourEdge", 0.25))).toEqual([]);
    expect(rulesBrokenBy(withLines({ colourEdges, breaks: [line({})] }), lapped(0.5, "colourEdge", 0.25))).toEqual([
      "seamKinds",
      "seamOverlaps",
    ]);
  });
  test("a break over part of the line, or a tick beside it, leaves the seam open", () => {
    expect(rulesBrokenBy(withLines({ breaks: [line({ to: 20 - TICK })] }), lapped(0.5, "open", 1))).toEqual([]);
    expect(rulesBrokenBy(withLines({ breaks: [line({ at: 50 + TICK })] }), lapped(0.5, "open", 1))).toEqual([]);
  });
  test("a break that must split has its seam, where it spans what is needed", () => {
    const off = withLines({ breaks: [line({ at: 40, mustSplit: true })] });
    expect(rulesBrokenBy(off, halves)).toEqual(["mustSplit"]);
    expect(rulesBrokenBy(withLines({ breaks: [line({ at: 40, to: 19, mustSplit: true })] }), halves)).toEqual([]);
    expect(rulesBrokenBy(withLines({ breaks: [line({ mustSplit: true })] }), lapped(2, "break", 0))).toEqual([]);
  });
  test("a seam a tick off its break is open and laps too little for nothing else", () => {
    const job = withLines({ breaks: [line({ at: 50 + TICK, mustSplit: true })] });
    expect(rulesBrokenBy(job, halves)).toEqual(["mustSplit"]);
  });
  test("most open seams", () => {
    const most = (maxOpenSeams: number) => smallJob([elevationE()], { rules: { maxOpenSeams } });
    expect(rulesBrokenBy(most(1), halves)).toEqual([]);
    expect(rulesBrokenBy(most(0), halves)).toEqual(["openSeams"]);
  });
  test.each([
    ["left", "E/1"],
    ["right", "E/2"],
    ["up", "E/1"],
    ["down", "E/1"],
    ["none", "E/1"],
  ])("the front to the %s: %s on top", (travel, top) => {
    const job = smallJob([elevationE({ travel })]);
    const lap = (over: string): Draft => ({
      ...halves,
      seams: [seamOfE({ top: over })],
      applyOrder: over === "E/1" ? ["E/2", "E/1"] : ["E/1", "E/2"],
    });
    expect(rulesBrokenBy(job, lap(top))).toEqual([]);
    expect(rulesBrokenBy(job, lap(top === "E/1" ? "E/2" : "E/1"))).toEqual(["lapsRight"]);
    expect(rulesBrokenBy(job, { ...lap(top), applyOrder: [top, top === "E/1" ? "E/2" : "E/1"] })).toEqual([
      "applyOrder",
    ]);
  });
});

describe("zones to keep clear", () => {
  const zone = (box: number[], rule = "never") => ({ id: "z", label: "name", box, rule });
  const withZone = (more: Document) => smallJob([elevationE(more)]);
  test("the shared band may touch it and no more", () => {
    expect(rulesBrokenBy(withZone({ keepClear: [zone([50.5, 5, 60, 15])] }), halves)).toEqual([]);
    expect(rulesBrokenBy(withZone({ keepClear: [zone([50.5 - TICK, 5, 60, 15])] }), halves)).toEqual(["keepClear"]);
    expect(rulesBrokenBy(withZone({ keepClear: [zone([40, 20, 60, 30])] }), halves)).toEqual([]);
  });
  test("an obstacle keeps its clearance", () => {
    const obstacle = (clearance: number) => [{ id: "o", kind: "lamp", box: [52, 5, 54, 15], rule: "never", clearance }];
    expect(rulesBrokenBy(withZone({ obstacles: obstacle(1.5) }), halves)).toEqual([]);
    expect(rulesBrokenBy(withZone({ obstacles: obstacle(1.5 + TICK) }), halves)).toEqual(["keepClear"]);
  });
  test("at a break only the line counts", () => {
    const breaks = [{ id: "b", axis: "x", at: 50, from: 0, to: 20 }];
    const draft: Draft = {
      ...moved(moved(halves, "E/1", 2, 1.5), "E/2", 0, -1.5),
      seams: [seamOfE({ kind: "break", overlap: 4, finishedOverlap: 0 })],
    };
    expect(rulesBrokenBy(withZone({ breaks, keepClear: [zone([50, 5, 60, 15])] }), draft)).toEqual([]);
    expect(rulesBrokenBy(withZone({ breaks, keepClear: [zone([50 - TICK, 5, 60, 15])] }), draft)).toEqual([
      "keepClear",
    ]);
  });
  test("what is avoided costs a penalty for each seam that meets it, a break too", () => {
    const two = [zone([45, 5, 55, 15], "avoid"), { ...zone([45, 0, 55, 2], "avoid"), id: "y" }];
    expect(rulesBrokenBy(withZone({ keepClear: two }), { ...halves, penalties: 2 })).toEqual([]);
    expect(rulesBrokenBy(withZone({ keepClear: two }), { ...halves, penalties: 1 })).toEqual(["costAgrees"]);
  });
  test("a band over an opening reaches only from its lowest to its highest needed point", () => {
    const openings = [{ id: "arch", outline: rectangle(45, -1, 55, 6) }];
    const draft = { ...halves, seams: [seamOfE({ from: 6 })] };
    expect(rulesBrokenBy(withZone({ openings, keepClear: [zone([45, 0, 55, 6])] }), draft)).toEqual([]);
    expect(rulesBrokenBy(withZone({ openings, keepClear: [zone([45, 0, 55, 6 + TICK])] }), draft)).toEqual([
      "keepClear",
    ]);
  });
});
