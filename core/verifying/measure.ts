import type { Panel, Seam } from "../model/plan.ts";
import { TICKS_PER } from "../units/ticks.ts";
import { polygonArea } from "./geometry/polygons.ts";
import { areaIn } from "./geometry/region.ts";
import type { ElevationView, LayoutView } from "./layoutView.ts";
import type { LineFacts } from "./lines.ts";
import { seamsAreWeighed, type Weighed, weigh } from "./weights.ts";
import { coversOf, meets, zonesOf } from "./zones.ts";

/** What a layout comes to, worked out again from its panels, seams and loads. Areas in square units of the job. */
export interface Measure {
  readonly neededArea: number;
  readonly filmArea: number;
  readonly windowsOverNeeded: number;
  readonly windowsOverOpenings: number;
  readonly windowsOutside: number;
  readonly neededOfElevations: number;
  readonly film: number;
  readonly laminate: number;
  readonly ink: number;
  /** Pairs of a seam and an avoided zone that it meets, all copies. */
  readonly penalties: number;
  /** Ticks, and how much of it is open to rounding. */
  readonly visibleSeamLength: number;
  readonly visibleSeamAllowance: number;
  /** The same as each stretch counts; null where every stretch counts once. */
  readonly weighedSeams: Weighed | null;
}

export function measure(view: LayoutView): Measure {
  const { job, layout } = view;
  const square = TICKS_PER[job.instance.unit] ** 2;
  const sum = { film: 0, filmPrice: 0, laminatePrice: 0, ink: 0, needed: 0, openings: 0, outside: 0 };
  for (const { width, used, film: id } of layout.rolls) {
    const film = job.films.get(id);
    sum.film += width * used;
    sum.filmPrice += width * used * (film?.pricePerArea ?? 0);
    sum.laminatePrice += width * used * (film?.laminatePricePerArea ?? 0);
  }
  let elevationsNeeded = 0;
  for (const { elevation, neededArea } of job.elevations.values()) elevationsNeeded += neededArea * elevation.count;
  for (const panel of layout.panels) addPanel(view, panel, sum);
  let looseArea = 0;
  for (const { outline, count, film } of job.instance.pieces) {
    const area = polygonArea(outline) * count;
    looseArea += area;
    sum.ink += area * (job.films.get(film)?.inkPricePerArea ?? 0);
  }
  return {
    neededArea: (elevationsNeeded + looseArea) / square,
    filmArea: sum.film / square,
    windowsOverNeeded: sum.needed / square,
    windowsOverOpenings: sum.openings / square,
    windowsOutside: sum.outside / square,
    neededOfElevations: elevationsNeeded / square,
    film: sum.filmPrice / square,
    laminate: sum.laminatePrice / square,
    ink: sum.ink / square,
    penalties: view.elevations.reduce((count, one) => count + penaltiesOf(one) * one.job.elevation.count, 0),
    ...visibleSeams(view.elevations),
    weighedSeams: seamsAreWeighed(job.instance) ? weighedSeams(view) : null,
  };
}

function addPanel(
  { job }: LayoutView,
  panel: Panel,
  sum: { ink: number; needed: number; openings: number; outside: number },
): void {
  const own = job.elevations.get(panel.elevation);
  if (own === undefined) return;
  const { window } = panel;
  const { count } = own.elevation;
  const whole = (window.x1 - window.x0) * (window.y1 - window.y0);
  const inOutline = areaIn(own.outline, window);
  const needed = areaIn(own.needed, window);
  sum.ink += whole * count * (job.films.get(panel.film)?.inkPricePerArea ?? 0);
  sum.needed += needed * count;
  sum.openings += (inOutline - needed) * count;
  sum.outside += (whole - inOutline) * count;
}

function penaltiesOf(view: ElevationView): number {
  const avoid = zonesOf(view).filter(({ rule }) => rule === "avoid");
  if (avoid.length === 0) return 0;
  return coversOf(view).reduce((count, cover) => count + avoid.filter((zone) => meets(cover, zone)).length, 0);
}

/** Every seam that can be seen and what its line is, with the elevation it lies on. */
function seamsInSight(
  elevations: readonly ElevationView[],
): { readonly view: ElevationView; readonly seam: Seam; readonly facts: LineFacts }[] {
  return elevations.flatMap((view) =>
    [...view.seams, ...view.borderSeams.map(({ seam, border }) => ({ seam, facts: border?.facts ?? null }))].flatMap(
      ({ seam, facts }) => (seam.kind === "break" || facts === null ? [] : [{ view, seam, facts }]),
    ),
  );
}

function visibleSeams(elevations: readonly ElevationView[]): {
  visibleSeamLength: number;
  visibleSeamAllowance: number;
} {
  let [visibleSeamLength, visibleSeamAllowance] = [0, 0];
  for (const { view, facts } of seamsInSight(elevations)) {
    visibleSeamLength += facts.needed * view.job.elevation.count;
    visibleSeamAllowance += facts.slopedEnds * view.job.elevation.count;
  }
  return { visibleSeamLength, visibleSeamAllowance };
}

function weighedSeams({ job, elevations }: LayoutView): Weighed {
  let [length, allowance] = [0, 0];
  for (const { view, seam, facts } of seamsInSight(elevations)) {
    const { elevation } = view.job;
    const one = weigh(job.instance, elevation, seam.axis, seam.at, facts);
    length += one.length * elevation.count;
    allowance += one.allowance * elevation.count;
  }
  return { length, allowance };
}
