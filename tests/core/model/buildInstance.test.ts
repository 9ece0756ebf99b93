import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { buildInstance } from "../../../core/model/buildInstance.ts";
import type { Instance } from "../../../core/model/instance.ts";
import type { Problem } from "../../../core/model/problem.ts";
import { readJob } from "../../../core/model/readJob.ts";

const inch = 1_016_000;
const rules = { bleed: 3, overlap: 1, colourEdgeOverlap: 0.25, trimOverlap: 4, cutGap: 1, leader: 12, trailer: 6 };
const square = [
  [0, 0],
  [100, 0],
  [100, 50],
  [0, 50],
];
const cast = { id: "cast", rollWidths: [60, 54, 60], edgeMargin: 0.5 };

type Part = Record<string, unknown>;
const wall = (more: Part = {}): Part => ({ id: "wall", film: "cast", outline: square, ...more });
const job = (elevations: Part[], more: Part = {}): Part => ({
  format: "lapwright-job",
  version: 1,
  units: "in",
  elevations,
  films: [cast],
  rules,
  ...more,
});

function build(data: Part) {
  const { job: read, problems } = readJob(data);
  if (read === null) throw new Error(JSON.stringify(problems));
  return buildInstance(read);
}
function instanceOf(data: Part): Instance {
  const built = build(data);
  if (!("instance" in built)) throw new Error(JSON.stringify(built.problems));
  return built.instance;
}
const problemsOf = (data: Part): readonly Problem[] => {
  const built = build(data);
  return "problems" in built ? built.problems : [];
};
const pathsOf = (data: Part): string[] => problemsOf(data).map(({ path }) => path);
const ticks = (...values: number[]): number[] => values.map((value) => value * inch);

describe("defaults", () => {
  test("an empty job is an instance with nothing in it", () => {
    const instance = instanceOf(job([], { films: [], pieces: null, stock: null }));
    expect([instance.elevations, instance.pieces, instance.films, instance.stock]).toEqual([[], [], [], []]);
    expect(instance.rules.sliverUnder).toBe(6 * inch);
  });

  test("roll widths come narrowest first and once; one section covers the box", () => {
    const instance = instanceOf(job([wall({ keepClear: null, sections: [] })]));
    expect(instance.films[0]?.rollWidths).toEqual(ticks(54, 60));
    expect(instance.elevations[0]?.sections).toEqual([
      {
        id: "whole",
        box: { x0: 0, y0: 0, x1: 100 * inch, y1: 50 * inch },
        direction: "either",
        maxAcross: null,
        heads: "same",
      },
    ]);
  });

  test("new rolls: none for a film in stock, no limit for one that is not, as said where it is said", () => {
    const stock = [{ id: "R", film: "cast", width: 54, length: 100 }];
    expect(instanceOf(job([])).films[0]?.newRolls).toBe(null);
    expect(instanceOf(job([], { stock })).films[0]?.newRolls).toBe(0);
    expect(instanceOf(job([], { stock, films: [{ ...cast, newRolls: null }] })).films[0]?.newRolls).toBe(null);
    expect(instanceOf(job([], { films: [{ ...cast, newRolls: 3 }] })).films[0]?.newRolls).toBe(3);
  });

  test("bleed: one number for all sides, or side by side with the rule for the rest", () => {
    const bleed = (value: unknown) => instanceOf(job([wall({ bleed: value })])).elevations[0]?.bleed;
    const [three, two, zero] = [3 * inch, 2 * inch, 0];
    expect(bleed(null)).toEqual({ left: three, right: three, bottom: three, top: three, openings: three });
    expect(bleed(2)).toEqual({ left: two, right: two, bottom: two, top: two, openings: two });
    expect(bleed({ left: 0 })).toEqual({ left: zero, right: three, bottom: three, top: three, openings: three });
  });

  test("a job in millimetres is read with 40,000 ticks each", () => {
    const instance = instanceOf(
      job([wall()], { units: "mm", films: [{ id: "cast", rollWidths: [1372], edgeMargin: 10 }] }),
    );
    expect(instance.films[0]?.rollWidths).toEqual([1372 * 40_000]);
  });

  test("a first point repeated at the end, and points repeated one after another, are left out", () => {
    const instance = instanceOf(job([wall({ outline: [...square, [0, 50], [0, 0]] })]));
    expect(instance.elevations[0]?.outline.length).toBe(4);
  });
});

