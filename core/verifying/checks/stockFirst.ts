import type { Load } from "../../model/plan.ts";
import type { Violation } from "../../model/violation.ts";
import { breachOf, type LayoutCheck } from "../check.ts";
import { type CopyGroup, copyGroups, lotOf } from "../lots.ts";

const breach = breachOf("stockFirst");

/**
 * No new roll where a stock entry could carry the same load at the same cost: same film and width, enough left, and no
 * copy torn between lots by it (rule 22).
 */
export const stockFirst: LayoutCheck = (view) => {
  const { job, layout } = view;
  const left = new Map(job.instance.stock.map(({ id, length }) => [id, length]));
  for (const { stock, used } of layout.rolls) {
    if (stock !== null) left.set(stock, (left.get(stock) ?? 0) - used);
  }
  const bought = layout.rolls.filter(({ stock }) => stock === null);
  const able = (load: Load) =>
    job.instance.stock.filter(
      ({ id, film, width }) => film === load.film && width === load.width && (left.get(id) as number) >= load.used,
    );
  if (bought.every((load) => able(load).length === 0)) return [];
  const groups = groupsByLoad(copyGroups(view));
  return bought.flatMap((load): Violation[] => {
    const others = new Set(
      (groups.get(load) ?? []).flatMap(({ loads }) => [...loads]).filter((other) => other !== load),
    );
    const lots = new Set([...others].map((other) => lotOf(other, job)));
    const entry = able(load).find(({ id }) => [...lots].every((lot) => lot === lotOf({ ...load, stock: id }, job)));
    if (entry === undefined) return [];
    return [breach([load.id, entry.id], `a new roll is used where ${entry.id} from stock would do`)];
  });
};

function groupsByLoad(groups: readonly CopyGroup[]): Map<Load, CopyGroup[]> {
  const byLoad = new Map<Load, CopyGroup[]>();
  for (const group of groups) {
    for (const load of group.loads) {
      const known = byLoad.get(load);
      if (known === undefined) byLoad.set(load, [group]);
      else known.push(group);
    }
  }
  return byLoad;
}
