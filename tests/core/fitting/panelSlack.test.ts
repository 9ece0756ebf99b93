import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { panelSlack } from "../../../core/fitting/panelSlack.ts";
import type { Box, Polygon } from "../../../core/geometry/box.ts";
import type { Elevation } from "../../../core/model/instance.ts";
import type { Panel, Seam, Slack } from "../../../core/model/plan.ts";
import { boxOf, instanceOf, plainFilm, polygonOf, rectangle } from "../panelling/builders.ts";
import { borderOf, panelOf, regionOf, seamOf, slackOf, wallOf } from "./builders.ts";

describe("a wall of two panels", () => {
  // 100 x 40 in, bleed 3, seam at 50 with overlap 1, of which 1/4 must stay.
  const wall = wallOf(rectangle(0, 0, 100, 40), 3);
  const panels = [panelOf("1", boxOf(-3, -3, 50.5, 43)), panelOf("2", boxOf(49.5, -3, 103, 43))];
  const seam = seamOf("x", 50, "1", "2");

  test("away from the neighbour by the overlap less what must stay, else by the bleed", () => {
    const slack = panelSlack(instanceOf([wall]), wall, panels, [seam], regionOf(wall));
    expect(slack).toEqual([slackOf(0.75, 3, 3, 3), slackOf(3, 0.75, 3, 3)]);
  });

  test("of butted film that only touches, nothing away from the neighbour", () => {
    const touching = [panelOf("1", boxOf(-3, -3, 50, 43)), panelOf("2", boxOf(50, -3, 103, 43))];
    const butted = instanceOf([wall], {}, [{ ...plainFilm, joint: "butted" }]);
    expect(panelSlack(butted, wall, touching, [seam], regionOf(wall))).toEqual([
      slackOf(0, 3, 3, 3),
      slackOf(3, 0, 3, 3),
    ]);
  });

  test("of butted film that happens to overlap, all of it", () => {
    const butted = instanceOf([wall], {}, [{ ...plainFilm, joint: "butted" }]);
    expect(panelSlack(butted, wall, panels, [seam], regionOf(wall))[0]).toEqual(slackOf(1, 3, 3, 3));
  });

  test("an opening at the edge lets it go farther", () => {
    // The left 20 in are a doorway down to the ground: film begins at 20, printed from 17.
    const door = { id: "door", outline: rectangle(0, 0, 20, 40) };
    const opened = { ...wall, openings: [door] };
    const [first] = panelSlack(instanceOf([opened]), opened, panels, [seam], regionOf(opened));
    expect(first).toEqual(slackOf(0.75, 23, 3, 3));
  });

  test("a panel whose film others carry too moves at most by its own size", () => {
    const spare = [...panels, panelOf("3", boxOf(40, 10, 48, 14))];
    expect(panelSlack(instanceOf([wall]), wall, spare, [seam], regionOf(wall))[2]).toEqual(slackOf(8, 8, 4, 4));
  });
});

test("a sloped nose: rounded so that it is never too large", () => {
  // The lower left corner is cut off from (0, 10) to (20, 0): film of the first panel alone begins lowest at its right end.
  const nose = wallOf(polygonOf([20, 0], [60, 0], [60, 40], [0, 40], [0, 10]), 3);
  const panels = [panelOf("1", boxOf(-3, 4.75, 10.5, 43)), panelOf("2", boxOf(9.5, -3, 63, 43))];
  const seam = seamOf("x", 10, "1", "2");
  const [first] = panelSlack(instanceOf([nose]), nose, panels, [seam], regionOf(nose));
  // At x = 9.5, where the second begins, the edge is at 10 - 9.5 / 2 = 5.25: half an inch above the window's low end.
  expect(first).toEqual(slackOf(0.75, 3, 3, 0.5));
});

test("a border: each panel that faces it, and of those along it only the one beside it", () => {
  // 100 x 40 in, cut level at 20: two upright panels below, two level ones above, overlap 1 everywhere.
  const wall = wallOf(rectangle(0, 0, 100, 40), 3, {
    sections: [
      { id: "lower", box: boxOf(0, 0, 100, 20), direction: "vertical", maxAcross: null, heads: "same" },
      { id: "upper", box: boxOf(0, 20, 100, 40), direction: "horizontal", maxAcross: null, heads: "same" },
    ],
  });
  const panels = [
    panelOf("l1", boxOf(-3, -3, 50.5, 20.5), { section: "lower" }),
    panelOf("l2", boxOf(49.5, -3, 103, 20.5), { section: "lower" }),
    panelOf("u1", boxOf(-3, 19.5, 103, 30.5), { section: "upper", direction: "horizontal" }),
    panelOf("u2", boxOf(-3, 29.5, 103, 43), { section: "upper", direction: "horizontal" }),
  ];
  const seams = [
    { ...seamOf("x", 50, "l1", "l2"), section: "lower" },
    { ...seamOf("y", 30, "u1", "u2"), section: "upper" },
    borderOf("y", 20, 0, 100, "lower", "upper"),
  ];
  expect(panelSlack(instanceOf([wall]), wall, panels, seams, regionOf(wall))).toEqual([
    slackOf(0.75, 3, 0.75, 3),
    slackOf(3, 0.75, 0.75, 3),
    slackOf(3, 3, 0.75, 0.75),
    slackOf(3, 3, 3, 0.75),
  ]);
});