describe("mirrors", () => {
  // Box 10..110 across, so x goes to 120 - x.
  const source = {
    id: "left",
    film: "cast",
    count: 2,
    travel: "left",
    subject: "bus",
    bleed: { left: 1, right: 2 },
    outline: square.map(([x, y]) => [(x ?? 0) + 10, y]),
    openings: [
      {
        id: "w",
        outline: [
          [20, 5],
          [40, 5],
          [40, 15],
        ],
      },
    ],
    sections: [
      { id: "front", box: [10, 0, 50, 50], direction: "vertical", maxAcross: 48 },
      { id: "back", box: [50, 0, 110, 50] },
    ],
    keepClear: [{ id: "name", box: [30, 10, 60, 20], rule: "never" }],
    breaks: [
      { id: "door", axis: "x", at: 35, from: 0, to: 40 },
      { id: "sill", axis: "y", at: 8, from: 10, to: 70, type: "bodyLine" },
    ],
    colourEdges: [{ id: "band", axis: "y", at: 22, from: 15, to: 60 }],
    obstacles: [{ id: "lamp", box: [12, 2, 14, 4], clearance: 1 }],
    fill: [{ edge: "left", maxDepth: 4, film: "cast" }],
  };
  const mirror = (more: Part = {}) => ({ id: "right", mirrorOf: "left", count: 3, ...more });
  const one = (elevations: Part[], id: string) => {
    const found = instanceOf(job(elevations)).elevations.find((elevation) => elevation.id === id);
    if (found === undefined) throw new Error(id);
    return found;
  };

  test("everything is reflected in the middle of the source's box", () => {
    const right = one([source, mirror()], "right");
    expect(right.count).toBe(3);
    expect([right.film, right.travel, right.subject, right.mirrorOf]).toEqual(["cast", "right", null, "left"]);
    expect(right.box).toEqual({ x0: 10 * inch, y0: 0, x1: 110 * inch, y1: 50 * inch });
    expect(right.outline.map(({ x, y }) => [x / inch, y / inch])).toEqual([
      [110, 0],
      [10, 0],
      [10, 50],
      [110, 50],
    ]);
    expect(right.openings[0]?.outline.map(({ x }) => x / inch)).toEqual([100, 80, 80]);
    expect(right.sections.map(({ id, box, maxAcross }) => [id, box.x0 / inch, box.x1 / inch, maxAcross])).toEqual([
      ["front", 70, 110, 48 * inch],
      ["back", 10, 70, null],
    ]);
    expect(right.keepClear[0]?.box).toEqual({ x0: 60 * inch, y0: 10 * inch, x1: 90 * inch, y1: 20 * inch });
    expect(right.breaks.map(({ at, from, to }) => [at / inch, from / inch, to / inch])).toEqual([
      [85, 0, 40],
      [8, 50, 110],
    ]);
    expect(right.colourEdges[0]).toEqual({
      id: "band",
      axis: "y",
      at: 22 * inch,
      from: 60 * inch,
      to: 105 * inch,
      path: null,
    });
    expect(right.obstacles[0]?.box).toEqual({ x0: 106 * inch, y0: 2 * inch, x1: 108 * inch, y1: 4 * inch });
    expect(right.fill).toEqual([{ edge: "right", maxDepth: 4 * inch, film: "cast" }]);
    expect([right.bleed.left, right.bleed.right]).toEqual([2 * inch, inch]);
  });

  test("a chain reflects twice, whatever the order in the file, and keeps what its middle changed", () => {
    const third = { id: "third", mirrorOf: "right" };
    const obstacles = [{ id: "flap", box: [20, 2, 24, 4] }];
    const found = one([third, mirror({ obstacles, travel: "none" }), source], "third");
    const left = one([source], "left");
    expect(found.outline).toEqual(left.outline);
    expect(found.sections).toEqual(left.sections);
    expect(found.travel).toBe("none");
    expect(found.obstacles[0]?.box).toEqual({ x0: 96 * inch, y0: 2 * inch, x1: 100 * inch, y1: 4 * inch });
  });

  test("a list of its own replaces the mirrored one unless it is empty", () => {
    const found = one(
      [source, mirror({ keepClear: [], breaks: [{ id: "b", axis: "x", at: 20, from: 0, to: 50 }] })],
      "right",
    );
    expect(found.keepClear.length).toBe(1);
    expect(found.breaks.map(({ id, at }) => [id, at / inch])).toEqual([["b", 20]]);
  });

  test("what a mirror cannot have of its own is a warning, an outline a problem", () => {
    const built = build(job([source, mirror({ bleed: 1, sections: [{ id: "s", box: [0, 0, 1, 1] }] })]));
    expect(built.warnings.map(({ path }) => path)).toEqual(["elevations[1].sections", "elevations[1].bleed"]);
    expect("instance" in built).toBe(true);
    expect(pathsOf(job([source, mirror({ outline: square })]))).toEqual(["elevations[1].outline"]);
  });

  test("a missing source and circles are told, each once", () => {
    expect(pathsOf(job([mirror()]))).toEqual(["elevations[0].mirrorOf"]);
    expect(pathsOf(job([{ id: "a", mirrorOf: "a" }]))).toEqual(["elevations[0].mirrorOf"]);
    const circle = [
      { id: "z", mirrorOf: "a" },
      { id: "a", mirrorOf: "b" },
      { id: "b", mirrorOf: "a" },
    ];
    expect(pathsOf(job(circle))).toEqual(["elevations[1].mirrorOf"]);
  });
});

