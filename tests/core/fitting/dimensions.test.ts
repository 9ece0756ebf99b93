import { describe, expect, test } from "vitest";
import { dimensionsOf } from "../../../core/fitting/dimensions.ts";
import type { Break, Elevation } from "../../../core/model/instance.ts";
import type { FoundSection, Panel, Seam } from "../../../core/model/plan.ts";
import { TICKS_PER } from "../../../core/units/ticks.ts";
import { boxOf, inch, instanceOf, plainFilm, polygonOf, rectangle } from "../panelling/builders.ts";
import { borderOf, panelOf, regionsOf, seamOf, wallOf } from "./builders.ts";

/** Name, from, to and slack of each dimension, inches. */
const told = (
  wall: Elevation,
  panels: readonly Panel[],
  seams: readonly Seam[],
  found: readonly FoundSection[] = [],
  films = [plainFilm],
) =>
  dimensionsOf(instanceOf([wall], {}, films), regionsOf([wall]), panels, seams, found).map(
    ({ name, from, to, slack }) => [name, from / TICKS_PER.in, to / TICKS_PER.in, slack / TICKS_PER.in],
  );

const gap: Break = {
  id: "door-1",
  axis: "x",
  at: inch(70),
  from: 0,
  to: inch(40),
  type: "gap",
  width: inch(1),
  mustSplit: false,
};

describe("a trailer side of three panels, bleed 3, overlap 1 of which 1/4 must stay", () => {
  const outline = rectangle(0, 0, 130, 40);
  const panels = [
    panelOf("1", boxOf(-3, -3, 40.5, 43)),
    panelOf("2", boxOf(39.5, -3, 72, 43)),
    panelOf("3", boxOf(68, -3, 133, 43)),
  ];
  const seams = [seamOf("x", 40, "1", "2"), seamOf("x", 70, "2", "3", { kind: "break", overlap: inch(4) })];

  test("from end to end where nothing on the body lies between", () => {
    const open = [seamOf("x", 40, "1", "2"), seamOf("x", 70, "2", "3", { overlap: inch(4) })];
    // 3 + 3 of bleed, 1 - 1/4 at the first seam, 4 - 1/4 at the second; 3 + 3 up and down.
    expect(told(wallOf(outline, 3), panels, open)).toEqual([
      ["left end to right end", 0, 130, 10.5],
      ["whole height", 0, 40, 6],
    ]);
  });

  test("parted at a gap, past which film reaches half its width at least", () => {
    // Left: 3 + 3/4 + (2 - 1/2). Right: (2 - 1/2) + 3.
    expect(told(wallOf(outline, 3, { breaks: [gap] }), panels, seams)).toEqual([
      ["left end to gap 'door-1'", 0, 70, 5.25],
      ["gap 'door-1' to right end", 70, 130, 4.5],
      ["whole height", 0, 40, 6],
    ]);
  });

  test("butted film has only its bleed to give", () => {
    const butted = [panelOf("1", boxOf(-3, -3, 40, 43)), panelOf("2", boxOf(40, -3, 133, 43))];
    const touching = [seamOf("x", 40, "1", "2", { overlap: 0 })];
    expect(told(wallOf(outline, 3), butted, touching, [], [{ ...plainFilm, joint: "butted" }])[0]).toEqual([
      "left end to right end",
      0,
      130,
      6,
    ]);
  });
});

describe("a doorway of the whole height from 50 to 80", () => {
  const wall = wallOf(rectangle(0, 0, 130, 40), 3, {
    openings: [{ id: "hatch", outline: rectangle(50, -1, 80, 41) }],
  });

  test("a panel on each side: a dimension each, up to the doorway", () => {
    const panels = [panelOf("1", boxOf(-3, -3, 53, 43)), panelOf("2", boxOf(76, -3, 133, 43))];
    // 3 + 3; 4 + 3, since the second was begun an inch early.
    expect(told(wall, panels, [])).toEqual([
      ["left end to opening 'hatch'", 0, 50, 6],
      ["opening 'hatch' to right end", 80, 130, 7],
      ["whole height", 0, 40, 6],
    ]);
  });

  test("a panel that spans it gives nothing at its sides", () => {
    const panels = [panelOf("1", boxOf(-3, -3, 100.5, 43)), panelOf("2", boxOf(99.5, -3, 133, 43))];
    // 3 + 0; 0 + 3/4 + 3.
    expect(told(wall, panels, [seamOf("x", 100, "1", "2")]).slice(0, 2)).toEqual([
      ["left end to opening 'hatch'", 0, 50, 3],
      ["opening 'hatch' to right end", 80, 130, 3.75],
    ]);
  });
});

