import { seamCount } from "../../model/plan.ts";
import { breachOf, type PlanCheck } from "../check.ts";
import { EQUAL_COST, SHARE } from "../tolerance.ts";
import { trimmed } from "../words.ts";

const breach = breachOf("boundsAcrossLayouts");

/**
 * A bound holds for every plan with the layout's roll width and nesting (free includes crosscut) and at most as many
 * seams: so for every such layout of the same file (section 5).
 */
export const boundsAcrossLayouts: PlanCheck = (_, plan) =>
  plan.layouts.flatMap((layout) =>
    plan.layouts
      .filter(
        (other) =>
          other !== layout &&
          other.rollWidth === layout.rollWidth &&
          (other.nesting === layout.nesting || (layout.nesting === "free" && other.nesting === "crosscut")) &&
          seamCount(other.totals) <= seamCount(layout.totals),
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
