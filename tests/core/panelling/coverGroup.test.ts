import { describe, expect, test } from "vitest";
import type { Covering, PanellingLimits } from "../../../core/model/covering.ts";
import type { Break, Elevation, Instance, Rules } from "../../../core/model/instance.ts";
import { coverGroup } from "../../../core/panelling/coverGroup.ts";
import { TICKS_PER } from "../../../core/units/ticks.ts";
import { boxOf, elevationOf, inch, instanceOf, limitsOf, plainFilm, quietRun, rectangle } from "./builders.ts";

function cover(
  source: Elevation,
  limits: PanellingLimits,
  rules: Partial<Rules> = {},
  mirrors: readonly Elevation[] = [],
  films = [plainFilm],
): readonly Covering[] {
  const answer = coverGroup(instanceOf([source, ...mirrors], rules, films), source, mirrors, limits, quietRun);
  if ("reasons" in answer) throw new Error(answer.reasons.map(({ why }) => why).join(" "));
  return answer.coverings;
}

function reasons(source: Elevation, limits: PanellingLimits, rules: Partial<Rules> = {}) {
  const instance: Instance = instanceOf([source], rules);
  const answer = coverGroup(instance, source, [], limits, quietRun);
  if ("coverings" in answer) throw new Error("a covering was found");
  return answer.reasons;
}

const inches = (ticks: number) => ticks / TICKS_PER.in;
const widths = ({ panels }: Covering) => panels.map(({ across }) => inches(across)).sort((a, b) => b - a);
const places = ({ seams }: Covering) => seams.map(({ at }) => inches(at));

const word = (box: [number, number, number, number], rule: "never" | "avoid" = "never") => ({
  id: "name",
  label: "Library",
  box: boxOf(...box),
  rule,
  reason: "lettering",
});

const breakAt = (at: number, given: Partial<Break> = {}): Break => ({
  id: `gap${at}`,
  axis: "x",
  at: inch(at),
  from: inch(0),
  to: inch(200),
  type: "gap",
  width: 0,
  mustSplit: false,
  ...given,
});

// TRADE.md section 6, worked jobs; n = 1 if S <= P, else ceil((S - o) / (P - o)), last panel = S - (n - 1)(P - o).
describe("the worked jobs", () => {
  const jobs = [
    { name: "1", w: 240, h: 90, bleed: 2, overlap: 0.5, counts: { 54: [5, 34, 2, 41.5], 60: [5, 10, 2, 35.5] } },
    { name: "2", w: 396, h: 78, bleed: 3, overlap: 1, counts: { 54: [8, 38, 2, 32], 60: [7, 54, 2, 26] } },
    { name: "5", w: 636, h: 108, bleed: 2, overlap: 0.5, counts: { 54: [13, 10, 3, 7], 60: [11, 55, 2, 53.5] } },
    { name: "6", w: 130, h: 43, bleed: 1, overlap: 0.5, counts: { 54: [3, 27, 1, 45], 60: [3, 15, 1, 45] } },
  ] as const;
  for (const { name, w, h, bleed, overlap, counts } of jobs) {
    for (const roll of [54, 60] as const) {
      for (const direction of ["vertical", "horizontal"] as const) {
        test(`job ${name}, ${roll} in ${direction}`, () => {
          const [covering] = cover(elevationOf(rectangle(0, 0, w, h), bleed), limitsOf(roll, direction), {
            overlap: inch(overlap),
          });
          const [count, last] = counts[roll].slice(direction === "vertical" ? 0 : 2) as [number, number];
          const rest = Array.from({ length: count - 1 }, () => roll - 1);
          expect(widths(covering as Covering)).toEqual([...rest, last]);
          const along = (direction === "vertical" ? h : w) + 2 * bleed;
          expect(covering?.panels.every((panel) => inches(panel.along) === along)).toBe(true);
          expect(covering?.measures.visibleSeams).toBe(count - 1);
          expect(inches(covering?.measures.visibleLength as number)).toBe(
            (count - 1) * (direction === "vertical" ? h : w),
          );
        });
      }
    }
  }

  test("job 4 without its door: a sliver of 3.25 in is shared out", () => {
    // 60 V: 178 in in steps of 58.25 is 4 panels, the last 3.25 in: a sliver. Equal shares are (178 + 3 x 0.75) / 4 = 45.0625.
    const wall = elevationOf(rectangle(0, 0, 174, 96), 2);
    const [covering] = cover(wall, limitsOf(60, "vertical"), { overlap: inch(0.75) });
    expect(covering?.panels.length).toBe(4);
    for (const width of widths(covering as Covering)) expect(Math.abs(width - 45.0625)).toBeLessThanOrEqual(1 / 8);
  });

  test("job 4 with its door: 4 panels do, and a fifth over the door may save film", () => {
    const wall = elevationOf(rectangle(0, 0, 174, 96), 2, {
      openings: [{ id: "door", outline: rectangle(60, 0, 96, 80) }],
    });
    const coverings = cover(wall, limitsOf(60, "vertical"), { overlap: inch(0.75) });
    const [five, four] = [5, 4].map((count) => coverings.find(({ panels }) => panels.length === count) as Covering);
    expect(four?.measures.visibleSeams).toBe(3);
    // Between two seams beside the door a panel need only be 96 + 2 - 80 + 2 = 20 in long.
    expect(five?.panels.some(({ along }) => inches(along) === 20)).toBe(true);
    expect(five?.measures.windowArea).toBeLessThan(four?.measures.windowArea as number);
  });

  test("job 7: sections fixed at door gaps, 6 panels on 54 in and 5 on 60 in", () => {
    // Sections 44, 57, 51, 38 with 2 in extra at both ends: 48, 61, 55, 42; those over the printable width are halved.
    const van = elevationOf(rectangle(0, 0, 190, 70), 2, {
      breaks: [44, 101, 152].map((at) => breakAt(at, { mustSplit: true })),
    });
    const rules = { overlap: inch(0.5), trimOverlap: inch(4) };
    const [narrow] = cover(van, limitsOf(54, "vertical"), rules);
    const [wide] = cover(van, limitsOf(60, "vertical"), rules);
    expect(narrow?.panels.length).toBe(6);
    expect(wide?.panels.length).toBe(5);
    // Two open seams on 54 in, one on 60; the three at gaps can't be seen.
    expect(narrow?.measures.visibleSeams).toBe(2);
    expect(wide?.measures.visibleSeams).toBe(1);
    expect(wide?.seams.filter(({ kind }) => kind === "break").map(({ at }) => inches(at))).toEqual([44, 101, 152]);
    expect(wide?.seams.filter(({ kind }) => kind === "break").every(({ overlap }) => inches(overlap) === 4)).toBe(true);
  });
});

