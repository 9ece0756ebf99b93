import { describe, expect, test } from "vitest";
import { ticksFrom, ticksTo } from "../../core/index.ts";
import type { Elevation } from "../../core/model/instance.ts";
import { dataFile } from "./dataFile.ts";
import { fullWidthByHand } from "./fullWidthByHand.ts";
import { instanceOf } from "./planJob.ts";

interface WorkedJob {
  readonly file: string;
  readonly unit: "in" | "mm";
  readonly rows: readonly {
    readonly rollWidth: number;
    readonly direction: "vertical" | "horizontal";
    readonly panels: number;
    readonly seams: number;
  }[];
}

/** Source: "worked example, arithmetic printed with it (invented job, checked by script)", in tests/data/worked-jobs.json. */
const { jobs } = dataFile<{ jobs: readonly WorkedJob[] }>("worked-jobs.json");
/** Its table is worked out with seams fixed at door gaps, not with full widths. */
const free = jobs.filter(({ file }) => !file.startsWith("7-"));

describe.each(free)("full widths by hand, worked job $file", ({ file, unit, rows }) => {
  const instance = instanceOf(dataFile(`worked-jobs/${file}`));
  test.each(rows)("$rollWidth $direction: $panels panels, $seams seams", ({ rollWidth, direction, panels, seams }) => {
    const split = fullWidthByHand(instance, instance.elevations[0] as Elevation, ticksFrom(rollWidth, unit), direction);
    expect(split?.panels).toBe(panels);
    expect(split?.seams.length).toBe(seams);
  });
});

test("a bakery trailer of 240 in on 54 in film: full panels from the left, the rest last, seams every 52 1/2 in", () => {
  // Bleed 2, printable 53, overlap 1/2: the first window ends at -2 + 53 = 51, its seam lies 1/4 in before that.
  const instance = instanceOf(dataFile("worked-jobs/1-bakery-trailer.job.json"));
  const split = fullWidthByHand(instance, instance.elevations[0] as Elevation, ticksFrom(54, "in"), "vertical");
  expect(split?.seams.map(({ at }) => ticksTo(at, "in"))).toEqual([50.75, 103.25, 155.75, 208.25]);
  expect(split?.openSeams).toBe(4);
});

test("a seam is pulled back out of lettering, and the panels after it go on from there", () => {
  // The front is at the left, so work begins at the right: 156 + 3 - 53 + 1/2 = 106 1/2 lies inside the name, 100 to 110.
  const instance = instanceOf({
    format: "lapwright-job",
    version: 1,
    units: "in",
    elevations: [
      {
        id: "side",
        film: "cast",
        travel: "left",
        outline: [
          [0, 0],
          [156, 0],
          [156, 60],
          [0, 60],
        ],
        keepClear: [{ id: "name", box: [100, 20, 110, 30], rule: "never" }],
      },
    ],
    films: [{ id: "cast", rollWidths: [54], edgeMargin: 0.5 }],
    rules: { bleed: 3, overlap: 1, colourEdgeOverlap: 0, trimOverlap: 4, cutGap: 1, leader: 12, trailer: 6 },
  });
  const split = fullWidthByHand(instance, instance.elevations[0] as Elevation, ticksFrom(54, "in"), "vertical");
  // Pulled back to 110 + 1/2, half an overlap beside it; the others 52 in apart; the rest is the panel at the front.
  expect(split?.seams.map(({ at }) => ticksTo(at, "in"))).toEqual([6.5, 58.5, 110.5]);
});
