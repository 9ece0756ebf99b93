import { expect, test } from "vitest";
import type { Hold } from "../../../core/model/instance.ts";
import { ticksFrom } from "../../../core/units/ticks.ts";
import { elevationScene } from "../../../renderer/drawing/elevationScene.ts";
import { heldMarks } from "../../../renderer/drawing/held.ts";
import { trailerLayout, trailerSide } from "./trailer.ts";

const inches = (value: number): number => ticksFrom(value, "in");
const scene = (holds: readonly Hold[], layout = trailerLayout, side = trailerSide) =>
  elevationScene(side, layout, "in", 4, holds);
/** Every second number of a path of absolute points: across or up. */
const numbersIn = (path: string): number[] => [...path.matchAll(/-?\d+(\.\d+)?/g)].map(([number]) => Number(number));

test("the seam that is held is told and marked, the other is not", () => {
  const hold: Hold = { id: "h", kind: "seam", axis: "x", at: inches(33), section: null };
  const [first, second] = scene([hold]).seams;
  expect(first?.held).toBe(true);
  expect(first?.says).toMatch(/, held here$/);
  expect(second?.held).toBe(false);
  expect(second?.says).not.toContain("held");
  expect(scene([{ ...hold, section: "whole" }]).seams[0]?.held).toBe(true);
  expect(scene([{ ...hold, section: "other" }]).seams[0]?.held).toBe(false);
  expect(scene([{ ...hold, at: inches(33) + 1 }]).seams[0]?.held).toBe(false);
  expect(scene([{ ...hold, axis: "y" }]).seams[0]?.held).toBe(false);
});

test("a held seam has a lozenge on both ends", () => {
  const path = heldMarks({ x1: 10, y1: 20, x2: 10, y2: 80 });
  expect(path).toBe("M10 14l6 6l-6 6l-6 -6ZM10 74l6 6l-6 6l-6 -6Z");
});

test("a panel whose width is held says so", () => {
  const hold: Hold = { id: "h", kind: "width", axis: "x", at: inches(50), width: inches(35.5), section: null };
  expect(scene([hold]).panels.map(({ says }) => says.endsWith(", width held"))).toEqual([false, true, false]);
  expect(scene([{ ...hold, axis: "y" }]).panels.some(({ says }) => says.includes("held"))).toBe(false);
});

test("a stretch free of seams is bracketed along the edge where such a seam would end, to scale", () => {
  const upright: Hold = { id: "h", kind: "noSeam", axis: "x", from: inches(40), to: inches(50), section: null };
  const drawn = scene([upright]);
  const [stretch] = drawn.freeOfSeams;
  expect(stretch?.says).toBe("No upright seam from 40 in to 50 in, held");
  const [left = 0, , , right = 0] = numbersIn(stretch?.path ?? "");
  // 10 in at 4 pixels an inch
  expect(right - left).toBeCloseTo(40, 6);
  expect(left - drawn.outlineBox.x).toBeCloseTo(160, 6);
  const level: Hold = { id: "h", kind: "noSeam", axis: "y", from: inches(10), to: inches(15), section: "whole" };
  const [across] = scene([level]).freeOfSeams;
  const [, low = 0, , high = 0] = numbersIn(across?.path ?? "");
  expect(low - high).toBeCloseTo(20, 6);
});

test("sections found stand in the scene with their reason, for their own elevation alone", () => {
  const sections = [
    { elevation: "side", id: "low", box: [0, 0, 100, 8] as [number, number, number, number], direction: "horizontal" as const, why: "seam on the rail" },
    { elevation: "rear", id: "all", box: [0, 0, 50, 40] as [number, number, number, number], direction: "vertical" as const, why: "no seam" },
  ]; // biome-ignore format: one line each
  const { found } = scene([], { ...trailerLayout, sections });
  expect(found.map(({ key, says }) => [key, says])).toEqual([
    ["low", "Section low, found, panels run horizontal: seam on the rail"],
  ]);
  expect(scene([]).found).toEqual([]);
});

test("a colour edge that is sloped is drawn as it runs, a straight one only as its line", () => {
  const edge = { id: "wave", axis: "y" as const, at: inches(20), from: 0, to: inches(100), path: null };
  const path = [
    { x: 0, y: inches(19) },
    { x: inches(50), y: inches(21) },
    { x: inches(100), y: inches(20) },
  ];
  expect(scene([], trailerLayout, { ...trailerSide, colourEdges: [edge] }).edgePaths).toEqual([]);
  const { edgePaths, outlineBox } = scene([], trailerLayout, { ...trailerSide, colourEdges: [{ ...edge, path }] });
  expect(edgePaths).toHaveLength(1);
  const { x, y, height } = outlineBox;
  const points = [
    [0, 19],
    [50, 21],
    [100, 20],
  ].flatMap(([across = 0, up = 0]) => [x + 4 * across, y + height - 4 * up]);
  numbersIn(edgePaths[0]?.path ?? "").forEach((number, place) => {
    expect(number).toBeCloseTo(points[place] ?? Number.NaN, 6);
  });
});
