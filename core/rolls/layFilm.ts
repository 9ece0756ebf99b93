import { printableWidth } from "../model/printableWidth.ts";
import { lengthBound } from "../nesting/lengthBound.ts";
import { type Effort, nestInCuts, totalLength } from "../nesting/nestInCuts.ts";
import type { Ticks } from "../units/ticks.ts";
import { type Batch, fillLots, type LotGroup, type LotShare, wholeBatch } from "./batches.ts";
import { type Bench, bestDraft, type Draft } from "./draft.ts";
import type { Allowed } from "./fillLoads.ts";
import { type DraftCut, handOut } from "./handOut.ts";
import { layLoose } from "./layLoose.ts";
import { packLoads } from "./packLoads.ts";
import { fitsAcross, panelSizes, panelStacks, type Stack, sizesOf } from "./stacks.ts";
import { lotOf, roomInLoad, type Supply } from "./supply.ts";

/** Orders of groups and lots that are tried when the plain ones leave copies over. */
const MOST_ORDERS = 200;

/** The lot of a share that nothing binds: any roll will do. */
const ANY_LOT = "any";

/**
 * Lays all panels of one film on rolls of one width, and its loose pieces with them or on other widths.
 *
 * @param groups panels that must come from one lot, copy by copy; every panel fits the width
 * @param loose stacks of loose pieces, those that fit no gap here may lie on any width
 * @returns the draft with least film of those tried, or null when no way was found
 *
 * Tried: the ways to share the groups out over the lots, times the loose pieces nested together with the panels or only
 * in the gaps that panels leave.
 */
export function layFilm(
  bench: Bench,
  supply: Supply,
  width: Ticks,
  groups: readonly LotGroup[],
  loose: readonly Stack[],
): Draft | null {
  const drafts: (Draft | null)[] = [];
  for (const shares of sharings(bench, supply, width, groups)) {
    const gapsOnly = laidIn(bench, supply, width, groups, shares, loose, false);
    drafts.push(gapsOnly);
    if (loose.length > 0) drafts.push(laidIn(bench, supply, width, groups, shares, loose, true));
  }
  return bestDraft(drafts);
}

/** Lays share after share; loose pieces fill gaps, and with `together` they are nested with the last share as equals. */
function laidIn(
  bench: Bench,
  supply: Supply,
  width: Ticks,
  groups: readonly LotGroup[],
  shares: readonly LotShare[],
  loose: readonly Stack[],
  together: boolean,
): Draft | null {
  const { instance } = bench;
  const room = { width: printableWidth(supply.film, width), gap: instance.rules.cutGap };
  const fitting = loose.filter((stack) => fitsAcross(stack, room.width));
  const tooWide = loose.filter((stack) => !fitsAcross(stack, room.width));
  let draft: Draft = { loads: [], supply };
  let rest: readonly Stack[] = fitting;
  for (const [index, { lot, batch }] of shares.entries()) {
    const panels = panelStacks(instance, groups, batch);
    const due = together && index === shares.length - 1;
    const laid =
      laidShare(bench, draft.supply, width, lot, panels, rest, due, bench.effort()) ??
      // A shorter nesting can leave cuts that fill the loads worse; the one made without search is known to fit.
      laidShare(bench, draft.supply, width, lot, panels, [], due, { ...bench.effort(), rounds: 0 });
    if (laid === null) return null;
    draft = { loads: [...draft.loads, ...laid.draft.loads], supply: laid.draft.supply };
    if (laid.rest !== null) rest = laid.rest;
  }
  return layLoose(bench, draft, [...rest, ...tooWide]);
}

/** The panels of one share in cuts, loose pieces among them, and the cuts in loads of its lot. */
function laidShare(
  { instance, chooseLoads }: Bench,
  supply: Supply,
  width: Ticks,
  lot: string,
  panels: readonly Stack[],
  loose: readonly Stack[],
  due: boolean,
  effort: Effort,
): { draft: Draft; rest: Stack[] | null } | null {
  const room = { width: printableWidth(supply.film, width), gap: instance.rules.cutGap };
  const sizes = [...sizesOf(panels, room.width, true), ...sizesOf(loose, room.width, due)];
  const { cuts, rest } = handOut(nestInCuts(sizes, room, effort), [...panels, ...loose]);
  const packed = packLoads(
    instance,
    supply,
    width,
    allowedFor(lot),
    cuts.map(({ length }) => length),
    chooseLoads,
  );
  if (packed === null) return null;
  const loads = packed.loads.map((load) => ({ ...load, cuts: load.cuts.map((cut) => cuts[cut] as DraftCut) }));
  const left = loose.length === 0 ? null : rest.slice(panels.length).filter(({ items }) => items.length > 0);
  return { draft: { loads, supply: packed.supply }, rest: left };
}

const allowedFor = (lot: string): Allowed =>
  lot === ANY_LOT
    ? { stock: () => true, bought: true }
    : { stock: (entry) => lotOf(entry) === lot, bought: lot === lotOf(null) };

/**
 * Distinct ways to share the groups out over the lots of this width. Where only some of them are bound, the others are
 * shared out as if they were, or lie after them wherever there is film.
 */
