import type { Instance } from "../model/instance.ts";
import type { Load, Panel } from "../model/plan.ts";
import { lotGroups } from "./batches.ts";
import { listed } from "./words.ts";

/**
 * What the shop should know of a laying that keeps all rules: copies that span several new rolls, whose lots nobody knows
 * yet, and elevations that mix directions on film that must lie one way.
 */
export function layingWarnings(instance: Instance, panels: readonly Panel[], rolls: readonly Load[]): string[] {
  return [...mixedDirections(instance, panels), ...spanningCopies(instance, panels, rolls)];
}

function mixedDirections({ elevations, films }: Instance, panels: readonly Panel[]): string[] {
  return elevations.flatMap(({ id }) =>
    films
      .filter(({ lay }) => lay === "one-way")
      .filter((film) => {
        const own = panels.filter((panel) => panel.elevation === id && panel.film === film.id);
        return new Set(own.map(({ direction }) => direction)).size > 1;
      })
      .map(
        (film) =>
          `${id} mixes upright and lengthwise panels on one-way film ${film.id}: its grain or sheen will not match at the borders`,
      ),
  );
}

function spanningCopies(instance: Instance, panels: readonly Panel[], rolls: readonly Load[]): string[] {
  return instance.films.flatMap((film) => {
    const bought = rolls.filter((load) => load.film === film.id && load.stock === null);
    if (bought.length < 2) return [];
    const groups = lotGroups(
      instance,
      panels.filter((panel) => panel.film === film.id),
    ).filter(({ bound }) => bound);
    const groupOf = new Map(groups.flatMap((group, i) => group.panels.map((panel) => [panel.id, i] as const)));
    const firstLoad = new Map<string, string>();
    const spanning = groups.map(() => new Set<number>());
    for (const load of bought) {
      for (const { id, copy } of load.cuts.flatMap(({ pieces }) => pieces)) {
        const group = groupOf.get(id);
        if (group === undefined) continue;
        const key = `${group} ${copy}`;
        const first = firstLoad.get(key) ?? load.id;
        firstLoad.set(key, first);
        if (first !== load.id) spanning[group]?.add(copy);
      }
    }
    return groups.flatMap(({ name }, i) => {
      const copies = [...(spanning[i] ?? [])].sort((a, b) => a - b);
      if (copies.length === 0) return [];
      const which =
        copies.length === 1 ? `Copy ${copies[0]} of ${name} spans` : `Copies ${listed(copies)} of ${name} span`;
      return [`${which} several new rolls of film ${film.id}: order them from one lot`];
    });
  });
}
