import fc from "fast-check";
import { expect, test } from "vitest";
import { mirrorGroups } from "../../../core/choosing/mirrorGroups.ts";
import { panellingLimits, widthChoices } from "../../../core/choosing/rollWidths.ts";
import { measureLayout } from "../../../core/costing/measureLayout.ts";
import { neededRegion } from "../../../core/geometry/region.ts";
import type { Covering } from "../../../core/model/covering.ts";
import type { Elevation, Instance } from "../../../core/model/instance.ts";
import { coverGroup } from "../../../core/panelling/coverGroup.ts";
import { relaxGroup } from "../../../core/panelling/relaxGroup.ts";
import { instanceOf } from "../../support/planJob.ts";
import { randomSeamJob } from "../../support/randomJob.ts";
import { quietRun } from "./builders.ts";
import { breaches } from "./randomGroups.ts";

const regionsOf = (elevations: readonly Elevation[]) =>
  new Map(
    elevations.map(({ id, outline, openings }) => [
      id,
      neededRegion(
        outline,
        openings.map((opening) => opening.outline),
      ),
    ]),
  );

/** What the seams of a covering count as: each looked up in its own elevation's frame, where panelling knows one for all. */
function countedLength(instance: Instance, { panels, seams }: Covering): number {
  const regions = regionsOf(instance.elevations);
  const { totals } = measureLayout(instance, regions, { panels, seams, rolls: [], penalties: 0 });
  return totals.weightedSeamLength ?? totals.visibleSeamLength;
}

test("coverings of random jobs keep the rules of seams, count them rightly, and none undercuts its bound", () => {
  let [covered, weighted, sloped, butted] = [0, 0, 0, 0];
  fc.assert(
    fc.property(randomSeamJob, (job) => {
      const whole = instanceOf(job);
      const choice = widthChoices(whole).find(({ rollWidth }) => rollWidth !== null);
      if (choice === undefined) return;
      const limits = panellingLimits(whole, choice, null);
      for (const { source, mirrors } of mirrorGroups(whole.elevations)) {
        const group = [source, ...mirrors];
        const instance: Instance = { ...whole, elevations: group };
        const answer = coverGroup(instance, source, mirrors, limits, quietRun);
        if ("reasons" in answer) continue;
        const relaxed = relaxGroup(instance, source, mirrors, limits);
        for (const covering of answer.coverings) {
          covered++;
          expect(breaches(instance, [covering])).toEqual([]);
          const copies = group.reduce((sum, { count }) => sum + count, 0);
          // Plain lengths are read off between corners: beside slopes each may be a tick off, at either end.
          const off = 2 * copies * covering.seams.length;
          const { visibleLength } = covering.measures;
          const counted = countedLength(instance, covering);
          expect(Math.abs(visibleLength - counted)).toBeLessThanOrEqual(off);
          if (counted !== countedLength({ ...instance, rules: { ...instance.rules, heightZones: [] } }, covering))
            weighted++;
          if (
            covering.seams.some(
              ({ kind, overlap, finishedOverlap }) => kind === "colourEdge" && overlap > 4 * finishedOverlap,
            )
          )
            sloped++;
          if (covering.seams.some(({ overlap }) => overlap === 0)) butted++;
          if (relaxed === null) continue;
          // At a price for visible length alone no way is said to show more than this covering does.
          const least = relaxed.ways.map(({ fixed, sections }) =>
            sections.reduce((sum, section) => {
              const prices = {
                byWidth: new Float64Array(2),
                quantum: 1,
                gap: 0,
                area: 0,
                panel: 0,
                visible: 0,
                visibleLength: 1,
                penalty: 0,
              };
              return sum + Math.min(Infinity, ...section.cheapest(prices).map(({ value }) => value));
            }, fixed.visibleLength),
          );
          expect(Math.min(...least)).toBeLessThanOrEqual(visibleLength);
        }
      }
    }),
    { seed: 20261127, numRuns: 60 },
  );
  // The cases are worth something only if many of them hold what is new.
  expect([covered > 100, weighted > 20, sloped > 5, butted > 20]).toEqual([true, true, true, true]);
}, 300_000);
