import { type BoundKey, KnownBounds } from "./bounds.ts";
import type { MirrorGroup } from "./choosing/mirrorGroups.ts";
import type { WidthChoice } from "./choosing/rollWidths.ts";
import { measureLayout } from "./costing/measureLayout.ts";
import { fitOut } from "./fitOut.ts";
import { neededRegion, type Region } from "./geometry/region.ts";
import type { Covering } from "./model/covering.ts";
import type { Instance } from "./model/instance.ts";
import type { Layout, Load } from "./model/plan.ts";
import { seamCount } from "./model/plan.ts";
import type { Problem } from "./model/problem.ts";
import type { Run } from "./model/run.ts";
import type { ProgrammeEngine } from "./programme/programme.ts";
import { layFree } from "./rolls/layFree.ts";
import { layOnRolls } from "./rolls/layOnRolls.ts";
import { printOrder } from "./sequencing/printOrder.ts";

/** What every layout of one instance is measured with, worked out once. */
export interface Measuring {
  readonly regions: ReadonlyMap<string, Region>;
  readonly bounds: KnownBounds;
}

export function measuringOf(instance: Instance, groups: readonly MirrorGroup[]): Measuring {
  const regionOf = (elevation: Instance["elevations"][number]) =>
    neededRegion(
      elevation.outline,
      elevation.openings.map(({ outline }) => outline),
    );
  return {
    regions: new Map(instance.elevations.map((elevation) => [elevation.id, regionOf(elevation)])),
    bounds: new KnownBounds(instance, groups),
  };
}

/** How the pieces of a layout are laid on rolls. */
export interface Laying {
  readonly nesting: "crosscut" | "free";
  /** Steps of the search for cut patterns by column generation; 0 for a layout that is to come soon. */
  readonly patternSteps: number;
  /** For free nesting: loads of the very same panels in cuts, to begin with; left out, they are laid first. */
  readonly inCuts?: readonly Load[];
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
  { nesting, patternSteps, inCuts: known }: Laying,
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
  const sections = inJobOrder(
    instance,
    coverings.flatMap((covering) => covering.sections ?? []),
  );
  const fitted = fitOut(instance, measuring.regions, panels, seams, sections, choice.widthByFilm);
  if ("reasons" in fitted) return fitted;
  const inCuts =
    known === undefined
      ? layOnRolls(instance, panels, choice.rollWidth, run, engine, patternSteps)
      : { rolls: known, warnings: [] };
  if ("reasons" in inCuts) return inCuts;
  const laid = nesting === "free" ? layFree(instance, panels, inCuts.rolls, run) : inCuts;
  const penalties = coverings.reduce((total, { measures }) => total + measures.penalties, 0);
  const { totals, wasteBy } = measureLayout(instance, measuring.regions, {
    panels,
    seams,
    rolls: laid.rolls,
    penalties,
  });
  const key: BoundKey = { choice, nesting, seams: seamCount(totals), sections };
  return {
    layout: {
      id,
      rollWidth: choice.rollWidth,
      nesting,
      ...fitted,
      rolls: laid.rolls,
      printOrder: printOrder(instance, panels, laid.rolls),
      totals,
      wasteBy,
      bound: measuring.bounds.against(key, totals.cost.total),
      warnings: laid.warnings,
    },
  };
}

/** Lists what belongs to elevations in the order of the job's elevations. */
function inJobOrder<T extends { readonly elevation: string }>(instance: Instance, items: readonly T[]): T[] {
  const rank = new Map(instance.elevations.map(({ id }, i) => [id, i]));
  return [...items].sort((a, b) => (rank.get(a.elevation) as number) - (rank.get(b.elevation) as number));
}
