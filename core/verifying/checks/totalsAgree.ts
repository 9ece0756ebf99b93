import type { SeamKind } from "../../model/plan.ts";
import type { Violation } from "../../model/violation.ts";
import { breachOf, type LayoutCheck } from "../check.ts";
import { measure } from "../measure.ts";
import { agree, SLOPE_TICKS } from "../tolerance.ts";
import { trimmed } from "../words.ts";

const breach = breachOf("totalsAgree");

/** Lengths, areas and counts of a layout are what its loads, panels and seams come to, all copies (section 5). */
export const totalsAgree: LayoutCheck = (view) => {
  const { job, layout } = view;
  const { totals } = layout;
  const found: Violation[] = [];
  const say = (name: string, stated: string, due: string): void => {
    found.push(breach([layout.id, name], `it is stated as ${stated} and comes to ${due}`));
  };
  const measured = measure(view);
  const copies = (elevation: string): number => job.elevations.get(elevation)?.elevation.count ?? 0;
  const seams = (kind: SeamKind): number =>
    layout.seams.filter((seam) => seam.kind === kind).reduce((sum, seam) => sum + copies(seam.elevation), 0);

  const filmLength = layout.rolls.reduce((sum, { used }) => sum + used, 0);
  if (totals.filmLength !== filmLength)
    say("filmLength", job.words.length(totals.filmLength), job.words.length(filmLength));
  const visible = measured.visibleSeamLength;
  if (Math.abs(totals.visibleSeamLength - visible) > 1e-3 + SLOPE_TICKS * measured.visibleSeamAllowance) {
    say("visibleSeamLength", job.words.length(totals.visibleSeamLength), job.words.length(visible));
  }
  const { weighedSeams } = measured;
  const stated = totals.weightedSeamLength;
  if (weighedSeams === null && stated !== undefined) {
    found.push(breach([layout.id, "weightedSeamLength"], "it is stated, and every stretch of a seam counts once"));
  }
  if (weighedSeams !== null && stated === undefined) {
    found.push(breach([layout.id, "weightedSeamLength"], "seams count unequally in this job, and it is not stated"));
  }
  if (weighedSeams !== null && stated !== undefined) {
    const off = Math.abs(stated - weighedSeams.length);
    if (off > 1e-3 + weighedSeams.allowance) {
      say("weightedSeamLength", job.words.length(stated), job.words.length(weighedSeams.length));
    }
  }
  const counts: readonly (readonly [string, number, number])[] = [
    ["panelCount", totals.panelCount, layout.panels.reduce((sum, panel) => sum + copies(panel.elevation), 0)],
    ["openSeams", totals.openSeams, seams("open")],
    ["bodyLineSeams", totals.bodyLineSeams, seams("bodyLine")],
    ["colourEdgeSeams", totals.colourEdgeSeams, seams("colourEdge")],
    ["breakSeams", totals.breakSeams, seams("break")],
  ];
  for (const [name, told, due] of counts) if (told !== due) say(name, String(told), String(due));
  const waste = measured.filmArea === 0 ? 0 : 100 * (1 - measured.neededArea / measured.filmArea);
  const areas: readonly (readonly [string, number, number])[] = [
    ["filmArea", totals.filmArea, measured.filmArea],
    ["neededArea", totals.neededArea, measured.neededArea],
    ["wastePercent", totals.wastePercent, waste],
  ];
  for (const [name, told, due] of areas) if (!agree(told, due)) say(name, trimmed(told), trimmed(due));
  return found;
};
