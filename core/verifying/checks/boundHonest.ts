import type { Violation } from "../../model/violation.ts";
import { breachOf, type LayoutCheck } from "../check.ts";
import { agree, EQUAL_COST, SHARE } from "../tolerance.ts";
import { trimmed } from "../words.ts";

const breach = breachOf("boundHonest");

/** The bound is no higher than what the layout itself comes to; its gap is worked out right, and so is `proven`. */
export const boundHonest: LayoutCheck = ({ layout }) => {
  const { bound, totals } = layout;
  const { total } = totals.cost;
  const found: Violation[] = [];
  const at = [layout.id, "bound"];
  if (bound.cost > total + EQUAL_COST) {
    found.push(
      breach(at, `no plan is said to cost less than ${trimmed(bound.cost)}, and this one costs ${trimmed(total)}`),
    );
  }
  if (bound.filmArea > totals.filmArea * (1 + SHARE)) {
    found.push(
      breach(
        at,
        `no plan is said to use less film than ${trimmed(bound.filmArea)}; this one uses ${trimmed(totals.filmArea)}`,
      ),
    );
  }
  const gap = total === 0 ? 0 : (100 * (total - bound.cost)) / total;
  // A bound a rounding above the cost of a proven plan has no gap.
  if (!agree(bound.gapPercent, gap) && !(bound.gapPercent === 0 && total - bound.cost <= EQUAL_COST)) {
    found.push(breach(at, `its gap is stated as ${trimmed(bound.gapPercent)} percent and comes to ${trimmed(gap)}`));
  }
  const closed = gap < SHARE || bound.gapPercent < SHARE;
  if (bound.proven && !closed && total - bound.cost > EQUAL_COST) {
    found.push(breach(at, `it is called proven with a gap of ${trimmed(gap)} percent`));
  }
  if (!bound.proven && gap < SHARE && bound.gapPercent < SHARE) {
    found.push(breach(at, "it is called unproven without a gap"));
  }
  return found;
};