describe("against trying every shift, on a lattice of whole ticks", () => {
  const size = 14;
  const box = fc
    .tuple(fc.nat(size - 2), fc.nat(size - 2), fc.integer({ min: 1, max: 9 }), fc.integer({ min: 1, max: 9 }))
    .map(([x, y, w, h]): Box => ({ x0: x - 1, y0: y - 1, x1: x - 1 + w, y1: y - 1 + h }));
  const question = fc.record({
    windows: fc.array(box, { minLength: 1, maxLength: 5 }),
    openings: fc.array(box, { maxLength: 2 }),
    seams: fc.array(fc.record({ a: fc.nat(4), b: fc.nat(4), axis: fc.constantFrom("x" as const, "y" as const) }), {
      maxLength: 3,
    }),
    least: fc.nat(2),
  });

  test("exactly as far as film and laps allow", () => {
    fc.assert(
      fc.property(question, ({ windows, openings, seams, least }) => {
        const outline: Polygon = corners({ x0: 0, y0: 0, x1: size, y1: size });
        const elevation: Elevation = {
          ...wallOf(outline, 0),
          openings: openings.map((opening, i) => ({ id: `${i}`, outline: corners(opening) })),
        };
        const panels = windows.map((window, i) => ({ ...panelOf(`${i}`, window), window }));
        const joins = seams.flatMap(({ a, b, axis }): Seam[] => {
          const [low, high] = [panels[a], panels[b]];
          if (low === undefined || high === undefined || low === high) return [];
          // Only what shares enough to begin with is a seam.
          return sharedOn(axis, low.window, high.window) < least ? [] : [seamOf(axis, 0, low.id, high.id)];
        });
        const instance = instanceOf([elevation], { colourEdgeOverlap: least });
        const found = panelSlack(instance, elevation, panels, joins, regionOf(elevation));
        expect(found).toEqual(panels.map((panel) => slackByTrying(panel, panels, joins, openings, least)));
      }),
      { seed: 20260707, numRuns: 1500 },
    );
  });

  const corners = ({ x0, y0, x1, y1 }: Box): Polygon => [
    { x: x0, y: y0 },
    { x: x1, y: y0 },
    { x: x1, y: y1 },
    { x: x0, y: y1 },
  ];

  const sharedOn = (axis: "x" | "y", a: Box, b: Box): number =>
    axis === "x" ? Math.min(a.x1, b.x1) - Math.max(a.x0, b.x0) : Math.min(a.y1, b.y1) - Math.max(a.y0, b.y0);

  function slackByTrying(
    panel: Panel,
    panels: readonly Panel[],
    joins: readonly Seam[],
    openings: readonly Box[],
    least: number,
  ): Slack {
    const holds = ({ x0, y0, x1, y1 }: Box, x: number, y: number) => x0 <= x && x + 1 <= x1 && y0 <= y && y + 1 <= y1;
    const cells: [number, number][] = [];
    for (let x = 0; x < size; x++) {
      for (let y = 0; y < size; y++) {
        const isNeeded = !openings.some((opening) => holds(opening, x, y));
        if (isNeeded && holds(panel.window, x, y)) cells.push([x, y]);
      }
    }
    const others = panels.filter((other) => other !== panel).map(({ window }) => window);
    const stays = (dx: number, dy: number): boolean => {
      const { x0, y0, x1, y1 } = panel.window;
      const moved = { x0: x0 + dx, x1: x1 + dx, y0: y0 + dy, y1: y1 + dy };
      const covered = cells.every(([x, y]) => [moved, ...others].some((window) => holds(window, x, y)));
      const laps = joins.every(({ axis, between }) => {
        if (!between.includes(panel.id)) return true;
        const other = panels.find(({ id }) => id !== panel.id && between.includes(id)) as Panel;
        return sharedOn(axis, moved, other.window) >= least;
      });
      return covered && laps;
    };
    const farthest = (dx: number, dy: number): number => {
      const most = dx !== 0 ? panel.window.x1 - panel.window.x0 : panel.window.y1 - panel.window.y0;
      let shift = 0;
      while (shift < most && stays(dx * (shift + 1), dy * (shift + 1))) shift++;
      return shift;
    };
    return { left: farthest(-1, 0), right: farthest(1, 0), down: farthest(0, -1), up: farthest(0, 1) };
  }
});
