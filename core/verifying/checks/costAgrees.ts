import { ticksTo } from "../../units/ticks.ts";
import { breachOf, type LayoutCheck } from "../check.ts";
import { measure } from "../measure.ts";
import { agree } from "../tolerance.ts";
import { trimmed } from "../words.ts";

const breach = breachOf("costAgrees");

/** Every line of the cost is what its share of the job comes to, and the total is their sum (section 5). */
export const costAgrees: LayoutCheck = (view) => {
  const { instance } = view.job;
  const { layout } = view;
  const { cost, visibleSeamLength, weightedSeamLength } = layout.totals;
  const measured = measure(view);
  // What is stated of lengths is held against the seams by the check of the totals.
  const seamLength =
    measured.weighedSeams === null ? visibleSeamLength : (weightedSeamLength ?? measured.weighedSeams.length);
  const panels = layout.panels.reduce(
    (sum, { elevation }) => sum + (view.job.elevations.get(elevation)?.elevation.count ?? 0),
    0,
  );
  const lines: readonly (readonly [string, number, number])[] = [
    ["film", cost.film, measured.film],
    ["laminate", cost.laminate, measured.laminate],
    ["ink", cost.ink, measured.ink],
    [
      "seams",
      cost.seams,
      instance.rules.seamPricePerLength * ticksTo(seamLength, instance.unit) +
        instance.rules.avoidPenalty * measured.penalties,
    ],
    ["panels", cost.panels, instance.rules.panelPrice * panels],
    ["total", cost.total, cost.film + cost.laminate + cost.ink + cost.seams + cost.panels],
  ];
  return lines
    .filter(([, stated, due]) => !agree(stated, due))
    .map(([name, stated, due]) =>
      breach([layout.id, name], `its cost is stated as ${trimmed(stated)} and comes to ${trimmed(due)}`),
    );
};
