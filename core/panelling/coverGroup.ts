import type { Covering, PanellingLimits } from "../model/covering.ts";
import type { Elevation, Instance } from "../model/instance.ts";
import type { Problem } from "../model/problem.ts";
import type { Run } from "../model/run.ts";
import { nonDominated } from "./combineSections.ts";
import { Group, type KnownSplits, knownSplits } from "./group.ts";
import { selectCoverings } from "./selectCoverings.ts";

/**
 * The ways to cover an elevation and all that mirror it that matter.
 *
 * @param source an elevation that repeats none
 * @param mirrors all that repeat it, directly or through one another, in any order
 * @param limits widest and longest panel by film, ticks; the direction asked of sections that leave it open
 * @param known what earlier calls for the same group worked out, added to by this one; it saves time and changes nothing
 * @returns the non-dominated coverings by film area, cost, visible seams and penalties, cheapest first and at most 24;
 *   or, when there is none, the reasons, at least one. Nothing to cover gives one covering without panels.
 *
 * Each section is split exactly over its seam candidates (`seamCandidates`, `splitSection`); combinations of sections are
 * exact up to the numbers kept in `combineSections`, uses of fills up to those tried in `fillWays`. Holds of any member are
 * kept by all. Stops early, with what it has, when `run.stop()` says so. Same input, same output.
 */
export function coverGroup(
  instance: Instance,
  source: Elevation,
  mirrors: readonly Elevation[],
  limits: PanellingLimits,
  run: Run,
  known: KnownSplits = knownSplits(),
): { coverings: readonly Covering[] } | { reasons: readonly Problem[] } {
  const group = new Group(instance, source, mirrors, limits, known);
  const covered = group.coverAll(run);
  if (covered.length > 0) {
    const kept = selectCoverings(nonDominated(covered, instance.rules.avoidPenalty));
    return { coverings: kept.map((each) => group.record(each)) };
  }
  return { reasons: group.reasons(run) };
}