function sharings(bench: Bench, supply: Supply, width: Ticks, groups: readonly LotGroup[]): LotShare[][] {
  const free = { lot: ANY_LOT, batch: wholeBatch(groups.map((group) => (group.bound ? none(group) : group))) };
  if (!groups.some(({ bound }) => bound)) return [[free]];
  const together = sharedOut(bench, supply, width, groups);
  if (groups.every(({ bound }) => bound)) return together;
  const boundOnes = groups.map((group) => (group.bound ? group : none(group)));
  return [...together, ...sharedOut(bench, supply, width, boundOnes).map((shares) => [...shares, free])];
}

const none = (group: LotGroup): LotGroup => ({ ...group, copies: 0 });

/** Distinct ways to share all copies of the groups out over the lots of this width, every copy from one lot. */
function sharedOut(bench: Bench, supply: Supply, width: Ticks, groups: readonly LotGroup[]): LotShare[][] {
  const lots = lotsOf(bench, supply, width);
  const stock = lots.filter(({ lot }) => lot !== lotOf(null)).map(({ lot }) => lot);
  const bought = lots.filter(({ lot }) => lot === lotOf(null)).map(({ lot }) => lot);
  const fits = fitting(bench, supply, width, groups);
  const largest = groupsBySize(groups);
  const found = new Map<string, LotShare[]>();
  const tryOrder = (order: readonly string[], groupOrder: readonly number[]) => {
    const shares = fillLots(groups, order, groupOrder, fits);
    if (shares !== null) found.set(JSON.stringify(shares), shares);
  };
  for (const order of [[...stock, ...bought], [...stock].reverse().concat(bought), bought, [...bought, ...stock]]) {
    if (order.length > 0) tryOrder(order, largest);
  }
  for (const lot of stock) tryOrder([lot], largest);
  if (found.size === 0) {
    const { random, stop } = bench.effort();
    for (let i = 0; i < MOST_ORDERS && found.size === 0 && !stop(); i++) {
      tryOrder(shuffled([...stock, ...bought], random), shuffled(largest, random));
    }
  }
  return [...found.values()];
}

/** Lots to be had in this width, the most film first. */
export function lotsOf(
  { instance }: Bench,
  { film, stock, newRolls }: Supply,
  width: Ticks,
): { lot: string; length: Ticks }[] {
  const lots = new Map<string, Ticks>();
  for (const { entry, left } of stock) {
    if (entry.width !== width || roomInLoad(instance, film, left) <= 0) continue;
    lots.set(lotOf(entry), (lots.get(lotOf(entry)) ?? 0) + left);
  }
  if (newRolls > 0 && film.rollWidths.includes(width)) lots.set(lotOf(null), newRolls * (film.rollLength ?? Infinity));
  return [...lots]
    .map(([lot, length]) => ({ lot, length }))
    .sort((a, b) => (a.length === b.length ? 0 : b.length - a.length));
}

/** Whether a lot holds so many copies of each group, found by nesting and packing them once without search. */
function fitting(bench: Bench, supply: Supply, width: Ticks, groups: readonly LotGroup[]) {
  const { instance } = bench;
  const room = { width: printableWidth(supply.film, width), gap: instance.rules.cutGap };
  const known = new Map<string, boolean>();
  const lengths = new Map(lotsOf(bench, supply, width).map(({ lot, length }) => [lot, length]));
  return (lot: string, counts: readonly number[]): boolean => {
    const key = `${lot} ${counts.join(" ")}`;
    const answer = known.get(key) ?? hold(lot, counts);
    known.set(key, answer);
    return answer;
  };

  function hold(lot: string, counts: readonly number[]): boolean {
    const sizes = panelSizes(groups, counts);
    if (sizes.length === 0) return true;
    if (lengthBound(sizes, room) - room.gap > (lengths.get(lot) ?? 0)) return false;
    const patterns = nestInCuts(sizes, room, { ...bench.effort(), rounds: 0 });
    if (lot === lotOf(null) && lengths.get(lot) === Infinity) {
      const longest = Math.max(...patterns.map(({ length }) => length));
      return longest <= roomInLoad(instance, supply.film, supply.film.rollLength ?? Infinity);
    }
    if (totalLength(patterns, room.gap) - room.gap > (lengths.get(lot) ?? 0)) return false;
    const cuts = patterns.flatMap(({ length, times }) => new Array<Ticks>(times).fill(length));
    return packLoads(instance, supply, width, allowedFor(lot), cuts, bench.chooseLoads) !== null;
  }
}

/** Groups by falling area of one copy. */
function groupsBySize(groups: readonly LotGroup[]): number[] {
  const area = groups.map(({ panels }) => panels.reduce((sum, { across, along }) => sum + across * along, 0));
  return [...groups.keys()].sort((a, b) => (area[b] as number) - (area[a] as number));
}

function shuffled<T>(items: readonly T[], random: () => number): T[] {
  const mixed = [...items];
  for (let i = mixed.length - 1; i > 0; i--) {
    const k = Math.floor(random() * (i + 1));
    [mixed[i], mixed[k]] = [mixed[k] as T, mixed[i] as T];
  }
  return mixed;
}

/** Least length that all copies of all panels take in cuts of this width, gaps between them included, as nested. */
export function nestedLength(
  bench: Bench,
  supply: Supply,
  width: Ticks,
  groups: readonly LotGroup[],
  batch?: Batch,
): Ticks {
  const room = { width: printableWidth(supply.film, width), gap: bench.instance.rules.cutGap };
  const counts = (batch ?? wholeBatch(groups)).parts.map(({ count }) => count);
  const patterns = nestInCuts(panelSizes(groups, counts), room, bench.effort());
  return Math.max(0, totalLength(patterns, room.gap) - room.gap);
}
