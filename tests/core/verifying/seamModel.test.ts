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

const joint = (film: string, value: string, more: Document = {}): Document => ({
  id: film,
  rollWidths: [60],
  pricePerArea: 0.01,
  lay: "two-way",
  joint: value,
  ...more,
});

describe("colour edges that slope or step", () => {
  const along = (path: number[][] | null, more: Document = {}): Document => ({
    id: "band",
    axis: "x",
    at: 50,
    from: 0,
    to: 20,
    path,
    ...more,
  });
  const job = (colourEdges: Document[], more: Document = {}) => smallJob([elevationE({ colourEdges, ...more })]);
  const lapped = (half: number, more: Document = {}): Draft =>
    halvesOfE(half, { kind: "colourEdge", finishedOverlap: 0.25, ...more });

  test("a sloped one leaves its place by 1 at most: twice that and a quarter are shared", () => {
    const sloped = job([
      along([
        [49, 0],
        [51, 20],
      ]),
    ]);
    expect(rulesBrokenBy(sloped, lapped(1.125))).toEqual([]);
    expect(rulesBrokenBy(sloped, lapped(1.125 - TICK))).toEqual(["seamOverlaps"]);
  });
  test("a stepped one by its farther side", () => {
    const stepped = job([
      along([
        [49.5, 0],
        [49.5, 8],
        [50.75, 8],
        [50.75, 20],
      ]),
    ]);
    // 2 x 0.75 + 0.25 = 1.75
    expect(rulesBrokenBy(stepped, lapped(0.875))).toEqual([]);
    expect(rulesBrokenBy(stepped, lapped(0.875 - TICK))).toEqual(["seamOverlaps"]);
  });
  test("only what runs along the seam counts, ends included, rounded up to a tick", () => {
    // Film is needed from 10 up. The edge leaves by 4 at 0, by 0 at 10, then by 10 / 30.3 of 3 at 20: 0.99009900...
    const openings = [{ id: "arch", outline: rectangle(40, -1, 60, 10) }];
    const part = job(
      [
        along([
          [46, 0],
          [50, 10],
          [53, 40.3],
        ]),
      ],
      { openings },
    );
    const off = Math.ceil((10 * 3) / 30.3 / TICK);
    const half = Math.ceil((2 * off + 0.25 / TICK) / 2);
    expect(rulesBrokenBy(part, lapped(half * TICK, { from: 10 }))).toEqual([]);
    expect(rulesBrokenBy(part, lapped((half - 1) * TICK, { from: 10 }))).toEqual(["seamOverlaps"]);
    // A step just where the seam begins is held too.
    const step = job(
      [
        along([
          [47, 0],
          [47, 10],
          [50, 10],
          [50, 20],
        ]),
      ],
      { openings },
    );
    expect(rulesBrokenBy(step, lapped(3.125, { from: 10 }))).toEqual([]);
    expect(rulesBrokenBy(step, lapped(3.125 - TICK, { from: 10 }))).toEqual(["seamOverlaps"]);
  });
  test("of two edges at one place the one that asks least counts, and never less than the overlap", () => {
    const sloped = along([
      [49, 0],
      [51, 20],
    ]);
    const gentle = {
      ...along([
        [49.75, 0],
        [50.25, 20],
      ]),
      id: "gentle",
    };
    expect(rulesBrokenBy(job([sloped, gentle]), lapped(0.5))).toEqual([]);
    expect(rulesBrokenBy(job([gentle]), lapped(0.5 - TICK))).toEqual(["seamOverlaps"]);
  });
  test("a mirror has it reflected", () => {
    const path = [
      [50, 0],
      [52, 20],
    ];
    const both = smallJob([
      elevationE({ colourEdges: [along(path)] }),
      { id: "M", name: "M", film: "f", mirrorOf: "E" },
    ]);
    // d = 2: half of 4.25 on each side, in the mirror image too.
    const draft = (half: number): Draft => ({
      panels: [
        ...lapped(half).panels,
        { id: "M/1", elevation: "M", window: [-1, -1, 50 + half, 21] },
        { id: "M/2", elevation: "M", window: [50 - half, -1, 101, 21] },
      ],
      seams: [
        ...(lapped(half).seams ?? []),
        { ...lapped(half).seams?.[0], id: "m", elevation: "M", between: ["M/1", "M/2"], top: "M/1" },
      ],
      applyOrder: ["E/2", "E/1", "M/2", "M/1"],
    });
    expect(rulesBrokenBy(both, draft(2.125))).toEqual([]);
    expect(rulesBrokenBy(both, draft(2.125 - TICK))).toEqual(["seamOverlaps"]);
  });
});