describe("edges of the arithmetic", () => {
  const flank = (width: number) => elevationOf(rectangle(0, 0, width, 60), 0);
  test("as wide as printable: one panel", () => {
    expect(widths(cover(flank(53), limitsOf(54, "vertical"))[0] as Covering)).toEqual([53]);
  });
  test("a tick wider: two", () => {
    expect(cover(flank(53 + 1 / TICKS_PER.in), limitsOf(54, "vertical"))[0]?.panels.length).toBe(2);
  });
  test("printable width and a full step more: exactly two full panels", () => {
    expect(widths(cover(flank(53 + 52), limitsOf(54, "vertical"))[0] as Covering)).toEqual([53, 53]);
  });
  test("no overlap: widths add up to the whole", () => {
    expect(
      widths(cover(flank(106), limitsOf(54, "vertical"), { overlap: 0, colourEdgeOverlap: 0 })[0] as Covering),
    ).toEqual([53, 53]);
  });
  test("an outline under openings alone needs no panel", () => {
    const bare = elevationOf(rectangle(0, 0, 50, 20), 2, {
      openings: [{ id: "all", outline: rectangle(-1, -1, 51, 21) }],
    });
    expect(cover(bare, limitsOf(54))[0]?.panels).toEqual([]);
  });
});

test("a gap of the section takes no seam and ends with bleed, or one panel spans it", () => {
  // A doorway from 40 to 60 over the whole height: 0..40 and 60..100, bleed 2 (openings too).
  const front = elevationOf(rectangle(0, 0, 100, 60), 2, {
    openings: [{ id: "door", outline: rectangle(40, -5, 60, 70) }],
  });
  const [apart] = cover(front, limitsOf(54, "vertical"));
  expect(apart?.panels.map(({ window }) => [inches(window.x0), inches(window.x1)])).toEqual([
    [-2, 42],
    [58, 102],
  ]);
  expect(apart?.seams).toEqual([]);
  const [spanning] = cover(
    elevationOf(rectangle(0, 0, 49, 60), 2, { openings: [{ id: "slot", outline: rectangle(20, -5, 25, 70) }] }),
    limitsOf(54, "vertical"),
  );
  expect(widths(spanning as Covering)).toEqual([53]);
});

