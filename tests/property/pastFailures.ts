import { readFileSync } from "node:fs";
import { join } from "node:path";
import type { JobDocument } from "../../shared/jobFile.ts";
import { projectRoot } from "../support/projectRoot.ts";

/** A generated job that once failed, kept as it came. */
const kept = (name: string): JobDocument =>
  JSON.parse(readFileSync(join(projectRoot, "tests/data/past-failures", `${name}.job.json`), "utf8"));

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
export const pastFailures: readonly JobDocument[] = [
  gapNearTheEdge,
  kept("touching-windows-at-a-border"),
  kept("zone-beside-a-border"),
  kept("corner-touched-by-a-strip"),
  kept("strip-ends-in-a-bare-gap"),
];

type Side = NonNullable<JobDocument["elevations"]>[number];

/** A job of the kind that is held against a plain search: lengths of a few inches, split upright, 1.5 in printable. */
const tiny = (side: Omit<Side, "id">, rules: Partial<JobDocument["rules"]>): JobDocument => ({
  ...plain,
  elevations: [{ id: "side", film: "film", ...side }],
  films: [{ id: "film", rollWidths: [2], edgeMargin: 0.25, pricePerArea: 0.25 }],
  rules: { ...plain.rules, leader: 1, trailer: 0.5, avoidPenalty: 3, panelPrice: 0.125, sliverUnder: 0, ...rules },
});

/** An open seam without overlap that crosses an avoided zone: whether the bare line meets the zone was told differently. */
const avoidedByABareLine = tiny(
  {
    outline: [
      [0, 0],
      [2, 0],
      [2, 2],
      [0, 2],
    ],
    openings: [
      {
        id: "window",
        outline: [
          [0, 0.5],
          [0.5, 0.5],
          [0.5, 1.5],
          [0, 1.5],
        ],
      },
    ],
    sections: [{ id: "whole", box: [0, 0, 2, 2], direction: "vertical" }],
    keepClear: [{ id: "zone", label: "Words", box: [0, 0, 1.5, 0.5], rule: "avoid" }],
  },
  { bleed: 0.25, overlap: 0, trimOverlap: 0, seamPricePerLength: 0 },
);

/** A gap 0.5 in from the edge with 1.5 in of trim overlap: panels on both sides reach past each other. */
const panelsPastEachOther = tiny(
  {
    outline: [
      [0, 0],
      [4, 0],
      [4, 1.5],
      [1.5, 1.5],
      [1.5, 3.5],
      [0, 3.5],
    ],
    openings: [
      {
        id: "window",
        outline: [
          [2, 0.5],
          [3, 0.5],
          [3, 1.5],
          [2, 1.5],
        ],
      },
    ],
    sections: [{ id: "whole", box: [0, 0, 4, 3.5], direction: "vertical" }],
    breaks: [{ id: "gap", axis: "x", at: 0.5, from: 0, to: 3.5, type: "gap", mustSplit: true }],
  },
  { bleed: 0, overlap: 1, trimOverlap: 1.5, seamPricePerLength: 0.5 },
);

/** The same for the tiny jobs that are held against a plain search. */
export const pastTinyFailures: readonly JobDocument[] = [avoidedByABareLine, panelsPastEachOther];