describe("what is refused", () => {
  const cases: [string, Part, string[]][] = [
    ["no outline and no mirror", job([{ id: "a", film: "cast" }]), ["elevations[0].outline"]],
    ["no film", job([{ id: "a", outline: square }]), ["elevations[0].film"]],
    ["an unknown film", job([wall({ film: "cats" })]), ["elevations[0].film"]],
    ["two of one id", job([wall(), wall()]), ["elevations[1].id"]],
    [
      "ids twice in a list of an elevation",
      job([wall({ breaks: [0, 1].map((at) => ({ id: "b", axis: "x", at, from: 0, to: 1 })) })]),
      ["elevations[0].breaks[1].id"],
    ],
    [
      "films, rolls and pieces twice",
      job([], {
        films: [cast, cast],
        stock: [0, 1].map(() => ({ id: "R", film: "cast", width: 54, length: 100 })),
        pieces: [0, 1].map(() => ({ id: "p", role: "decal", film: "cast", outline: square })),
      }),
      ["films[1].id", "stock[1].id", "pieces[1].id"],
    ],
    [
      "unequal counts of a subject",
      job([wall({ subject: "bus" }), wall({ id: "b", subject: "bus", count: 2 })]),
      ["elevations[1].count"],
    ],
    [
      "a bow tie",
      job([
        wall({
          outline: [
            [0, 0],
            [10, 10],
            [10, 0],
            [0, 10],
          ],
        }),
      ]),
      ["elevations[0].outline"],
    ],
    [
      "a line for an outline",
      job([
        wall({
          outline: [
            [0, 0],
            [10, 10],
            [20, 20],
          ],
        }),
      ]),
      ["elevations[0].outline"],
    ],
    [
      "one place three times",
      job([
        wall({
          outline: [
            [1, 1],
            [1, 1],
            [1, 1],
          ],
        }),
      ]),
      ["elevations[0].outline"],
    ],
    [
      "a crossing opening",
      job([
        wall({
          openings: [
            {
              id: "o",
              outline: [
                [0, 0],
                [10, 10],
                [10, 0],
                [0, 10],
              ],
            },
          ],
        }),
      ]),
      ["elevations[0].openings[0].outline"],
    ],
    [
      "a coordinate too far out",
      job([
        wall({
          outline: [
            [0, 0],
            [1_000_000, 0],
            [0, 10],
          ],
        }),
      ]),
      ["elevations[0].outline[1]"],
    ],
    [
      "sections that overlap",
      job([
        wall({
          sections: [
            { id: "a", box: [0, 0, 60, 50] },
            { id: "b", box: [50, 0, 100, 50] },
          ],
        }),
      ]),
      ["elevations[0].sections[1].box"],
    ],
    [
      "sections with a hole",
      job([
        wall({
          sections: [
            { id: "a", box: [0, 0, 50, 50] },
            { id: "b", box: [50, 0, 100, 49.999] },
          ],
        }),
      ]),
      ["elevations[0].sections"],
    ],
    [
      "a section outside",
      job([wall({ sections: [{ id: "a", box: [0, 0, 101, 50] }] })]),
      ["elevations[0].sections[0].box"],
    ],
    [
      "a box reversed",
      job([wall({ keepClear: [{ id: "k", box: [10, 0, 5, 5], rule: "never" }] })]),
      ["elevations[0].keepClear[0].box"],
    ],
    [
      "a box without height",
      job([wall({ sections: [{ id: "a", box: [0, 50, 100, 50] }] })]),
      ["elevations[0].sections[0].box"],
    ],
    [
      "a break backwards",
      job([wall({ breaks: [{ id: "b", axis: "x", at: 5, from: 9, to: 1 }] })]),
      ["elevations[0].breaks[0].from"],
    ],
    [
      "a fill of no known film, and an edge twice",
      job([
        wall({
          fill: [
            { edge: "top", maxDepth: 1, film: "x" },
            { edge: "top", maxDepth: 2, film: "cast" },
          ],
        }),
      ]),
      ["elevations[0].fill[1].edge", "elevations[0].fill[0].film"],
    ],
    [
      "overlaps out of order",
      job([], { rules: { ...rules, overlap: 5, colourEdgeOverlap: 6 } }),
      ["rules.trimOverlap", "rules.colourEdgeOverlap"],
    ],
    [
      "margins that use up the width",
      job([], { films: [{ id: "f", rollWidths: [54, 10], edgeMargin: 5 }] }),
      ["films[0].rollWidths[1]"],
    ],
    [
      "ends that use up the roll",
      job([], { films: [{ ...cast, rollLength: 18, maxRun: 10 }] }),
      ["films[0].rollLength", "films[0].maxRun"],
    ],
    [
      "pieces of no known film or elevation",
      job([], { pieces: [{ id: "p", role: "decal", film: "x", outline: square, elevation: "y" }] }),
      ["pieces[0].elevation", "pieces[0].film"],
    ],
    [
      "more than 200,000 pieces",
      job([wall()], { pieces: [{ id: "p", role: "decal", film: "cast", outline: square, count: 200_000 }] }),
      ["job"],
    ],
    [
      "everything at once",
      job(
        [
          wall({
            film: "x",
            outline: [
              [0, 0],
              [0, 0],
              [5, 5],
            ],
          }),
          { id: "m", mirrorOf: "n" },
        ],
        { rules: { ...rules, trimOverlap: 0 } },
      ),
      ["rules.trimOverlap", "elevations[0].outline", "elevations[1].mirrorOf", "elevations[0].film"],
    ],
  ];
  test.each(cases)("%s", (_, data, paths) => {
    expect(pathsOf(data)).toEqual(paths);
    for (const { why, mend } of problemsOf(data)) expect(Math.min(why.length, mend.length)).toBeGreaterThan(10);
  });

  test("limits are met exactly", () => {
    expect(pathsOf(job([], { films: [{ ...cast, rollLength: 18.001 }] }))).toEqual([]);
    expect(pathsOf(job([], { films: [{ id: "f", rollWidths: [10.001], edgeMargin: 5 }] }))).toEqual([]);
    expect(pathsOf(job([], { rules: { ...rules, overlap: 4, colourEdgeOverlap: 4 } }))).toEqual([]);
    const pieces = [{ id: "p", role: "decal", film: "cast", outline: square, count: 199_999 }];
    expect(pathsOf(job([wall()], { pieces }))).toEqual([]);
  });

  test("ten thousand points are read, and a crossing among them found", () => {
    const circle = Array.from({ length: 10_000 }, (_, i) => [
      100 * Math.cos((i * Math.PI) / 5000),
      100 * Math.sin((i * Math.PI) / 5000),
    ]);
    expect(pathsOf(job([wall({ outline: circle })]))).toEqual([]);
    const tangled = circle.map((point, i) => (i === 7000 ? [0, 101] : point));
    expect(pathsOf(job([wall({ outline: tangled })]))).toEqual(["elevations[0].outline"]);
  });
});

