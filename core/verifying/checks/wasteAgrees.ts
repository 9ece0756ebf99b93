import { TICKS_PER } from "../../units/ticks.ts";
import { breachOf, type LayoutCheck } from "../check.ts";
import { measure } from "../measure.ts";
import { agree } from "../tolerance.ts";
import { trimmed } from "../words.ts";

const breach = breachOf("wasteAgrees");

/** Every cause of waste has its share of the film, and together they are the whole waste (section 5). */
export const wasteAgrees: LayoutCheck = (view) => {
  const { job, layout } = view;
  const { leader, trailer } = job.instance.rules;
  const square = TICKS_PER[job.instance.unit] ** 2;
  const measured = measure(view);
  const share = (area: number): number => (measured.filmArea === 0 ? 0 : (100 * area) / measured.filmArea);
  let [edges, ends] = [0, 0];
  for (const load of layout.rolls) {
    edges += (2 * (job.films.get(load.film)?.edgeMargin ?? 0) * (load.used - leader - trailer)) / square;
    ends += (load.width * (leader + trailer)) / square;
  }
  const overlap = measured.windowsOverNeeded - measured.neededOfElevations;
  const causes = {
    edgeMargin: share(edges),
    leaderTrailer: share(ends),
    overlap: share(overlap),
    bleed: share(measured.windowsOutside),
    openings: share(measured.windowsOverOpenings),
  };
  const waste = share(measured.filmArea - measured.neededArea);
  const due = { ...causes, gapsAndVoids: waste - Object.values(causes).reduce((sum, part) => sum + part, 0) };
  return (Object.keys(due) as (keyof typeof due)[])
    .filter((cause) => !agree(layout.wasteBy[cause], due[cause]))
    .map((cause) =>
      breach(
        [layout.id, cause],
        `its share is stated as ${trimmed(layout.wasteBy[cause])} and comes to ${trimmed(due[cause])}`,
      ),
    );
};
