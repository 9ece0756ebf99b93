import type { StockEntry } from "../model/instance.ts";
import type { LotGroup } from "./batches.ts";
import type { Draft, DraftLoad } from "./draft.ts";
import { afterLoad, lotOf, type Supply } from "./supply.ts";

/**
 * Takes loads from stock that were meant for new rolls, where a stock entry of the same width carries the very load: a
 * nesting made longer by search may have turned out to fit after all.
 *
 * @param groups panels; of a bound group each copy must come from one lot
 * @returns the draft with such loads moved, least sufficient entry first; film area unchanged
 *
 * A load stays where moving it would tear a copy of a group between lots. Time O(loads x stock), and O(pieces + loads that
 * share a copy) where any load fits an entry.
 */
export function stockInstead(draft: Draft, groups: readonly LotGroup[]): Draft {
  const loads = [...draft.loads];
  let supply = draft.supply;
  let sharing: ((load: number) => ReadonlySet<number>) | null = null;
  for (const [index, load] of loads.entries()) {
    if (load.stock !== null || !ableEntries(supply, load).length) continue;
    sharing ??= sharingCopies(
      draft.loads,
      groups.filter(({ bound }) => bound),
    );
    const lots = new Set([...sharing(index)].map((other) => lotOf((loads[other] as DraftLoad).stock)));
    const entry = leastEntry(supply, load, (lot) => [...lots].every((other) => other === lot));
    if (entry === null) continue;
    loads[index] = { ...load, stock: entry };
    supply = { ...afterLoad(supply, entry, load.used), newRolls: supply.newRolls + 1 };
  }
  return { loads, supply };
}

const ableEntries = (supply: Supply, { width, used }: DraftLoad): Supply["stock"] =>
  supply.stock.filter(({ entry, left }) => entry.width === width && left >= used);

function leastEntry(supply: Supply, load: DraftLoad, lotSuits: (lot: string) => boolean): StockEntry | null {
  const able = ableEntries(supply, load).filter(({ entry }) => lotSuits(lotOf(entry)));
  const least = able.reduce<(typeof able)[number] | null>((a, b) => (a === null || b.left < a.left ? b : a), null);
  return least?.entry ?? null;
}

/** For a load by its place: the other loads that hold a part of a copy of a group that it holds a part of. */
function sharingCopies(
  loads: readonly DraftLoad[],
  groups: readonly LotGroup[],
): (load: number) => ReadonlySet<number> {
  const groupOf = new Map(groups.flatMap(({ panels }, group) => panels.map(({ id }) => [id, group] as const)));
  const holders = groups.map(() => new Map<number, Set<number>>());
  const copies = loads.map(({ cuts }, load) => {
    const held = new Set<ReadonlySet<number>>();
    for (const { item } of cuts.flatMap(({ pieces }) => pieces)) {
      const byCopy = holders[groupOf.get(item.id) ?? -1];
      if (byCopy === undefined) continue;
      const holding = byCopy.get(item.copy) ?? new Set();
      byCopy.set(item.copy, holding.add(load));
      held.add(holding);
    }
    return held;
  });
  return (load) => {
    const others = new Set([...(copies[load] as (typeof copies)[number])].flatMap((holding) => [...holding]));
    others.delete(load);
    return others;
  };
}
