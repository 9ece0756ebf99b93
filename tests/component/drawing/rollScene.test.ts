import { describe, expect, test } from "vitest";
import { ticksFrom } from "../../../core/units/ticks.ts";
import { meet } from "../../../renderer/drawing/rectangle.ts";
import { rollLettering } from "../../../renderer/drawing/rollLettering.ts";
import { fitRoll, inView, restOf, rollScene, upWay, viewFor } from "../../../renderer/drawing/rollScene.ts";
import type { PlanLayout } from "../../../shared/planFile.ts";
import { cast, rollSeventeen, trailerLayout } from "./trailer.ts";

const load = trailerLayout.rolls[0] as PlanLayout["rolls"][number];
const question = { layout: trailerLayout, films: [cast], load, unit: "in" as const, stock: [rollSeventeen] };

/** 50 m of small pieces, ten beside one another in each of 100 cuts. */
const long: PlanLayout["rolls"][number] = {
  id: "long",
  stock: null,
  film: "cast",
  lot: null,
  width: 1370,
  used: 50_000,
  cuts: Array.from({ length: 100 }, (_, cut) => ({
    start: 400 + cut * 494,
    length: 480,
    pieces: Array.from({ length: 10 }, (_, place) => ({
      id: `decal ${place + 1}`,
      copy: cut + 1,
      x: 20 + place * 132,
      y: 0,
      across: 120,
      along: 480,
      turn: 0 as const,
    })),
  })),
};

describe("geometry of a load", () => {
  const scene = rollScene(question, 4);

  test("length runs right, width runs down, to scale", () => {
    expect(scene.body).toMatchObject({ x: scene.left, y: scene.top });
    expect(scene.body.width).toBeCloseTo(150 * 4);
    expect(scene.body.height).toBeCloseTo(40 * 4);
    const second = scene.pieces[1]?.box;
    // start 55 in, 1 in from the left edge
    expect(second?.x).toBeCloseTo(scene.left + 55 * 4);
    expect(second?.y).toBeCloseTo(scene.top + 4);
    expect(second?.width).toBeCloseTo(42 * 4);
    expect(second?.height).toBeCloseTo(35.5 * 4);
  });

  test("leader, trailer and margins", () => {
    expect(scene.leader.width).toBeCloseTo(12 * 4);
    // last cut ends at 140 in of 150 in
    expect(scene.trailer.width).toBeCloseTo(10 * 4);
    expect(scene.margins[0] - scene.top).toBeCloseTo(4);
    expect(scene.margins[1] - scene.top).toBeCloseTo(39 * 4);
  });

  test("what is left counts every load of the same stock entry", () => {
    // 600 - 150, then 600 - 150 - 64
    expect(restOf(load, trailerLayout, [cast], [rollSeventeen], "in")?.left).toBe(ticksFrom(450, "in"));
    const second = trailerLayout.rolls[1] as typeof load;
    expect(restOf(second, trailerLayout, [cast], [rollSeventeen], "in")?.left).toBe(ticksFrom(386, "in"));
    expect(restOf({ ...load, stock: null }, trailerLayout, [cast], undefined, "in")?.left).toBe(ticksFrom(1650, "in"));
    expect(restOf(load, trailerLayout, [cast], undefined, "in")).toBeNull();
  });

  test("which way is up", () => {
    expect(upWay("vertical", 0)).toBe("right");
    expect(upWay("vertical", 180)).toBe("left");
    expect(upWay("horizontal", 0)).toBe("up");
    expect(upWay("horizontal", 180)).toBe("down");
    expect(upWay(null, 90)).toBe("up");
    expect(upWay(null, 270)).toBe("down");
  });

  test("a loose piece is laid down in its true outline, not mirrored", () => {
    const inch = ticksFrom(1, "in");
    const flag = {
      id: "flag",
      role: "overlay" as const,
      label: "",
      count: 1,
      film: "cast",
      outline: [
        { x: 0, y: 0 },
        { x: 6 * inch, y: 0 },
        { x: 0, y: 3 * inch },
      ],
      turn: "half" as const,
      elevation: null,
      at: null,
      layer: 1 as const,
    };
    const placed = (turn: 0 | 180, across: number, along: number) =>
      rollScene(
        {
          ...question,
          pieces: [flag],
          load: {
            ...load,
            cuts: [{ start: 0, length: 10, pieces: [{ id: "flag", copy: 1, x: 0, y: 0, across, along, turn }] }],
          },
        },
        1,
      ).pieces[0]?.path;
    // Roll x runs down and y right from (44, 34): 6 in down along the edge, 3 in along the feed.
    expect(placed(0, 6, 3)).toBe("M44 34L44 40L47 34Z");
    expect(placed(180, 6, 3)).toBe("M47 40L47 34L44 40Z");
  });

  test("the name and the mark of a loose piece stay inside its outline", () => {
    const inch = ticksFrom(1, "in");
    const corners = [
      { x: 0, y: 0 },
      { x: 30 * inch, y: 0 },
      { x: 0, y: 30 * inch },
    ];
    const pennant = {
      id: "pennant",
      role: "overlay" as const,
      label: "",
      count: 1,
      film: "cast",
      outline: corners,
      turn: "fixed" as const,
      elevation: null,
      at: null,
      layer: 1 as const,
    };
    const placed = { id: "pennant", copy: 1, x: 1, y: 0, across: 30, along: 30, turn: 0 as const };
    const shown = rollScene(
      { ...question, pieces: [pennant], load: { ...load, cuts: [{ start: 12, length: 30, pieces: [placed] }] } },
      6,
    );
    const [shape] = shown.pieces;
    const [label] = rollLettering(shown, { from: 0, to: 2000 }, "in", new Set()).labels;
    // The slope runs from 30 in down the roll's width to 30 in along it: x + y stays under 180 pixels from the corner.
    for (const box of [shape?.markBox, label?.box]) {
      const right = (box?.x ?? 0) + (box?.width ?? 0) - (shape?.box.x ?? 0);
      const low = (box?.y ?? 0) + (box?.height ?? 0) - (shape?.box.y ?? 0);
      expect(right + low).toBeLessThanOrEqual(180);
    }
    expect(label && shape && meet(label.box, shape.markBox)).toBe(false);
  });

  test("fits whole where its width stays legible", () => {
    expect(rollScene(question, fitRoll(load, 900)).width).toBeLessThanOrEqual(901);
    expect(fitRoll(long, 900) * long.width).toBeCloseTo(72);
  });
});