describe("two sections, upper and lower", () => {
  const outline = rectangle(0, 0, 100, 40);
  const given = [
    { id: "lower", box: boxOf(0, 0, 100, 20), direction: "vertical", maxAcross: null, heads: "same" },
    { id: "upper", box: boxOf(0, 20, 100, 40), direction: "horizontal", maxAcross: null, heads: "same" },
  ] as const;
  const panels = [
    panelOf("l1", boxOf(-3, -3, 50.5, 20.5), { section: "lower" }),
    panelOf("l2", boxOf(49.5, -4, 103, 20.5), { section: "lower" }),
    panelOf("u1", boxOf(-3, 19.5, 103, 43), { section: "upper", direction: "horizontal" }),
  ];
  const seams = [{ ...seamOf("x", 50, "l1", "l2"), section: "lower" }, borderOf("y", 20, 0, 100, "lower", "upper")];
  // At the border each side has 1/2 and must keep 1/8: 3/8. Along: the least of the panels, 3 + 3/8.
  const expected = [
    ["section 'lower': left end to right end", 0, 100, 6.75],
    ["height of section 'lower'", 0, 20, 3.375],
    ["section 'upper': section 'lower' to top edge", 20, 40, 3.375],
    ["length of section 'upper'", 0, 100, 6],
  ];

  test("each from border to end", () => {
    expect(told(wallOf(outline, 3, { sections: given }), panels, seams)).toEqual(expected);
  });

  test("found ones take the place of those given", () => {
    const found = given.map(({ id, box, direction }) => ({ elevation: "wall", id, box, direction, why: "belt" }));
    expect(told(wallOf(outline, 3), panels, seams, found)).toEqual(expected);
  });

  test("a fill in use shrinks what it meets and is measured too", () => {
    const wall = wallOf(outline, 3, { fill: [{ edge: "bottom", maxDepth: inch(20), film: "cast" }] });
    const filled = [
      panelOf("b1", boxOf(-3, -3, 103, 8.5), { section: "fill-bottom", role: "fill", direction: "horizontal" }),
      panelOf("w1", boxOf(-3, 7.5, 103, 43)),
    ];
    const border = borderOf("y", 8, 0, 100, "fill-bottom", "whole");
    expect(told(wall, filled, [border])).toEqual([
      ["section 'whole': left end to right end", 0, 100, 6],
      ["height of section 'whole'", 8, 40, 3.375],
      ["bottom fill: bottom edge to section 'whole'", 0, 8, 3.375],
      ["length of bottom fill", 0, 100, 6],
    ]);
  });
});

test("a sloped edge is rounded outward: less slack, never more", () => {
  // From (0, 0) to (3, 40) ticks short of an inch: a third of a tick lost at most.
  const wall = wallOf(polygonOf([0, 0], [100, 0], [100, 40], [0, 31]), 3);
  const window = { ...boxOf(-3, -3, 33, 43), x1: inch(33) + 1 };
  const panels = [panelOf("1", window), panelOf("2", boxOf(32, -3, 103, 43))];
  const [, along] = dimensionsOf(instanceOf([wall]), regionsOf([wall]), panels, [seamOf("x", 32.5, "1", "2")]);
  // The first strip ends at 33 in and a tick, where the top is at 31 + 0.09 x that; the second at 40.
  expect(along?.slack).toBe(6 * TICKS_PER.in);
  const [, alone] = dimensionsOf(instanceOf([wall]), regionsOf([wall]), panels.slice(0, 1), []);
  const top = Math.ceil(31 * TICKS_PER.in + (9 * (33 * TICKS_PER.in + 1)) / 100);
  expect(alone?.slack).toBe(43 * TICKS_PER.in - top + 3 * TICKS_PER.in);
});