describe("film that meets edge to edge", () => {
  const job = (more: Document = {}) => smallJob([elevationE(more)], { films: [joint("f", "butted")] });
  test("windows that only touch share nothing, and either may be applied first", () => {
    const touching = halvesOfE(0);
    expect(rulesBrokenBy(job(), touching)).toEqual([]);
    expect(rulesBrokenBy(job(), { ...touching, applyOrder: ["E/1", "E/2"] })).toEqual([]);
    expect(rulesBrokenBy(job(), halvesOfE(0, { top: "E/2" }))).toEqual(["lapsRight"]);
    const apart: Draft = {
      ...touching,
      panels: touching.panels.map((panel) =>
        panel.id === "E/1" ? { ...panel, window: [-1, -1, 50 - TICK, 21] as const } : panel,
      ),
      seams: [seamOfE({ overlap: -TICK, finishedOverlap: 0 })],
    };
    expect(rulesBrokenBy(job(), apart)).toEqual(["seamOverlaps"]);
  });
  test("nothing stays of what more they share, but the order binds again", () => {
    expect(rulesBrokenBy(job(), halvesOfE(0.5, { finishedOverlap: 0 }))).toEqual([]);
    expect(rulesBrokenBy(job(), halvesOfE(0.5))).toEqual(["seamOverlaps"]);
    const wrongWay = { ...halvesOfE(0.5, { finishedOverlap: 0 }), applyOrder: ["E/1", "E/2"] };
    expect(rulesBrokenBy(job(), wrongWay)).toEqual(["applyOrder"]);
  });
  test("lapped film asks its overlap where butted film asks none", () => {
    expect(rulesBrokenBy(smallJob([elevationE()]), halvesOfE(0))).toEqual(["seamOverlaps"]);
  });
  test("a sloped colour edge is held all the same, a gap trimmed as ever", () => {
    const path = [
      [49, 0],
      [51, 20],
    ];
    const colourEdges = [{ id: "band", axis: "x", at: 50, from: 0, to: 20, path }];
    const kind = { kind: "colourEdge", finishedOverlap: 0 };
    expect(rulesBrokenBy(job({ colourEdges }), halvesOfE(1, kind))).toEqual([]);
    expect(rulesBrokenBy(job({ colourEdges }), halvesOfE(1 - TICK, kind))).toEqual(["seamOverlaps"]);
    const breaks = [{ id: "door", axis: "x", at: 50, from: 0, to: 20 }];
    const trimmed = { kind: "break", finishedOverlap: 0 };
    expect(rulesBrokenBy(job({ breaks }), halvesOfE(2, trimmed))).toEqual([]);
    expect(rulesBrokenBy(job({ breaks }), halvesOfE(2 - TICK, trimmed))).toEqual(["seamOverlaps"]);
  });
  test("a zone that the line of two touching windows runs into", () => {
    const zone = (x0: number) => [{ id: "z", label: "name", box: [x0, 5, 60, 15], rule: "never" }];
    expect(rulesBrokenBy(job({ keepClear: zone(50) }), halvesOfE(0))).toEqual([]);
    expect(rulesBrokenBy(job({ keepClear: zone(50 - TICK) }), halvesOfE(0))).toEqual(["keepClear"]);
  });
  test("a fill and the panels beside it meet edge to edge only where both films do", () => {
    const films = (fill: string) => [joint("f", "butted"), joint("g", fill)];
    const own = {
      id: "E",
      film: "f",
      outline: rectangle(0, 0, 40, 20),
      fill: [{ edge: "bottom", maxDepth: 5, film: "g" }],
    };
    const draft = (half: number, finished: number): Draft => ({
      panels: [
        { id: "E/b", section: "fill-bottom", direction: "horizontal", film: "g", window: [-1, -1, 41, 5 + half] },
        { id: "E/1", direction: "horizontal", window: [-1, 5 - half, 41, 21] },
      ],
      seams: [
        seamOfE({
          section: null,
          border: true,
          axis: "y",
          at: 5,
          to: 40,
          overlap: 2 * half,
          finishedOverlap: finished,
          between: ["fill-bottom", "whole"],
          top: "whole",
        }),
      ],
    });
    expect(rulesBrokenBy(smallJob([own], { films: films("butted") }), draft(0, 0))).toEqual([]);
    expect(rulesBrokenBy(smallJob([own], { films: films("lapped") }), draft(0.5, 1))).toEqual([]);
    expect(rulesBrokenBy(smallJob([own], { films: films("lapped") }), draft(0.5 - TICK, 1 - 2 * TICK))).toContain(
      "seamOverlaps",
    );
  });
});

