import type { JobDocument } from "../../shared/jobFile.ts";

/** A rectangle on 19 in of printable width, 4 in of trim overlap and no bleed; tests add what went wrong. */
const plain: JobDocument = {
  format: "lapwright-job",
  version: 1,
  name: "Past failure",
  units: "in",
  elevations: [
    {
      id: "side",
      film: "film",
      outline: [
        [0, 0],
        [64, 0],
        [64, 16],
        [0, 16],
      ],
    },
  ],
  films: [{ id: "film", rollWidths: [20], edgeMargin: 0.5, pricePerArea: 0.01 }],
  rules: {
    bleed: 0,
    overlap: 1,
    colourEdgeOverlap: 0,
    trimOverlap: 4,
    cutGap: 0.5,
    leader: 12,
    trailer: 3,
    seamPricePerLength: 0.02,
    panelPrice: 4,
  },
};

/** A gap nearer to the edge than half the trim overlap: the windows share less than the overlap that was asked for. */
const gapNearTheEdge: JobDocument = {
  ...plain,
  elevations: (plain.elevations ?? []).map((side) => ({
    ...side,
    breaks: [{ id: "gap", axis: "y", at: 15, from: 0, to: 64, type: "gap", width: 2, mustSplit: true }],
    sections: [{ id: "whole", box: [0, 0, 64, 16], direction: "horizontal" }],
  })),
};

/** Jobs that once failed a property, smallest form found, each named by what was wrong. */
export const pastFailures: readonly JobDocument[] = [gapNearTheEdge];

/** The same for the tiny jobs that are held against a plain search. */
export const pastTinyFailures: readonly JobDocument[] = [];
