import type { Axis } from "../../geometry/box.ts";
import type { Elevation } from "../../model/instance.ts";
import { type Layout, seamCount } from "../../model/plan.ts";
import { breachOf, type PlanCheck } from "../check.ts";
import { rangeOn } from "../ranges.ts";
import { sectionsGoneBy } from "../sections.ts";
import { EQUAL_COST, SHARE } from "../tolerance.ts";
import { trimmed } from "../words.ts";

const breach = breachOf("boundsAcrossLayouts");

/**
 * A bound holds for every plan in the layout's sections, given or found, with its roll width and nesting (free includes
 * crosscut) and at most as many seams: so for every such layout of the same file (section 5).
 */
export const boundsAcrossLayouts: PlanCheck = ({ instance }, plan) =>
  plan.layouts.flatMap((layout) =>
    plan.layouts
      .filter(
        (other) =>
          other !== layout &&
          other.rollWidth === layout.rollWidth &&
          (other.nesting === layout.nesting || (layout.nesting === "free" && other.nesting === "crosscut")) &&
          seamCount(other.totals) <= seamCount(layout.totals) &&
          instance.elevations.every((elevation) => isInSectionsOf(elevation, other, layout)),
      )
      .flatMap(({ id, totals }) => [
        ...(layout.bound.cost > totals.cost.total + EQUAL_COST
          ? [
              breach(
                [layout.id, id],
                `its bound of ${trimmed(layout.bound.cost)} is above the cost of ${id}, ${trimmed(totals.cost.total)}`,
              ),
            ]
          : []),
        ...(layout.bound.filmArea > totals.filmArea * (1 + SHARE)
          ? [
              breach(
                [layout.id, id],
                `its bound of ${trimmed(layout.bound.filmArea)} is above the film of ${id}, ${trimmed(totals.filmArea)}`,
              ),
            ]
          : []),
      ]),
  );

/** Whether a layout covers an elevation in the very boxes of another one, each in a direction that this one allows. */
function isInSectionsOf(elevation: Elevation, layout: Layout, other: Layout): boolean {
  const [own, due] = [sectionsGoneBy(elevation, layout), sectionsGoneBy(elevation, other)];
  if (own.length !== due.length) return false;
  return due.every(({ box, direction }) => {
    const same = own.find((section) =>
      (["x", "y"] as const).every((axis: Axis) => {
        const [a, b] = [rangeOn(axis, section.box), rangeOn(axis, box)];
        return a.from === b.from && a.to === b.to;
      }),
    );
    if (same === undefined) return false;
    return layout.panels.every(
      (panel) =>
        panel.elevation !== elevation.id ||
        panel.section !== same.id ||
        direction === "either" ||
        panel.direction === direction,
    );
  });
}
