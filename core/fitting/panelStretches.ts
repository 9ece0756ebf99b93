import type { Interval } from "../geometry/box.ts";
import type { Panel, Seam } from "../model/plan.ts";
import type { Ticks } from "../units/ticks.ts";
import { rangeOn } from "./ranges.ts";
import type { SectionInUse } from "./sectionsInUse.ts";

/** A panel with the places at which the section is split on both sides of it: seams, sides of a bare gap, the ends. */
export interface PanelStretch {
  readonly panel: Panel;
  readonly from: Ticks;
  readonly to: Ticks;
  /** The seam at `from` and the one at `to`; null where there is none. */
  readonly seamBefore: Seam | null;
  readonly seamAfter: Seam | null;
}

/**
 * Where each panel of a section begins and ends by the section's split.
 *
 * @param parts ranges of the split axis in which film is needed, in order, at least one
 * @returns in the order of the section's panels. Two neighbours without a seam between them end at the two sides of a bare
 *   gap: the first that the one reaches and the other begins at.
 */
export function panelStretches(
  { axis, panels }: SectionInUse,
  seams: readonly Seam[],
  parts: readonly Interval[],
): PanelStretch[] {
  const seamBetween = (a: Panel, b: Panel): Seam | null =>
    seams.find(({ border, between }) => !border && between.includes(a.id) && between.includes(b.id)) ?? null;
  let [from, seamBefore]: [Ticks, Seam | null] = [parts[0]?.from ?? -Infinity, null];
  return panels.map((panel, i) => {
    const next = panels[i + 1];
    const seam = next === undefined ? null : seamBetween(panel, next);
    const gap = next === undefined || seam !== null ? null : gapBetween(panel, next, axis, parts);
    const to = seam?.at ?? gap?.from ?? parts.at(-1)?.to ?? Infinity;
    const stretch = { panel, from, to, seamBefore, seamAfter: seam };
    [from, seamBefore] = [gap?.to ?? to, seam];
    return stretch;
  });
}

/** The bare gap between two neighbouring panels of a section. */
function gapBetween(low: Panel, high: Panel, axis: SectionInUse["axis"], parts: readonly Interval[]): Interval | null {
  const [reached, begun] = [rangeOn(axis, low.window).to, rangeOn(axis, high.window).from];
  for (const [i, part] of parts.entries()) {
    const next = parts[i + 1];
    if (next !== undefined && part.to <= reached && begun <= next.from) return { from: part.to, to: next.from };
  }
  return null;
}
