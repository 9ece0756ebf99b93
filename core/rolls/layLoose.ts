import type { StockEntry } from "../model/instance.ts";
import { printableWidth } from "../model/printableWidth.ts";
import { nestInCuts } from "../nesting/nestInCuts.ts";
import type { Ticks } from "../units/ticks.ts";
import { type Bench, bestDraft, type Draft, type DraftLoad, filmArea, slackOf, withCut } from "./draft.ts";
import { type DraftCut, handOut, longestFirst } from "./handOut.ts";
import { packLoads } from "./packLoads.ts";
import { fitsAcross, type Stack, sizesOf } from "./stacks.ts";
import { afterLoad, roomInLoad, widthsToBeHad } from "./supply.ts";

/** Loads that may be made one by one while several widths are mixed; beyond, one width is used for the rest. */
const MOST_MIXED = 60;

/**
 * Lays loose pieces that found no gap among panels, on any width or piece of stock that takes them.
 *
 * @param draft loads already made; cuts are added to those with length left where that takes less film than a load more
 * @returns the draft with the pieces laid, or null when they do not all fit
 *
 * Tried: each width for all of them, and load by load the one that spends least film for the pieces it holds.
 */
export function layLoose(bench: Bench, draft: Draft, stacks: readonly Stack[]): Draft | null {
  const rest = stacks.filter(({ items }) => items.length > 0);
  if (rest.length === 0) return draft;
  const widths = widthsOf(draft);
  const onOne = bestDraft(widths.map((width) => onWidth(bench, draft, rest, width)));
  // Of one width there is nothing to mix, and load by load most of a large job would be nested again and again.
  const added = onOne === null ? 0 : onOne.loads.length - draft.loads.length;
  if (widths.length === 1 && added > MOST_MIXED) return onOne;
  return bestDraft([onOne, mixed(bench, draft, rest)]);
}

const widthsOf = ({ loads, supply }: Draft): Ticks[] =>
  [...new Set([...widthsToBeHad(supply), ...loads.map(({ width }) => width)])].sort((a, b) => a - b);

function onWidth(bench: Bench, draft: Draft, stacks: readonly Stack[], width: Ticks): Draft | null {
  const cuts = cutsOn(bench, draft, stacks, width);
  if (cuts === null) return null;
  const added = addToLoads(bench, draft, cuts, width);
  return newLoads(bench, added.draft, added.left, width);
}

/** The pieces in cuts of this width; null when one does not fit across. */
function cutsOn(bench: Bench, { supply }: Draft, stacks: readonly Stack[], width: Ticks): DraftCut[] | null {
  const room = { width: printableWidth(supply.film, width), gap: bench.instance.rules.cutGap };
  if (!stacks.every((stack) => fitsAcross(stack, room.width))) return null;
  return handOut(nestInCuts(sizesOf(stacks, room.width, true), room, bench.effort()), stacks).cuts;
}

/** Longest cuts first into the load that they fill best. */
function addToLoads(
  { instance }: Bench,
  draft: Draft,
  cuts: readonly DraftCut[],
  width: Ticks,
): { draft: Draft; left: DraftCut[] } {
  const loads = [...draft.loads];
  let supply = draft.supply;
  const left: DraftCut[] = [];
  const open = [...loads.keys()].filter((i) => (loads[i] as DraftLoad).width === width);
  for (const cut of longestFirst(cuts)) {
    let best = -1;
    let least = Infinity;
    for (const i of open) {
      const slack = slackOf(instance, supply, loads[i] as DraftLoad) - instance.rules.cutGap - cut.length;
      if (slack >= 0 && slack < least) [best, least] = [i, slack];
      // An endless roll leaves no slack to compare.
      if (slack === Infinity && best < 0) best = i;
    }
    if (best < 0) {
      left.push(cut);
      continue;
    }
    const grown = withCut(instance, supply, loads[best] as DraftLoad, cut);
    loads[best] = grown.load;
    supply = grown.supply;
  }
  return { draft: { loads, supply }, left };
}

function newLoads(
  { instance, chooseLoads }: Bench,
  draft: Draft,
  cuts: readonly DraftCut[],
  width: Ticks,
): Draft | null {
  const everything = { stock: () => true, bought: true };
  const packed = packLoads(
    instance,
    draft.supply,
    width,
    everything,
    cuts.map(({ length }) => length),
    chooseLoads,
  );
  if (packed === null) return null;
  const loads = packed.loads.map((load) => ({ ...load, cuts: load.cuts.map((cut) => cuts[cut] as DraftCut) }));
  return { loads: [...draft.loads, ...loads], supply: packed.supply };
}

/** Rounds of search in each of the many nestings that choosing load by load asks for. */
const FEW_ROUNDS = 8;