describe("warnings", () => {
  const warned = (data: Part) => build(data).warnings.map(({ path }) => path);
  const open = (...outline: number[][]) => ({ id: "o", outline });
  test("stock on which nothing can be printed", () => {
    const stock = [
      { id: "a", film: "cast", width: 1, length: 100 },
      { id: "b", film: "cast", width: 54, length: 18 },
    ];
    expect(warned(job([], { stock }))).toEqual(["stock[0].width", "stock[1].length"]);
  });
  test("openings outside, and openings that leave nothing", () => {
    const outside = open([200, 0], [210, 0], [210, 5]);
    const all = open([-1, -1], [101, -1], [101, 51], [-1, 51]);
    const nearly = open([-1, -1], [99.9, -1], [99.9, 51], [-1, 51]);
    expect(warned(job([wall({ openings: [outside] })]))).toEqual(["elevations[0].openings[0].outline"]);
    expect(warned(job([wall({ openings: [all] })]))).toEqual(["elevations[0].openings"]);
    expect(warned(job([wall({ openings: [nearly] })]))).toEqual([]);
  });
});

test("the worked example becomes an instance without a warning", () => {
  const example = new URL("../../data/puppet-booth.job.json", import.meta.url);
  const built = build(JSON.parse(readFileSync(example, "utf8")));
  expect(built.warnings).toEqual([]);
  expect("instance" in built && built.instance.elevations.map(({ id }) => id)).toEqual(["A", "B", "C", "D"]);
});
