import { describe, expect, test } from "vitest";
import { frontierOf, withoutNearTies } from "../../../core/costing/frontier.ts";
import { worthComparing } from "../../../core/costing/worthComparing.ts";
import type { Layout, Totals } from "../../../core/model/plan.ts";

function layout(id: string, wastePercent: number, openSeams: number, total: number): Layout {
  const cost = { film: total, laminate: 0, ink: 0, seams: 0, panels: 0, total };
  const totals: Totals = {
    filmLength: 1,
    filmArea: 1,
    neededArea: 1,
    wastePercent,
    panelCount: 1,
    openSeams,
    bodyLineSeams: 0,
    colourEdgeSeams: 0,
    breakSeams: 5,
    visibleSeamLength: 0,
    cost,
  };
  return { id, totals } as Layout;
}

test("keeps what no other beats, cheapest first", () => {
  const layouts = [layout("dear", 20, 0, 90), layout("cheap", 10, 3, 50), layout("beaten", 20, 1, 95)];
  expect(frontierOf(withoutNearTies(layouts))).toEqual(["cheap", "dear"]);
});

test("counts equal layouts once, the first by id", () => {
  const layouts = [layout("b", 10, 3, 50), layout("a", 10, 3, 50)];
  expect(withoutNearTies(layouts).map(({ id }) => id)).toEqual(["a"]);
  expect(frontierOf(layouts)).toEqual(["b"]);
});

test("a layout that wins by rounding alone on one criterion and loses on another goes", () => {
  const layouts = [layout("cheap", 10.000000000001, 3, 50), layout("dear", 10, 3, 60)];
  expect(withoutNearTies(layouts).map(({ id }) => id)).toEqual(["cheap"]);
});

test("a clearly beaten layout stays in the comparison but not on the frontier", () => {
  const layouts = [layout("cheap", 10, 3, 50), layout("beaten", 11, 3, 60)];
  const kept = withoutNearTies(layouts);
  expect(kept.map(({ id }) => id)).toEqual(["cheap", "beaten"]);
  expect(frontierOf(kept)).toEqual(["cheap"]);
});

describe("what is worth comparing", () => {
  const on = (rollWidth: number, direction: string, layout: Layout): Layout =>
    ({ ...layout, rollWidth, panels: [{ role: "panel", direction }] }) as unknown as Layout;

  test("keeps the frontier, and the best of each width and direction at something", () => {
    const layouts = [
      on(54, "vertical", layout("a", 10, 5, 50)),
      on(54, "vertical", layout("b", 12, 3, 55)),
      on(54, "vertical", layout("c", 11, 5, 54)),
      on(54, "horizontal", layout("d", 20, 6, 90)),
      on(60, "vertical", layout("e", 21, 7, 95)),
      on(60, "vertical", layout("f", 22, 8, 96)),
    ];
    expect(frontierOf(layouts)).toEqual(["a", "b"]);
    expect(worthComparing(layouts, ["a", "b"]).map(({ id }) => id)).toEqual(["a", "b", "d", "e"]);
    expect(worthComparing(layouts, ["a", "b", "f"]).map(({ id }) => id)).toEqual(["a", "b", "d", "e", "f"]);
  });
});