describe("what is in view", () => {
  test("the range moves in whole steps and always holds the screen with room on both sides", () => {
    for (const scrolled of [0, 1, 799, 800, 801, 12_345]) {
      const view = viewFor(scrolled, 800);
      expect(view.from).toBeLessThanOrEqual(scrolled - 800 + 799);
      expect(view.from).toBeLessThanOrEqual(scrolled);
      expect(view.to).toBeGreaterThanOrEqual(scrolled + 2 * 800);
      expect(Number.isInteger(view.from / 800)).toBe(true);
    }
    expect(viewFor(1, 800)).toEqual(viewFor(799, 800));
  });

  test("of 50 m and 1,000 pieces only a few are drawn and lettered, without overlap", () => {
    const scene = rollScene({ layout: { ...trailerLayout, rolls: [long] }, films: [], load: long, unit: "mm" }, 0.4);
    const view = viewFor(9000, 800);
    const seen = scene.pieces.filter(({ box }) => inView(box, view));
    expect(scene.pieces).toHaveLength(1000);
    // four screens of 800 pixels, cuts 494 mm x 0.4 = 197.6 pixels apart: at most 18 cuts of 10
    expect(seen.length).toBeGreaterThan(100);
    expect(seen.length).toBeLessThanOrEqual(180);
    const { labels, counters } = rollLettering(scene, view, "mm", new Set());
    expect(labels.length).toBeGreaterThan(0);
    for (const list of [labels, counters]) {
      list.forEach((a, index) => {
        for (const b of list.slice(index + 1)) expect(meet(a.box, b.box)).toBe(false);
      });
    }
    expect(labels.every(({ key }) => seen.some((shape) => shape.key === key))).toBe(true);
  });
});