describe("mirrors", () => {
  const left = elevationOf(rectangle(0, 0, 100, 60), 2, {
    travel: "left",
    count: 2,
    breaks: [breakAt(30)],
    sections: [
      { id: "whole", box: boxOf(0, 0, 100, 60), direction: "vertical", maxAcross: null, heads: "same" as const },
    ],
  });
  const right: Elevation = { ...left, id: "right", mirrorOf: "left", travel: "right", count: 1, breaks: [] };
  const again: Elevation = { ...left, id: "third", mirrorOf: "right", breaks: [breakAt(30, { type: "bodyLine" })] };
  const covering = cover(left, limitsOf(80), {}, [right, again]).find(({ seams }) =>
    seams.some(({ at }) => at === inch(30)),
  ) as Covering;
  const of = (id: string) => ({
    panels: covering.panels.filter(({ elevation }) => elevation === id),
    seams: covering.seams.filter(({ elevation }) => elevation === id),
  });

  test("windows are mirror images, numbered left to right on each side", () => {
    // Break at 30 with trim overlap 4: windows -2..32 and 28..102; mirrored in 0..100: -2..72 and 68..102.
    const range = (id: string) =>
      of(id).panels.map(({ id: panel, window }) => [panel, inches(window.x0), inches(window.x1)]);
    expect(range("left")).toEqual([
      ["left/whole/1", -2, 32],
      ["left/whole/2", 28, 102],
    ]);
    expect(range("right")).toEqual([
      ["right/whole/1", -2, 72],
      ["right/whole/2", 68, 102],
    ]);
    expect(range("third")).toEqual([
      ["third/whole/1", -2, 32],
      ["third/whole/2", 28, 102],
    ]);
  });
  test("each side's seam has its own kind and lap", () => {
    const seam = (id: string) =>
      of(id).seams.map(({ at, kind, overlap, finishedOverlap, top }) => [
        inches(at),
        kind,
        inches(overlap),
        inches(finishedOverlap),
        top,
      ]);
    expect(seam("left")).toEqual([[30, "break", 4, 0, "left/whole/1"]]);
    expect(seam("right")).toEqual([[70, "open", 4, 4, "right/whole/2"]]);
    expect(seam("third")).toEqual([[30, "bodyLine", 4, 4, "third/whole/1"]]);
  });
  test("seams that can be seen count for each copy", () => {
    // Two of `left` hide theirs in the gap; one `right` (open) and two `third` (body line) do not.
    expect(covering.measures.visibleSeams).toBe(3);
    expect(covering.measures.openSeamsPerCopy).toBe(1);
    expect(covering.measures.panels).toBe(10);
  });
});

test("sections, fill and their borders", () => {
  const side = elevationOf(rectangle(0, 0, 50, 100), 2, {
    sections: [
      { id: "lower", box: boxOf(0, 0, 50, 50), direction: "horizontal", maxAcross: null, heads: "same" as const },
      { id: "upper", box: boxOf(0, 50, 50, 100), direction: "horizontal", maxAcross: null, heads: "same" as const },
    ],
    fill: [{ edge: "bottom", maxDepth: inch(8), film: "black" }],
    colourEdges: [{ id: "band", axis: "y", at: inch(50), from: 0, to: inch(50), path: null }],
  });
  const films = [plainFilm, { ...plainFilm, id: "black" }];
  const coverings = cover(side, limitsOf(54, null, 1800, ["cast", "black"]), {}, [], films);
  const plain = coverings.find(({ panels }) => panels.every(({ role }) => role === "panel")) as Covering;
  // Lower: 2 bleed + 50 + half an inch past the border at 50.
  expect(plain.panels.map(({ id, across }) => [id, inches(across)])).toEqual([
    ["left/lower/1", 52.5],
    ["left/upper/1", 52.5],
  ]);
  expect(plain.seams).toMatchObject([
    {
      id: "left/lower|upper",
      section: null,
      axis: "y",
      at: inch(50),
      kind: "colourEdge",
      overlap: inch(1),
      finishedOverlap: inch(0.25),
      between: ["lower", "upper"],
      top: "upper",
      border: true,
    },
  ]);
});

