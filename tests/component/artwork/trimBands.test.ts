import { expect, test } from "vitest";
import { trimBands } from "../../../renderer/artwork/trimBands.ts";
import { trailerLayout } from "../drawing/trailer.ts";

const inch = 1_016_000;
const inInches = (layout = trailerLayout) =>
  trimBands("side", layout, "in").map(({ seam, axis, near, box: { x0, y0, x1, y1 } }) => ({
    seam,
    axis,
    near: near / inch,
    box: [x0, y0, x1, y1].map((ticks) => ticks / inch),
  }));

test("each overlap over its seam's own stretch, without the bleed; none in a break", () => {
  const open = trailerLayout.seams.filter(({ kind }) => kind !== "break");
  expect(open.length).toBeGreaterThan(0);
  expect(open.length).toBeLessThan(trailerLayout.seams.length);
  // The open seam at 66 in, from 0 to 40, shares an inch: 65 1/2 to 66 1/2, less 1/8 either side.
  expect(inInches()).toEqual([{ seam: "whole:2", axis: "x", near: 66, box: [65.625, 0, 66.375, 40] }]);
});

test("a border has a band for each pair of panels that face each other", () => {
  const [first] = trailerLayout.panels;
  const [seam] = trailerLayout.seams;
  if (first === undefined || seam === undefined) throw new Error("The drawn layout has no panel or seam.");
  const panel = (section: string, step: number, window: [number, number, number, number]) => ({
    ...first,
    id: `side/${section}/${step}`,
    section,
    window,
  });
  const border = {
    ...seam,
    id: "side/low|high",
    kind: "open" as const,
    border: true,
    section: null,
    axis: "y" as const,
    at: 20,
    from: 0,
    to: 100,
    between: ["low", "high"] as [string, string],
    top: "high",
  };
  const panels = [
    panel("low", 1, [-2, -2, 102, 20.5]),
    panel("high", 1, [-2, 19.5, 50.5, 42]),
    panel("high", 2, [49.5, 19.5, 102, 42]),
  ];
  expect(inInches({ ...trailerLayout, panels, seams: [border] }).map(({ box }) => box)).toEqual([
    [0, 19.625, 50.5, 20.375],
    [49.5, 19.625, 100, 20.375],
  ]);
  // Of a quarter of an inch a quarter is kept either side.
  const narrow = panels.map((one, at) => (at === 0 ? { ...one, window: [-2, -2, 102, 19.75] as never } : one));
  expect(inInches({ ...trailerLayout, panels: narrow, seams: [border] })[0]?.box).toEqual([0, 19.5625, 50.5, 19.6875]);
  // Edge to edge there is nothing to trim within.
  const butted = panels.map((one, at) => (at === 0 ? { ...one, window: [-2, -2, 102, 19.5] as never } : one));
  expect(inInches({ ...trailerLayout, panels: butted, seams: [border] })).toEqual([]);
});
