import type { Film, Instance } from "../model/instance.ts";
import type { Load, Panel } from "../model/plan.ts";
import { printableWidth } from "../model/printableWidth.ts";
import { type Run, seededRandom } from "../model/run.ts";
import { lotGroups, wholeBatch } from "./batches.ts";
import type { Draft, DraftLoad } from "./draft.ts";
import { finishedLoads } from "./finishedLoads.ts";
import { type FreeEffort, freeLoads } from "./freeLoads.ts";
import { turnedOver } from "./heads.ts";
import { compareRanks, type Item } from "./neighbours.ts";
import { looseStacks, panelStacks, type Stack } from "./stacks.ts";
import { stockInstead } from "./stockInstead.ts";
import { lotOf, type Supply, supplyOf } from "./supply.ts";
import { layingWarnings } from "./warnings.ts";

/**
 * Lays anew, anywhere within the printable width, what lies in cuts across.
 *
 * @param panels of all elevations, each once
 * @param crosscut how `layOnRolls` laid them and the loose pieces; it keeps all rules, so it is a free nesting too
 * @param run `work` limits the fillings of one nesting; its random numbers seed them all
 * @returns loads of the same form, numbered anew; of each film no more area than before
 *
 * A piece stays on its width and its lot, so what was kept there still is. Of each pool of loads between which pieces may
 * change, the loads are laid again one by one, and all together on the rolls that they took; the least film is kept, the
 * nesting in cuts where neither saves any. A load is cut wherever a straight line across passes between pieces. Boxes
 * count, not outlines. Time: see `freeLoads`; pieces, not cut patterns, are laid, 10,000 in about a second.
 */
export function layFree(
  instance: Instance,
  panels: readonly Panel[],
  crosscut: readonly Load[],
  run: Run,
): { rolls: readonly Load[]; warnings: readonly string[] } {
  const seed = Math.floor(run.random() * 2 ** 31);
  const effort = (): FreeEffort => ({ random: seededRandom(seed), stop: run.stop, work: run.work });
  const drafts = instance.films.map((film) => {
    const own = panels.filter((panel) => panel.film === film.id);
    const groups = lotGroups(instance, own);
    const stacks = [...panelStacks(instance, groups, wholeBatch(groups)), ...looseStacks(instance, film)];
    const loads = crosscut.filter((load) => load.film === film.id);
    const lotsBind = groups.some(({ bound }) => bound);
    const draft = laidFree(instance, draftOf(instance, film, loads, stacks), stacks, lotsBind, effort);
    return { film, draft: stockInstead(draft, groups) };
  });
  const rolls = finishedLoads(instance, drafts);
  return { rolls, warnings: layingWarnings(instance, panels, rolls) };
}

function laidFree(
  instance: Instance,
  draft: Draft,
  stacks: readonly Stack[],
  lotsBind: boolean,
  effort: () => FreeEffort,
): Draft {
  const pools = new Map<string, DraftLoad[]>();
  for (const load of draft.loads) {
    // Where one lot is asked for, panels keep to theirs, and what lies beside them does too.
    const key = lotsBind ? `${load.width} ${lotOf(load.stock)}` : `${load.width}`;
    pools.set(key, [...(pools.get(key) ?? []), load]);
  }
  const stackOf = new Map(stacks.flatMap(({ items }, stack) => items.map((item) => [item, stack] as const)));
  let { supply } = draft;
  const loads = [...pools.values()].flatMap((pool) => {
    const again = (some: readonly DraftLoad[]) =>
      leastOf(some, laidAgain(instance, supply, some, stacks, stackOf, effort()));
    const oneByOne = pool.flatMap((load) => again([load]));
    const better = pool.length > 1 ? leastOf(oneByOne, again(pool)) : oneByOne;
    supply = taken(givenBack(supply, pool), better);
    return better;
  });
  return { loads, supply };
}

function laidAgain(
  instance: Instance,
  supply: Supply,
  loads: readonly DraftLoad[],
  stacks: readonly Stack[],
  stackOf: ReadonlyMap<Item, number>,
  effort: FreeEffort,
): DraftLoad[] | null {
  const { width } = loads[0] as DraftLoad;
  const room = { width: printableWidth(supply.film, width), gap: instance.rules.cutGap };
  const items = new Map<number, Item[]>();
  for (const { item } of loads.flatMap(({ cuts }) => cuts.flatMap(({ pieces }) => pieces))) {
    const stack = stackOf.get(item) as number;
    const known = items.get(stack);
    if (known === undefined) items.set(stack, [item]);
    else known.push(item);
  }
  const lying = [...items]
    .sort(([a], [b]) => a - b)
    .map(([stack, own]): Stack => {
      const sorted = own.sort((a, b) => compareRanks(a.rank, b.rank));
      return { shapes: (stacks[stack] as Stack).shapes, items: sorted };
    });
  return freeLoads(instance, { room, width, stacks: lying, loads, supply: givenBack(supply, loads) }, effort);
}

/** Loads of one width: those that are there, unless others take less length. */
function leastOf(there: readonly DraftLoad[], others: readonly DraftLoad[] | null): readonly DraftLoad[] {
  const length = (loads: readonly DraftLoad[]): number => loads.reduce((sum, { used }) => sum + used, 0);
  return others !== null && length(others) < length(there) ? others : there;
}

const givenBack = (supply: Supply, loads: readonly DraftLoad[]): Supply => changed(supply, loads, 1);
const taken = (supply: Supply, loads: readonly DraftLoad[]): Supply => changed(supply, loads, -1);

function changed({ film, stock, newRolls }: Supply, loads: readonly DraftLoad[], sign: 1 | -1): Supply {
  const own = (entry: Supply["stock"][number]["entry"]): number =>
    loads.reduce((sum, load) => sum + (load.stock === entry ? load.used : 0), 0);
  return {
    film,
    stock: stock.map(({ entry, left }) => ({ entry, left: left + sign * own(entry) })),
    newRolls: newRolls + sign * loads.filter((load) => load.stock === null).length,
  };
}

/** Loads of one film as a draft, with the very items of the stacks. */
function draftOf(instance: Instance, film: Film, loads: readonly Load[], stacks: readonly Stack[]): Draft {
  const items = new Map(stacks.flatMap((stack) => stack.items.map((item) => [keyOf(item), { item, stack }] as const)));
  const entries = new Map(instance.stock.map((entry) => [entry.id, entry]));
  const drafts = loads.map((load): DraftLoad => {
    const cuts = load.cuts.map(({ length, pieces }, pattern) => {
      const lying = pieces.map(({ id, copy, x, y, turn }) => {
        const { item, stack } = found(items, `${id} ${copy}`);
        const upright = item.headToFoot ? turnedOver(turn) : turn;
        const shape = stack.shapes.find((one) => one.turn === upright);
        if (shape === undefined) throw new Error(`${id} ${copy} is turned by ${turn}`);
        return { item, shape, x: x - film.edgeMargin, y };
      });
      const first = lying.reduce((a, b) => (compareRanks(b.item.rank, a.item.rank) < 0 ? b : a));
      return { length, pieces: lying, pattern, rank: first.item.rank };
    });
    const stock = load.stock === null ? null : found(entries, load.stock);
    return { stock, width: load.width, used: load.used, cuts };
  });
  return { loads: drafts, supply: taken(supplyOf(instance, film), drafts) };
}

const keyOf = ({ id, copy }: Item): string => `${id} ${copy}`;

function found<T>(known: ReadonlyMap<string, T>, key: string): T {
  const value = known.get(key);
  if (value === undefined) throw new Error(`${key} is not part of the job`);
  return value;
}