test("a fill frees a panel, and the panels lap over it", () => {
  // 60 in high with bleed 2: 64 > 53, so two horizontal panels; with the lowest 11.5 in in black one of 53 does.
  const side = elevationOf(rectangle(0, 0, 100, 60), 2, {
    sections: [
      { id: "whole", box: boxOf(0, 0, 100, 60), direction: "horizontal", maxAcross: null, heads: "same" as const },
    ],
    fill: [{ edge: "bottom", maxDepth: inch(15), film: "black" }],
  });
  const films = [plainFilm, { ...plainFilm, id: "black", pricePerArea: 0.001, laminatePricePerArea: 0 }];
  const coverings = cover(side, limitsOf(54, null, 1800, ["cast", "black"]), {}, [], films);
  const filled = coverings.filter(({ panels }) => panels.some(({ role }) => role === "fill"));
  const single = filled.find(({ panels }) => panels.filter(({ role }) => role === "panel").length === 1) as Covering;
  const border = single.seams.find(({ border: isBorder }) => isBorder);
  expect(border).toMatchObject({ between: ["fill-bottom", "whole"], top: "whole", kind: "open" });
  expect(inches(border?.at as number)).toBeGreaterThanOrEqual(9.5);
  // Its window: from half an inch under the border to the bleed at the top, at most 53.
  expect(single.panels.find(({ role }) => role === "panel")?.across).toBeLessThanOrEqual(inch(53));
});

describe("zones", () => {
  test("a seam stays half an overlap clear of lettering", () => {
    const flank = elevationOf(rectangle(0, 0, 100, 60), 0, { keepClear: [word([30, 10, 75, 40])] });
    for (const covering of cover(flank, limitsOf(80, "vertical"))) {
      for (const at of places(covering)) expect(at <= 29.5 || at >= 75.5).toBe(true);
    }
  });
  test("crossing what is to be avoided is counted for each copy", () => {
    const flank = elevationOf(rectangle(0, 0, 100, 60), 0, { keepClear: [word([46, 10, 54, 40], "avoid")], count: 3 });
    // 100 in on 53 in: a seam must lie within 47.5..52.5, in the zone.
    const [covering] = cover(flank, limitsOf(54, "vertical"));
    expect(covering?.measures.penalties).toBe(3);
    expect(covering?.panels.length).toBe(2);
  });
});

describe("why nothing covers it", () => {
  const upright = (given: Partial<Elevation> = {}, w = 200) =>
    elevationOf(rectangle(0, 0, w, 60), 2, {
      sections: [
        { id: "whole", box: boxOf(0, 0, w, 60), direction: "vertical", maxAcross: null, heads: "same" as const },
      ],
      ...given,
    });
  test("lettering wider than a panel is named with its width", () => {
    const [reason] = reasons(upright({ keepClear: [word([70, 10, 131, 40])] }), limitsOf(54));
    expect(reason?.why).toBe(
      "Lettering 'Library' is 61 in wide and must stay whole, but a panel of film 'cast' is at most 53 in wide.",
    );
    expect(reason?.path).toBe("elevations[0].keepClear[0]");
    expect(reason?.mend).toContain('"avoid"');
  });
  test("no printable width", () => {
    expect(reasons(upright(), limitsOf(1))[0]?.why).toContain("printable width");
  });
  test("a load too short", () => {
    const [reason] = reasons(upright(), limitsOf(54, null, 50));
    expect(reason?.why).toContain("64 in long");
    expect(reason?.why).toContain("at most 50 in");
  });
  test("too few open seams allowed", () => {
    // 204 in in steps of 52: (204 - 1) / 52 = 3.9, 4 panels, 3 seams.
    const [reason] = reasons(upright(), limitsOf(54), { maxOpenSeams: 2 });
    expect(reason?.why).toContain("at least 3 open seams");
    expect(reason?.path).toBe("rules.maxOpenSeams");
  });
  test("a border through lettering", () => {
    const stacked = elevationOf(rectangle(0, 0, 50, 60), 2, {
      sections: [
        { id: "lower", box: boxOf(0, 0, 50, 30), direction: "either", maxAcross: null, heads: "same" as const },
        { id: "upper", box: boxOf(0, 30, 50, 60), direction: "either", maxAcross: null, heads: "same" as const },
      ],
      keepClear: [word([10, 20, 40, 40])],
    });
    expect(reasons(stacked, limitsOf(54))[0]?.why).toContain("border between sections 'lower' and 'upper'");
  });
});

test("same input, same output", () => {
  const flank = elevationOf(rectangle(0, 0, 300, 90), 2, {
    keepClear: [word([40, 10, 80, 40])],
    breaks: [breakAt(120)],
  });
  expect(cover(flank, limitsOf(54))).toEqual(cover(flank, limitsOf(54)));
});
