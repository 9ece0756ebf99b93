import { expect, test } from "vitest";
import { buildInstance } from "../../../core/model/buildInstance.ts";
import { readJob } from "../../../core/model/readJob.ts";

type Lay = "one-way" | "two-way" | "any";

/** What is wrong with a wall of some film and heads, with a fill of another film along its foot. */
function wrong(lay: Lay, fillLay: Lay, heads: { wall: "same" | "alternate"; section: "same" | "alternate" }) {
  const square = [
    [0, 0],
    [100, 0],
    [100, 50],
    [0, 50],
  ];
  const { job, problems } = readJob({
    format: "lapwright-job",
    version: 1,
    name: "Clinic corridor",
    units: "in",
    elevations: [
      {
        id: "wall",
        film: "cast",
        outline: square,
        heads: heads.wall,
        sections: [{ id: "all", box: [0, 0, 100, 50], direction: "vertical", heads: heads.section }],
        fill: [{ edge: "bottom", maxDepth: 6, film: "plain" }],
      },
    ],
    films: [
      { id: "cast", rollWidths: [54], edgeMargin: 0.5, lay },
      { id: "plain", rollWidths: [54], edgeMargin: 0.5, lay: fillLay },
    ],
    rules: { bleed: 3, overlap: 1, colourEdgeOverlap: 0.25, trimOverlap: 4, cutGap: 1, leader: 12, trailer: 6 },
  });
  if (job === null) throw new Error(JSON.stringify(problems));
  const built = buildInstance(job);
  return "instance" in built ? [] : built.problems.map(({ path, why }) => `${path}: ${why}`);
}

const says = (film: string) =>
  `elevations[0].heads: Elevation "wall" turns every second panel head to foot, but film "${film}" lies one way only.`;

test("panels that lie head to foot need film that lies both ways, and so do fills where the elevation says so", () => {
  expect(wrong("one-way", "any", { wall: "same", section: "alternate" })).toEqual([says("cast")]);
  expect(wrong("two-way", "one-way", { wall: "alternate", section: "alternate" })).toEqual([says("plain")]);
  expect(wrong("two-way", "two-way", { wall: "alternate", section: "alternate" })).toEqual([]);
  // The section's own heads do not bind the fill.
  expect(wrong("any", "one-way", { wall: "same", section: "alternate" })).toEqual([]);
});
