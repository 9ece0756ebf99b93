import type { Instance, StockEntry } from "../model/instance.ts";
import type { LotGroup } from "./batches.ts";
import type { Draft, DraftLoad } from "./draft.ts";
import { afterLoad, lotOf, type Supply } from "./supply.ts";

/**
 * Takes loads from stock that were meant for new rolls, where a stock entry of the same width carries the very load: a
 * nesting made longer by search may have turned out to fit after all.
 *
 * @param groups panels that must come from one lot, copy by copy
 * @returns the draft with such loads moved, least sufficient entry first; film area unchanged
 *
 * A load stays where moving it would tear a copy of a group between lots. Time O(loads squared x copies on a load + pieces).
 */
export function stockInstead(instance: Instance, draft: Draft, groups: readonly LotGroup[]): Draft {
  if (draft.supply.stock.length === 0) return draft;
  const bound = instance.rules.oneLot === "none" ? [] : groups;
  const held = draft.loads.map((load) => copiesOn(load, bound));
  const loads = [...draft.loads];
  let supply = draft.supply;
  for (const [index, load] of loads.entries()) {
    if (load.stock !== null) continue;
    const lots = lotsShared(loads, held, index);
    const entry = leastEntry(supply, load, (lot) => lots.every((other) => other === lot));
    if (entry === null) continue;
    loads[index] = { ...load, stock: entry };
    supply = { ...afterLoad(supply, entry, load.used), newRolls: supply.newRolls + 1 };
  }
  return { loads, supply };
}

/** Lots of the other loads that hold a part of a copy that this load holds a part of. */
function lotsShared(loads: readonly DraftLoad[], held: readonly ReadonlySet<string>[], index: number): string[] {
  const own = [...(held[index] as ReadonlySet<string>)];
  return loads.flatMap(({ stock }, other) =>
    other !== index && own.some((copy) => held[other]?.has(copy)) ? [lotOf(stock)] : [],
  );
}

function leastEntry(supply: Supply, { width, used }: DraftLoad, lotSuits: (lot: string) => boolean): StockEntry | null {
  const able = supply.stock.filter(
    ({ entry, left }) => entry.width === width && left >= used && lotSuits(lotOf(entry)),
  );
  const least = able.reduce<(typeof able)[number] | null>((a, b) => (a === null || b.left < a.left ? b : a), null);
  return least?.entry ?? null;
}

/** Which copies of which groups have panels on a load. */
function copiesOn({ cuts }: DraftLoad, groups: readonly LotGroup[]): Set<string> {
  const groupOf = new Map(groups.flatMap(({ panels }, group) => panels.map(({ id }) => [id, group] as const)));
  const copies = new Set<string>();
  for (const { pieces } of cuts) {
    for (const { item } of pieces) {
      const group = groupOf.get(item.id);
      if (group !== undefined) copies.add(`${group} ${item.copy}`);
    }
  }
  return copies;
}
