import type { WidthChoice } from "./choosing/rollWidths.ts";
import { measureLayout } from "./costing/measureLayout.ts";
import { neededRegion, type Region } from "./geometry/region.ts";
import type { Covering } from "./model/covering.ts";
import type { Instance } from "./model/instance.ts";
import type { Bound, Layout } from "./model/plan.ts";
import { seamCount } from "./model/plan.ts";
import type { Problem } from "./model/problem.ts";
import type { Run } from "./model/run.ts";
import { lowerBounds } from "./nesting/lowerBounds.ts";
import type { ProgrammeEngine } from "./programme/programme.ts";
import { layOnRolls } from "./rolls/layOnRolls.ts";
import { applyOrder } from "./sequencing/applyOrder.ts";
import { printOrder } from "./sequencing/printOrder.ts";

/** Costs nearer than this are equal: nobody is charged a fraction of a cent. */
const ONE_CENT = 0.005;

/** What every layout of one instance is measured with, worked out once. */
export interface Measuring {
  readonly regions: ReadonlyMap<string, Region>;
  readonly lowerBound: ReturnType<typeof lowerBounds>;
  /** Lower bounds already worked out, by roll width and seam count. */
  readonly bounds: Map<string, { cost: number; filmArea: number; by: string }>;
}

export function measuringOf(instance: Instance): Measuring {
  const regionOf = (elevation: Instance["elevations"][number]) =>
    neededRegion(
      elevation.outline,
      elevation.openings.map(({ outline }) => outline),
    );
  return {
    regions: new Map(instance.elevations.map((elevation) => [elevation.id, regionOf(elevation)])),
    lowerBound: lowerBounds(instance),
    bounds: new Map(),
  };
}

/**
 * Makes a whole layout of one covering for each group of elevations: lays it on rolls, orders it, measures it and holds it
 * against the lower bound.
 *
 * @param engine for programmes beyond the embedded engine, where the host loaded one
 * @returns the layout, not yet verified, or the reasons why its pieces fit no roll
 */
export function layOut(
  instance: Instance,
  measuring: Measuring,
  id: string,
  choice: WidthChoice,
  coverings: readonly Covering[],
  run: Run,
  engine?: ProgrammeEngine,
): { layout: Layout } | { reasons: readonly Problem[] } {
  const panels = inJobOrder(
    instance,
    coverings.flatMap((covering) => covering.panels),
  );
  const seams = inJobOrder(
    instance,
    coverings.flatMap((covering) => covering.seams),
  );
  const laid = layOnRolls(instance, panels, choice.rollWidth, run, engine);
  if ("reasons" in laid) return laid;
  const penalties = coverings.reduce((total, { measures }) => total + measures.penalties, 0);
  const { totals, wasteBy } = measureLayout(instance, measuring.regions, {
    panels,
    seams,
    rolls: laid.rolls,
    penalties,
  });
  return {
    layout: {
      id,
      rollWidth: choice.rollWidth,
      nesting: "crosscut",
      panels,
      seams,
      rolls: laid.rolls,
      printOrder: printOrder(instance, panels, laid.rolls),
      applyOrder: applyOrder(instance, panels, seams),
      totals,
      wasteBy,
      bound: boundOf(measuring, choice, seamCount(totals), totals.cost.total),
      warnings: laid.warnings,
    },
  };
}

function boundOf(measuring: Measuring, { rollWidth }: WidthChoice, seams: number, cost: number): Bound {
  const key = `${rollWidth} ${seams}`;
  const known = measuring.bounds.get(key) ?? measuring.lowerBound({ rollWidth, nesting: "crosscut", seams });
  measuring.bounds.set(key, known);
  const met = Math.abs(cost - known.cost) <= ONE_CENT;
  const bound = met ? cost : known.cost;
  return {
    cost: bound,
    filmArea: known.filmArea,
    gapPercent: cost === 0 ? 0 : (100 * (cost - bound)) / cost,
    proven: met,
    by: known.by,
  };
}

/** Lists what belongs to elevations in the order of the job's elevations. */
function inJobOrder<T extends { readonly elevation: string }>(instance: Instance, items: readonly T[]): T[] {
  const rank = new Map(instance.elevations.map(({ id }, i) => [id, i]));
  return [...items].sort((a, b) => (rank.get(a.elevation) as number) - (rank.get(b.elevation) as number));
}
