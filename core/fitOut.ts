import { dimensionsOf } from "./fitting/dimensions.ts";
import { panelSlack } from "./fitting/panelSlack.ts";
import { seamReasons } from "./fitting/seamReasons.ts";
import type { Region } from "./geometry/region.ts";
import type { Instance } from "./model/instance.ts";
import type { FoundSection, Layout, Panel, Seam } from "./model/plan.ts";
import type { Problem } from "./model/problem.ts";
import { differencesOf } from "./panelling/followersDifferences.ts";
import { applyOrder } from "./sequencing/applyOrder.ts";
import { fittingSteps } from "./sequencing/fittingSteps.ts";
import { circleProblem } from "./sequencing/lapOrder.ts";
import type { Ticks } from "./units/ticks.ts";

/** What of a layout a fitter works by. */
export type FittedOut = Pick<
  Layout,
  "panels" | "seams" | "applyOrder" | "sections" | "dimensions" | "fitting" | "differences"
>;

/**
 * Works out what the fitter needs of panels and seams: how far each panel may be shifted and each measure of the body may
 * grow, why each seam lies where it does, the order of work, and where a side that follows another does not.
 *
 * @param regions what is needed, by elevation
 * @param sections found, in place of those given for the elevations that they name
 * @param widthByFilm roll widths of the layout, ticks
 * @returns panels and seams in the order given; or the reason why they can't go up in any order
 */
export function fitOut(
  instance: Instance,
  regions: ReadonlyMap<string, Region>,
  panels: readonly Panel[],
  seams: readonly Seam[],
  sections: readonly FoundSection[],
  widthByFilm: ReadonlyMap<string, Ticks>,
): FittedOut | { reasons: readonly Problem[] } {
  const applied = applyOrder(instance, panels, seams);
  if ("circle" in applied) return { reasons: [circleProblem(instance.elevations, applied.circle)] };
  const fitted = fittingSteps(instance, panels, seams);
  if ("circle" in fitted) return { reasons: [circleProblem(instance.elevations, fitted.circle)] };
  const reasons = seamReasons(instance, regions, panels, seams, widthByFilm, sections);
  const follows = instance.elevations.some(({ mirror }) => mirror === "follow");
  return {
    panels: instance.elevations.flatMap((elevation) => {
      const own = panels.filter((panel) => panel.elevation === elevation.id);
      const slack = panelSlack(instance, elevation, own, seams, regions.get(elevation.id) as Region);
      return own.map((panel, i) => ({ ...panel, slack: slack[i] ?? null }));
    }),
    seams: seams.map((seam, i) => ({ ...seam, why: reasons[i] as string })),
    applyOrder: applied.steps,
    ...(sections.length > 0 ? { sections } : {}),
    dimensions: dimensionsOf(instance, regions, panels, seams, sections),
    fitting: fitted.steps,
    ...(follows ? { differences: differencesOf(instance, { panels, seams }) } : {}),
  };
}
