import type { Covering } from "../model/covering.ts";

/**
 * The covering of a group together with those of the elevations that follow it, as one: panels, seams and sums of all.
 *
 * @param followers coverings made for this very one, none twice
 */
export function joinCoverings(leader: Covering, followers: readonly Covering[]): Covering {
  if (followers.length === 0) return leader;
  const all = [leader, ...followers];
  const sum = (of: (covering: Covering) => number) => all.reduce((total, covering) => total + of(covering), 0);
  const sections = all.flatMap((covering) => covering.sections ?? []);
  return {
    source: leader.source,
    panels: all.flatMap(({ panels }) => panels),
    seams: all.flatMap(({ seams }) => seams),
    measures: {
      windowArea: sum(({ measures }) => measures.windowArea),
      aloneArea: sum(({ measures }) => measures.aloneArea),
      openSeamsPerCopy: Math.max(...all.map(({ measures }) => measures.openSeamsPerCopy)),
      visibleSeams: sum(({ measures }) => measures.visibleSeams),
      visibleLength: sum(({ measures }) => measures.visibleLength),
      penalties: sum(({ measures }) => measures.penalties),
      panels: sum(({ measures }) => measures.panels),
      costEstimate: sum(({ measures }) => measures.costEstimate),
    },
    ...(sections.length > 0 ? { sections } : {}),
  };
}
