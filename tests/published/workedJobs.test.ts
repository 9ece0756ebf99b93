import { describe, expect, test } from "vitest";
import { type Layout, type Plan, ticksTo } from "../../core/index.ts";
import type { JobDocument } from "../../shared/jobFile.ts";
import { dataFile } from "../support/dataFile.ts";
import { verifiedPlan } from "../support/planJob.ts";

/**
 * Eight jobs whose figures were worked out by hand for each roll width and direction.
 * Source: "worked example, arithmetic printed with it (invented job, checked by script)", in tests/data/worked-jobs.json.
 * The figures are what a simple even split needs, so they are upper bounds: a plan may do with less, never with more.
 */
interface Row {
  readonly rollWidth: number;
  readonly direction: "vertical" | "horizontal";
  readonly printable: number;
  readonly panels: number;
  readonly rollUsed: number;
  readonly filmArea: number;
  readonly wastePercent: number;
  readonly seams: number;
  readonly seamLength?: number;
}
interface WorkedJob {
  readonly job: number;
  readonly file: string;
  readonly unit: "in" | "mm";
  readonly areaUnit: "ft2" | "m2";
  readonly netArea: number;
  readonly rows: readonly Row[];
}

const { jobs } = dataFile<{ jobs: readonly WorkedJob[] }>("worked-jobs.json");

/** Square units of the job in one unit of the table's areas: 1 ft2 = 144 in2, 1 m2 = 1e6 mm2. */
const squareUnits = { ft2: 144, m2: 1e6 };

/** The job with one roll width to choose from and one direction. */
function narrowed(job: JobDocument, { rollWidth, direction }: Row): JobDocument {
  const films = (job.films ?? []).map((film) => ({ ...film, rollWidths: [rollWidth] }));
  const elevations = (job.elevations ?? []).map((elevation) => {
    const outline = elevation.outline ?? [];
    const [xs, ys] = [outline.map(([x]) => x), outline.map(([, y]) => y)];
    const box: [number, number, number, number] = [Math.min(...xs), Math.min(...ys), Math.max(...xs), Math.max(...ys)];
    return { ...elevation, sections: [{ id: "whole", box, direction }] };
  });
  return { ...job, films, elevations };
}

function chosenOf(plan: Plan): Layout {
  const layout = plan.layouts.find(({ id }) => id === plan.chosen);
  if (!layout) throw new Error(`the plan has no layout ${plan.chosen}`);
  return layout;
}

/** The layout with the fewest panels; of those the one with the least film. */
const plainestOf = ({ layouts }: Plan): Layout =>
  layouts.reduce((best, next) => {
    const fewer = next.totals.panelCount - best.totals.panelCount;
    return fewer < 0 || (fewer === 0 && next.totals.filmArea < best.totals.filmArea) ? next : best;
  });

describe.each(jobs)("worked job $job, $file", ({ file, unit, areaUnit, netArea, rows }) => {
  const document = dataFile<JobDocument>(`worked-jobs/${file}`);

  test.each(rows)("$rollWidth $direction: no more film, panels or seams than the table", (row) => {
    const plan = verifiedPlan(narrowed(document, row));
    // The table's area is rounded to three places; width x length used is the figure it was rounded from.
    const tableArea = row.rollWidth * row.rollUsed;
    expect(Math.abs(tableArea / squareUnits[areaUnit] - row.filmArea)).toBeLessThanOrEqual(0.00051);
    // An even split is among the layouts, as few panels and seams as the table's, on no more film. Where a doorway makes
    // one more panel the cheaper way (job 4), the chosen layout may have it.
    const { totals: plainest } = plainestOf(plan);
    expect(plainest.panelCount).toBe(row.panels);
    const visible = plainest.openSeams + plainest.bodyLineSeams + plainest.colourEdgeSeams;
    expect(visible + plainest.breakSeams).toBeLessThanOrEqual(row.seams);
    expect(plainest.filmArea).toBeLessThanOrEqual(tableArea * (1 + 1e-9));
    if (row.seamLength !== undefined)
      expect(ticksTo(plainest.visibleSeamLength, unit)).toBeLessThanOrEqual(row.seamLength);
    const { totals, panels, rolls } = chosenOf(plan);
    expect(totals.filmArea).toBeLessThanOrEqual(tableArea * (1 + 1e-9));
    expect(totals.wastePercent).toBeLessThanOrEqual(row.wastePercent + 0.0051);
    for (const { across } of panels) expect(ticksTo(across, unit)).toBeLessThanOrEqual(row.printable);
    for (const { width } of rolls) expect(ticksTo(width, unit)).toBe(row.rollWidth);
    // netArea is rounded to three places where the table rounds it.
    expect(Math.abs(totals.neededArea / squareUnits[areaUnit] - netArea)).toBeLessThanOrEqual(0.00051);
  });

  test("left to choose, no more film than the best row", () => {
    const best = Math.min(...rows.map(({ rollWidth, rollUsed }) => rollWidth * rollUsed));
    const plan = verifiedPlan(document);
    const leastFilm = Math.min(...plan.layouts.map(({ totals }) => totals.filmArea));
    expect(leastFilm).toBeLessThanOrEqual(best * (1 + 1e-9));
  });
});