/** Load by load, always the one that spends least film for the area of the pieces it holds. */
function mixed({ instance, effort, chooseLoads }: Bench, start: Draft, stacks: readonly Stack[]): Draft | null {
  const bench: Bench = {
    instance,
    chooseLoads,
    effort: () => ({ ...effort(), rounds: Math.min(FEW_ROUNDS, effort().rounds) }),
  };
  let [draft, rest]: [Draft, readonly Stack[]] = [start, stacks];
  for (let step = 0; rest.length > 0; step++) {
    if (step === MOST_MIXED || bench.effort().stop()) {
      return bestDraft(widthsOf(draft).map((width) => onWidth(bench, draft, rest, width)));
    }
    let best: { draft: Draft; rest: Stack[]; spent: number } | null = null;
    for (const offer of oneLoadEach(bench, draft, rest)) {
      const gained = pieceArea(rest) - pieceArea(offer.rest);
      const spent = (filmArea(offer.draft) - filmArea(draft)) / gained;
      if (best === null || spent < best.spent * (1 - 1e-9)) best = { ...offer, spent };
    }
    if (best === null) return null;
    [draft, rest] = [best.draft, best.rest];
  }
  return draft;
}

/** The pieces that fit each width: on what is left of the loads of that width, or on one load more of each roll at hand. */
function oneLoadEach(bench: Bench, draft: Draft, stacks: readonly Stack[]): { draft: Draft; rest: Stack[] }[] {
  const offers: { draft: Draft; rest: Stack[] }[] = [];
  for (const width of widthsOf(draft)) {
    const fitting = stacks.filter((stack) => fitsAcross(stack, printableWidth(draft.supply.film, width)));
    const cuts = fitting.length === 0 ? null : cutsOn(bench, draft, fitting, width);
    if (cuts === null) continue;
    const added = addToLoads(bench, draft, cuts, width);
    if (added.left.length < cuts.length) offers.push({ draft: added.draft, rest: without(stacks, cuts, added.left) });
    for (const { stock, length } of rollsAtHand(draft, width)) {
      const load = oneLoad(bench, draft, { stock, width }, length, cuts);
      if (load === null) continue;
      const taken = new Set(load.cuts);
      const supply = afterLoad(draft.supply, stock, load.used);
      const left = cuts.filter((cut) => !taken.has(cut));
      offers.push({ draft: { loads: [...draft.loads, load], supply }, rest: without(stacks, cuts, left) });
    }
  }
  return offers;
}

interface RollAtHand {
  readonly stock: StockEntry | null;
  readonly length: Ticks;
}

function rollsAtHand({ supply }: Draft, width: Ticks): RollAtHand[] {
  const rolls: RollAtHand[] = supply.stock
    .filter(({ entry }) => entry.width === width)
    .map(({ entry, left }) => ({ stock: entry, length: left }));
  if (supply.newRolls > 0 && supply.film.rollWidths.includes(width)) {
    rolls.push({ stock: null, length: supply.film.rollLength ?? Infinity });
  }
  return rolls;
}

/** As many of the cuts, longest first, as one load of this roll can take; null when it takes none. */
function oneLoad(
  { instance }: Bench,
  { supply }: Draft,
  roll: Pick<DraftLoad, "stock" | "width">,
  length: Ticks,
  cuts: readonly DraftCut[],
): DraftLoad | null {
  const { leader, trailer, cutGap } = instance.rules;
  const chosen: DraftCut[] = [];
  const room = roomInLoad(instance, supply.film, length) + cutGap;
  let left = room;
  for (const cut of longestFirst(cuts)) {
    if (cut.length + cutGap > left) continue;
    chosen.push(cut);
    left -= cut.length + cutGap;
  }
  if (chosen.length === 0) return null;
  const taken = chosen.reduce((sum, cut) => sum + cut.length + cutGap, -cutGap);
  return { ...roll, used: leader + taken + trailer, cuts: chosen };
}

function without(stacks: readonly Stack[], cuts: readonly DraftCut[], left: readonly DraftCut[]): Stack[] {
  const waiting = new Set(left);
  const laid = new Set(cuts.filter((cut) => !waiting.has(cut)).flatMap(({ pieces }) => pieces.map(({ item }) => item)));
  return stacks
    .map(({ shapes, items }) => ({ shapes, items: items.filter((item) => !laid.has(item)) }))
    .filter(({ items }) => items.length > 0);
}

const pieceArea = (stacks: readonly Stack[]): number =>
  stacks.reduce((sum, { shapes, items }) => {
    const shape = shapes[0] as Stack["shapes"][number];
    return sum + shape.across * shape.along * items.length;
  }, 0);
