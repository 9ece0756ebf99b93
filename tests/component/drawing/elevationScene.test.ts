import { describe, expect, test } from "vitest";
import { elevationScene, fitElevation } from "../../../renderer/drawing/elevationScene.ts";
import { figure } from "../../../renderer/drawing/lengths.ts";
import { scaleFor } from "../../../renderer/drawing/scale.ts";
import { beside, lapTeeth, strokesByKind, teethAlong } from "../../../renderer/drawing/strokes.ts";
import { trailerLayout, trailerSide } from "./trailer.ts";

describe("geometry of an elevation", () => {
  const scene = elevationScene(trailerSide, trailerLayout, "in", 8);

  test("is to scale, y up", () => {
    // 100 in by 40 in at 8 pixels an inch
    expect(scene.outlineBox.width).toBeCloseTo(800);
    expect(scene.outlineBox.height).toBeCloseTo(320);
    const bottom = scene.outlineBox.y + scene.outlineBox.height;
    const lamp = scene.zones.find(({ key }) => key === "zone:side/obstacle/lamp")?.box;
    // low side 4 in over the ground
    expect((lamp?.y ?? 0) + (lamp?.height ?? 0)).toBeCloseTo(bottom - 4 * 8);
    const first = scene.panels[0]?.box;
    // -1 in to 35 in
    expect(first?.x).toBeCloseTo(scene.outlineBox.x - 8);
    expect(first?.width).toBeCloseTo(36 * 8);
  });

  test("hatches exactly what both films cover", () => {
    const [door, open] = scene.seams;
    expect(door?.bands.map(({ width }) => Math.round(width))).toEqual([4 * 8]);
    expect(open?.bands.map(({ width }) => Math.round(width))).toEqual([8]);
    expect(open?.line.x1).toBeCloseTo(scene.outlineBox.x + 66 * 8);
  });

  test("says which side lies on top", () => {
    expect(scene.seams.map(({ top }) => top)).toEqual(["left", "left"]);
    const swapped = trailerLayout.seams.map((seam) => ({ ...seam, top: seam.between[1] }));
    expect(elevationScene(trailerSide, { ...trailerLayout, seams: swapped }, "in", 8).seams[0]?.top).toBe("right");
  });

  test("marks only breaks that carry no seam as faint", () => {
    expect(scene.faint.map(({ key }) => key)).toEqual(["break:rail"]);
    const unsplit = elevationScene(trailerSide, null, "in", 8);
    expect(unsplit.faint.map(({ key }) => key)).toEqual(["break:door", "break:rail"]);
    expect(unsplit.panels).toEqual([]);
  });

  test("a border is hatched between each pair of facing windows", () => {
    const piece = trailerLayout.panels[0] as (typeof trailerLayout.panels)[0];
    const at = (section: string, number: number, window: [number, number, number, number]) => ({
      ...piece,
      id: `side/${section}/${number}`,
      section,
      window,
    });
    const panels = [
      at("low", 1, [-1, -1, 101, 10.5]),
      at("high", 1, [-1, 9.5, 50, 41]),
      at("high", 2, [49, 9.5, 101, 41]),
    ];
    const border = {
      ...(trailerLayout.seams[0] as (typeof trailerLayout.seams)[0]),
      id: "low|high",
      section: null,
      axis: "y" as const,
      at: 10,
      from: 0,
      to: 100,
      border: true,
      between: ["low", "high"] as [string, string],
      top: "high",
    };
    const [shape] = elevationScene(trailerSide, { ...trailerLayout, panels, seams: [border] }, "in", 8).seams;
    expect(shape?.bands.map(({ height }) => Math.round(height))).toEqual([8, 8]);
    expect(shape?.top).toBe("up");
  });

  test("sets widths of panels and the overall size in true fractions", () => {
    expect(scene.dimensions.map(({ text }) => text)).toEqual(["36 in", "35 1/2 in", "35 1/2 in", "100 in", "40 in"]);
  });

  test.each([
    [1280, 520],
    [400, 300],
    [1920, 200],
  ])("fits into %d by %d pixels", (width, height) => {
    const pixels = fitElevation(trailerSide, trailerLayout, "in", width, height);
    const fitted = elevationScene(trailerSide, trailerLayout, "in", pixels);
    expect(fitted.width).toBeLessThanOrEqual(width);
    expect(fitted.height).toBeLessThanOrEqual(height);
    expect(Math.max(fitted.width / width, fitted.height / height)).toBeGreaterThan(0.75);
  });

  test("the arrow of a panel that is printed head to foot points down", () => {
    const turned = {
      ...trailerLayout,
      rolls: trailerLayout.rolls.map((load) => ({
        ...load,
        cuts: load.cuts.map((cut) => ({ ...cut, pieces: cut.pieces.map((one) => ({ ...one, turn: 180 as const })) })),
      })),
    };
    const [up] = scene.arrows;
    const [down] = elevationScene(trailerSide, turned, "in", 8).arrows;
    expect(up && up.head.y < up.tail.y).toBe(true);
    expect(down && down.head.y > down.tail.y).toBe(true);
  });
});

describe("strokes", () => {
  test("each kind has a stroke of its own and the open seam is the strongest", () => {
    const kinds = Object.entries(strokesByKind);
    expect(new Set(kinds.map(([, strokes]) => JSON.stringify(strokes))).size).toBe(4);
    const weight = (kind: keyof typeof strokesByKind) => Math.max(...strokesByKind[kind].map(({ width }) => width));
    for (const kind of ["break", "bodyLine", "colourEdge"] as const)
      expect(weight(kind)).toBeLessThan(weight("open") / 2);
    expect(strokesByKind.open[0]?.dash).toBeNull();
    expect(strokesByKind.break[0]?.dash).not.toBeNull();
    expect(strokesByKind.bodyLine[0]?.dash).not.toBeNull();
    expect(strokesByKind.colourEdge).toHaveLength(2);
  });

  test("a double line lies on both sides of the seam", () => {
    const line = { x1: 10, y1: 0, x2: 10, y2: 90 };
    expect(strokesByKind.colourEdge.map(({ offset }) => beside(line, offset).x1)).toEqual([8, 12]);
  });

  test("teeth sit on the side that lies on top", () => {
    const line = { x1: 10, y1: 0, x2: 10, y2: 88 };
    // 88 pixels hold two, in the middle of each half
    expect(teethAlong(line)).toEqual([22, 66]);
    expect(lapTeeth(line, "left")).toContain("l-6 2.5");
    expect(lapTeeth(line, "right")).toContain("l6 2.5");
    expect(lapTeeth({ x1: 0, y1: 10, x2: 88, y2: 10 }, "up")).toContain("l2.5 -6");
    expect(lapTeeth({ x1: 10, y1: 0, x2: 10, y2: 9 }, "left")).toBe("");
  });
});

describe("scale bar", () => {
  test.each([
    [10, "in", "12 in", 120],
    [2, "in", "60 in (5 ft)", 120],
    [0.1, "mm", "1000 mm (1 m)", 100],
    [3, "mm", "20 mm", 60],
  ] as const)("%d pixels per unit in %s", (pixels, unit, label, width) => {
    const scale = scaleFor(pixels, unit);
    expect(scale.label).toBe(label);
    expect(scale.pixels).toBeCloseTo(width);
    expect(figure(scale.length, unit)).toBe(label.split(" ")[0]);
  });
});
