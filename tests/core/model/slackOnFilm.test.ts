import { expect, test } from "vitest";
import { buildInstance } from "../../../core/model/buildInstance.ts";
import { readJob } from "../../../core/model/readJob.ts";

type Joint = "lapped" | "butted";

/** What is wrong with a window of some film, with a fill of another along its foot and a film that nothing is of. */
function wrong(joint: Joint, fillJoint: Joint, leastSlack: number): string[] {
  const film = (id: string, own: Joint) => ({ id, rollWidths: [54], joint: own });
  const reading = readJob({
    format: "lapwright-job",
    version: 1,
    name: "Reading room",
    units: "in",
    films: [film("glass", joint), film("edge", fillJoint), film("spare", "butted")],
    elevations: [
      {
        id: "window",
        film: "glass",
        outline: [
          [0, 0],
          [100, 0],
          [100, 50],
          [0, 50],
        ],
        fill: [{ edge: "bottom", maxDepth: 6, film: "edge" }],
      },
    ],
    rules: {
      bleed: 1,
      overlap: 1,
      colourEdgeOverlap: 0.25,
      trimOverlap: 2,
      cutGap: 0.5,
      leader: 10,
      trailer: 5,
      leastSlack,
    },
  });
  if (reading.job === null) throw new Error(JSON.stringify(reading.problems));
  const built = buildInstance(reading.job);
  return "problems" in built ? built.problems.map(({ path, why }) => `${path}: ${why}`) : [];
}

const told = (film: string): string =>
  `rules.leastSlack: The panels of film "${film}" meet edge to edge, so none of them can be shifted by 0.5 in.`;

test("no slack can be asked of film that meets edge to edge, of panels or of fills", () => {
  expect(wrong("lapped", "lapped", 0.5)).toEqual([]);
  expect(wrong("butted", "lapped", 0.5)).toEqual([told("glass")]);
  expect(wrong("lapped", "butted", 0.5)).toEqual([told("edge")]);
  expect(wrong("butted", "butted", 0)).toEqual([]);
});
