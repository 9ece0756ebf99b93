import fc from "fast-check";
import { expect, test } from "vitest";
import { widthChoices } from "../../../core/choosing/rollWidths.ts";
import { dimensionsOf } from "../../../core/fitting/dimensions.ts";
import { panelSlack } from "../../../core/fitting/panelSlack.ts";
import { seamReasons } from "../../../core/fitting/seamReasons.ts";
import type { Box } from "../../../core/geometry/box.ts";
import type { Region } from "../../../core/geometry/region.ts";
import type { Elevation, Instance } from "../../../core/model/instance.ts";
import type { Layout, Panel, Slack } from "../../../core/model/plan.ts";
import { fittingSteps } from "../../../core/sequencing/fittingSteps.ts";
import { verifyPlan } from "../../../core/verifying/verifyPlan.ts";
import { planJob } from "../../support/planJob.ts";
import { randomJob } from "../../support/randomJob.ts";
import { regionOf, regionsOf } from "./builders.ts";

test("on random plans: shifted by its slack, film is everywhere still; dimensions are complete and give nothing negative", () => {
  const told = { panels: 0, dimensions: 0 };
  fc.assert(
    fc.property(randomJob, fc.integer({ min: 1, max: 997 }), (job, salt) => {
      const { instance, result } = planJob(job, { work: 1 });
      if (result.status !== "planned") return;
      const [layout] = result.plan.layouts as [Layout];
      for (const elevation of instance.elevations) {
        const own = layout.panels.filter((panel) => panel.elevation === elevation.id);
        const slacks = panelSlack(instance, elevation, layout.panels, layout.seams, regionOf(elevation));
        expect(slacks.length).toBe(own.length);
        told.panels += own.length;
        staysCovered(instance, elevation, own, slacks, salt);
      }
      told.dimensions += dimensionsHold(instance, layout);
      expect(
        verifyPlan(instance, { ...result.plan, layouts: result.plan.layouts.map((one) => withFitting(instance, one)) }),
      ).toEqual([]);
    }),
    { seed: 20260708, numRuns: 20 },
  );
  expect(told.panels).toBeGreaterThan(100);
  expect(told.dimensions).toBeGreaterThan(100);
});

/** A layout with all that fitters ask of it, as a plan file would hold it. */
function withFitting(instance: Instance, layout: Layout): Layout {
  const { panels, seams, sections } = layout;
  const regions = regionsOf(instance.elevations);
  const slacks = instance.elevations.flatMap((elevation) => {
    const found = panelSlack(instance, elevation, panels, seams, regions.get(elevation.id) as Region);
    const own = panels.filter((panel) => panel.elevation === elevation.id);
    return own.map((panel, i): [string, Slack] => [panel.id, found[i] as Slack]);
  });
  const bySlack = new Map(slacks);
  const choice = widthChoices(instance).find(({ rollWidth }) => rollWidth === layout.rollWidth);
  const reasons = seamReasons(instance, regions, panels, seams, choice?.widthByFilm ?? new Map(), sections);
  expect(reasons.filter((why) => !/^(In|At|On|Along|Over|Open|Border|Inner)\b/.test(why))).toEqual([]);
  expect(reasons.join()).not.toMatch(/NaN|Infinity|undefined|null/);
  const fitting = fittingSteps(instance, panels, seams);
  if ("circle" in fitting) throw new Error(`circle: ${fitting.circle.join(", ")}`);
  return {
    ...layout,
    panels: panels.map((panel) => ({ ...panel, slack: bySlack.get(panel.id) ?? null })),
    seams: seams.map((seam, i) => ({ ...seam, why: reasons[i] as string })),
    dimensions: dimensionsOf(instance, regions, panels, seams, sections),
    fitting: fitting.steps,
  };
}

/** Every section with panels is measured both ways. @returns how many dimensions there are */
function dimensionsHold(instance: Instance, { panels, seams, sections }: Layout): number {
  const dimensions = dimensionsOf(instance, regionsOf(instance.elevations), panels, seams, sections);
  const panelled = new Set(panels.map(({ elevation, section }) => `${elevation}/${section}`));
  expect(dimensions.length).toBeGreaterThanOrEqual(2 * panelled.size);
  for (const { slack, from, to } of dimensions) {
    expect(slack).toBeGreaterThanOrEqual(0);
    expect(to).toBeGreaterThan(from);
  }
  return dimensions.length;
}

/** Holds points of the needed region against the windows, each panel in turn shifted by each of its slacks. */
function staysCovered(
  { rules }: Instance,
  elevation: Elevation,
  panels: readonly Panel[],
  slacks: readonly Slack[],
  salt: number,
): void {
  const { box, bleed } = elevation;
  const region = regionOf(elevation);
  const points: { x: number; y: number }[] = [];
  const columns = 60;
  for (let i = 0; i <= columns; i++) {
    const x = Math.round(box.x0 + ((box.x1 - box.x0) * (i + (salt % 10) / 10)) / columns);
    for (const { from, to } of region.line("x", x, { from: box.y0, to: box.y1 })) {
      // Ends are rounded outward to a tick, so a point may lie up to one beyond the film that is needed.
      for (const y of [from + 1, (from + to) / 2, to - 1]) points.push({ x, y });
    }
  }
  const holds = ({ x0, y0, x1, y1 }: Box, { x, y }: { x: number; y: number }) =>
    x0 <= x && x <= x1 && y0 <= y && y <= y1;
  const inside = points.filter((point) => panels.some(({ window }) => holds(window, point)));
  for (const [i, panel] of panels.entries()) {
    const { left, right, down, up } = slacks[i] as Slack;
    for (const [dx, dy] of [
      [-left, 0],
      [right, 0],
      [0, -down],
      [0, up],
    ] as const) {
      const { x0, y0, x1, y1 } = panel.window;
      const moved = { x0: x0 + dx, y0: y0 + dy, x1: x1 + dx, y1: y1 + dy };
      const windows = [moved, ...panels.filter((other) => other !== panel).map(({ window }) => window)];
      const bare = inside.filter((point) => !windows.some((window) => holds(window, point)));
      expect(bare).toEqual([]);
    }
    const lap = rules.overlap - rules.colourEdgeOverlap;
    const least = Math.min(lap, bleed.left, bleed.right, bleed.bottom, bleed.top, bleed.openings);
    expect(Math.min(left, right, down, up)).toBeGreaterThanOrEqual(least);
  }
}
