import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { neighbour } from "../../../renderer/drawing/neighbour.ts";
import { spread } from "../../../renderer/drawing/spread.ts";
import { tradeOffScene } from "../../../renderer/drawing/tradeOffScene.ts";
import { measured } from "./trailer.ts";

const few = [measured("a", 2, 500, 40, 10), measured("b", 4, 420, 30, 6), measured("c", 4, 460, 34, 8)];
const asked = { layouts: few, frontier: ["a", "b"], chosen: "b", currency: "USD", unit: "in" as const };

describe("layouts weighed", () => {
  const scene = tradeOffScene(asked, 800);
  const mark = (id: string) => scene.marks.find((one) => one.id === id) as (typeof scene.marks)[0];

  test("columns are seam counts, cheaper is lower, length is waste", () => {
    expect(scene.columns.map(({ seams }) => seams)).toEqual([2, 4]);
    expect(mark("b").x).toBe(mark("c").x);
    expect(mark("a").x).toBeLessThan(mark("b").x);
    expect(mark("b").costY).toBeGreaterThan(mark("c").costY);
    expect(mark("c").costY).toBeGreaterThan(mark("a").costY);
    const length = (id: string) => mark(id).taken + mark(id).gaps;
    expect(length("a") / length("b")).toBeCloseTo(40 / 30);
    expect(mark("a").gaps / length("a")).toBeCloseTo(10 / 40);
  });

  test("standing tells chosen, frontier and beaten apart", () => {
    expect(few.map(({ id }) => mark(id).standing)).toEqual(["frontier", "chosen", "beaten"]);
  });

  test("the staircase is level until more seams buy a lower cost", () => {
    const { x, costY } = mark("b");
    expect(scene.stairs).toBe(`M${mark("a").x} ${mark("a").costY}H${x}V${costY}H${scene.plot.x + scene.plot.width}`);
  });

  test("forty layouts in one column stay 24 pixels apart and inside the drawing", () => {
    const many = Array.from({ length: 40 }, (_, index) => measured(`l${index}`, 5, 400 + (index % 7), 30, 5));
    const dense = tradeOffScene({ ...asked, layouts: many, frontier: ["l0"], chosen: "l0" }, 500);
    const rows = dense.marks.map(({ y }) => y).sort((a, b) => a - b);
    rows.slice(1).forEach((y, index) => {
      expect(y - (rows[index] ?? 0)).toBeGreaterThanOrEqual(24 - 1e-9);
    });
    expect(rows.at(-1)).toBeLessThanOrEqual(dense.plot.y + dense.plot.height);
    expect(rows[0]).toBeGreaterThanOrEqual(dense.plot.y);
  });

  test("one layout, and layouts of one cost, can be drawn", () => {
    for (const layouts of [few.slice(0, 1), [measured("a", 2, 400, 30, 5), measured("b", 3, 400, 30, 5)]]) {
      for (const { y, costY } of tradeOffScene({ ...asked, layouts, frontier: ["a"], chosen: "a" }, 600).marks) {
        expect(Number.isFinite(y) && Number.isFinite(costY)).toBe(true);
      }
    }
  });
});

describe("spreading", () => {
  test("keeps order and distance, and moves nothing that has room", () => {
    expect(spread([10, 50, 90], 24, 0, 100)).toEqual([10, 50, 90]);
    // 50 and 52 meet in their middle 51: 39 and 63
    expect(spread([52, 50], 24, 0, 100)).toEqual([63, 39]);
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 0, max: 1000 }), { maxLength: 30 }), (wanted) => {
        const places = spread(wanted, 24, 0, 1000);
        const order = wanted.map((_, index) => index).sort((a, b) => (wanted[a] ?? 0) - (wanted[b] ?? 0) || a - b);
        order.slice(1).forEach((index, rank) => {
          expect((places[index] ?? 0) - (places[order[rank] ?? 0] ?? 0)).toBeGreaterThanOrEqual(24 - 1e-6);
        });
        for (const place of places) expect(place).toBeGreaterThanOrEqual(-1e-6);
      }),
      { seed: 20260101 },
    );
  });
});

describe("neighbours for the arrow keys", () => {
  const stops = [
    { id: "low left", x: 0, y: 100 },
    { id: "low right", x: 100, y: 100 },
    { id: "high left", x: 0, y: 0 },
  ];
  test("the nearest in the way of the key", () => {
    expect(neighbour(stops, "low left", "right")).toBe("low right");
    expect(neighbour(stops, "low left", "up")).toBe("high left");
    expect(neighbour(stops, "low left", "down")).toBeNull();
    expect(neighbour(stops, "nothing", "left")).toBeNull();
  });
});