describe("seams that count unequally", () => {
  /** The plan with these figures of its seams, all by hand. */
  const stated = (job: Document, draft: Draft, length: number | undefined, cost: number): string[] => {
    const { instance, plan } = drafted(job, draft);
    const told = plan.layouts.map((layout) => {
      const { weightedSeamLength: _, cost: own, ...totals } = layout.totals;
      const total = own.film + own.laminate + own.ink + cost + own.panels;
      return {
        ...layout,
        totals: {
          ...totals,
          ...(length === undefined ? {} : { weightedSeamLength: Math.round(length / TICK) }),
          cost: { ...own, seams: cost, total },
        },
      };
    });
    return rulesBroken(verifyPlan(instance, { ...plan, layouts: told } as Plan));
  };
  const heightZones = [
    { from: 0, to: 5, weight: 2 },
    { from: 4, to: 10, weight: 0.5 },
  ];
  const zoned = (more: Document = {}) => smallJob([elevationE(more)], { rules: { heightZones } });
  const halves = halvesOfE(0.5);

  test("by height over the ground: of 20 the lowest 5 count twice, the next 5 half", () => {
    // 5 x 2 + 5 x 0.5 + 10 = 22.5, at 0.1 each.
    expect(stated(zoned(), halves, 22.5, 2.25)).toEqual([]);
    expect(stated(zoned(), halves, 22.5 + TICK, 2.25)).toEqual(["totalsAgree"]);
    expect(stated(zoned(), halves, 22.5, 2)).toEqual(["costAgrees"]);
    expect(stated(zoned(), halves, undefined, 2.25)).toEqual(["totalsAgree"]);
    // The ground 5 lower: 5 x 0.5 + 15 = 17.5.
    expect(stated(zoned({ ground: -5 }), halves, 17.5, 1.75)).toEqual([]);
  });
  test("where every stretch counts once it is left out", () => {
    expect(stated(smallJob([elevationE()]), halves, undefined, 2)).toEqual([]);
    expect(stated(smallJob([elevationE()]), halves, 20, 2)).toEqual(["totalsAgree"]);
  });
  test("seams in breaks count nothing", () => {
    const breaks = [{ id: "door", axis: "x", at: 50, from: 0, to: 20 }];
    expect(stated(zoned({ breaks }), halvesOfE(2, { kind: "break", finishedOverlap: 0 }), 0, 0)).toEqual([]);
  });

  const base64 = (values: readonly number[]): string => btoa(String.fromCharCode(...values));
  // Cells of 10: columns 40 to 50 and 50 to 60, rows 0 to 10 and 10 to 20.
  const seamMap = (upright: number[], level: number[], more: Document = {}) => ({
    origin: [40, 0],
    cell: 10,
    columns: 2,
    rows: 2,
    upright: base64(upright),
    level: base64(level),
    ...more,
  });
  test("by the artwork's map: a seam on the edge of two cells counts in the one to its right", () => {
    // Lower row 1 + 4 x 255/255 = 5, upper row 1 + 4 x 51/255 = 1.8: 50 + 18 = 68.
    const mapped = smallJob([elevationE({ seamMap: seamMap([9, 255, 9, 51], [9, 9, 9, 9]) })]);
    expect(stated(mapped, halves, 68, 6.8)).toEqual([]);
    expect(stated(mapped, halves, 68 - TICK, 6.8)).toContain("totalsAgree");
    // Half of the map's height is beyond the panel: only its lower row is met, outside it a seam counts once.
    const high = smallJob([elevationE({ seamMap: seamMap([9, 255, 9, 51], [9, 9, 9, 9], { origin: [40, 10] }) })]);
    expect(stated(high, halves, 60, 6)).toEqual([]);
    const weightOne = { rules: { artworkWeight: 1, heightZones } };
    // 5 x 2 x 2 + 5 x 0.5 x 2 + 10 x 1.2 = 37
    const all = smallJob([elevationE({ seamMap: seamMap([9, 255, 9, 51], [9, 9, 9, 9]) })], weightOne);
    expect(stated(all, halves, 37, 3.7)).toEqual([]);
  });
  test("a level seam goes by the other values, along its columns, at one height", () => {
    const level: Draft = {
      panels: [
        { id: "E/1", direction: "horizontal", window: [-1, -1, 101, 10.5] },
        { id: "E/2", direction: "horizontal", window: [-1, 9.5, 101, 21] },
      ],
      seams: [seamOfE({ axis: "y", at: 10, to: 100, top: "E/2" })],
    };
    // At 10 high the upper row counts: 10 x 5 + 10 x 1.8 + 80 = 148.
    const map = seamMap([9, 9, 9, 9], [9, 9, 255, 51]);
    expect(stated(smallJob([elevationE({ seamMap: map })]), level, 148, 14.8)).toEqual([]);
    // Zones at the height of the seam: 10 is in none that begins at 0 or at 4.
    expect(stated(zoned(), level, 100, 10)).toEqual([]);
    expect(stated(zoned({ ground: 1 }), level, 50, 5)).toEqual([]);
  });
  test("all copies count", () => {
    expect(stated(zoned({ count: 3 }), halves, 67.5, 6.75)).toEqual([]);
  });
});
