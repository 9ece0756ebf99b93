import type { Instance, StockEntry } from "../model/instance.ts";
import type { Ticks } from "../units/ticks.ts";
import type { LoadChooser } from "./chooseLoads.ts";
import {
  type Allowed,
  betterLoads,
  boughtLength,
  fillLoads,
  type PackedLoad,
  type PackedLoads,
  scrapOf,
} from "./fillLoads.ts";
import { fewestLoadsBound } from "./loadBound.ts";
import type { LoadQuestion, Reel } from "./loadProgramme.ts";
import { afterLoad, type Supply } from "./supply.ts";

/**
 * Packs cuts of one width into loads: fewest loads, since each costs a leader and a trailer; of equals the one that takes
 * least from new rolls, then the one that leaves least scrap, then the one that keeps the cuts in sequence.
 *
 * @param lengths of the cuts in the sequence wished for, ticks, each > 0
 * @param chooseLoads settles it where heuristics leave a doubt and the choice is small enough to be proven
 * @returns loads with the cuts of each in sequence, and what is left of the film; null when no way was found
 *
 * Most often the heuristics (see `fillLoads`) come to as few loads as the bound says and nothing more is asked.
 */
export function packLoads(
  instance: Instance,
  supply: Supply,
  width: Ticks,
  allowed: Allowed,
  lengths: readonly Ticks[],
  chooseLoads: LoadChooser,
): PackedLoads | null {
  if (lengths.length === 0) return { loads: [], supply };
  const filled = fillLoads(instance, supply, width, allowed, lengths);
  const reels = reelsOf(supply, width, allowed);
  const question = questionOf(instance, supply, lengths, reels);
  const fewest = fewestLoadsBound(question, filled?.loads.length);
  const most = mostLoadsToAsk(instance, supply, filled, reels, lengths.length, fewest);
  if (most < fewest) return filled;
  const answer = chooseLoads(question, fewest, most);
  if (answer.status !== "packed") return filled;
  const chosen = packed(instance, supply, width, lengths, reels, answer.loads);
  return filled === null || betterLoads(instance, supply, chosen, filled) ? chosen : filled;
}

/** How many loads a better way may have; fewer than any has when there is nothing to better. */
function mostLoadsToAsk(
  instance: Instance,
  before: Supply,
  filled: PackedLoads | null,
  reels: readonly ReelEntries[],
  cuts: number,
  fewest: number,
): number {
  if (filled === null) return cuts;
  const loads = filled.loads.length;
  const stockMayServe = loads > 1 && reels.some(({ bought }) => !bought) && boughtLength(filled) > 0;
  const asMany = stockMayServe || scrapOf(instance, before, filled) > 0;
  return asMany ? loads : Math.max(loads - 1, fewest - 1);
}

/** Reels alike, with the stock entries that they stand for; empty for new rolls. */
interface ReelEntries extends Reel {
  readonly entries: readonly StockEntry[];
}

function reelsOf({ film, stock, newRolls }: Supply, width: Ticks, allowed: Allowed): ReelEntries[] {
  const reels: ReelEntries[] = [];
  for (const { entry, left } of stock) {
    if (entry.width !== width || !allowed.stock(entry) || left <= 0) continue;
    // Reels that one run does not use up are told apart, since their loads share a length.
    const alike = reels.findIndex((reel) => reel.left === left && left <= (film.maxRun ?? Infinity));
    if (alike < 0) reels.push({ bought: false, left, count: 1, entries: [entry] });
    else {
      const reel = reels[alike] as ReelEntries;
      reels[alike] = { ...reel, count: reel.count + 1, entries: [...reel.entries, entry] };
    }
  }
  if (allowed.bought && newRolls > 0 && film.rollWidths.includes(width)) {
    reels.push({ bought: true, left: film.rollLength ?? Infinity, count: newRolls, entries: [] });
  }
  return reels;
}

function questionOf(
  { rules }: Instance,
  { film }: Supply,
  lengths: readonly Ticks[],
  reels: readonly ReelEntries[],
): LoadQuestion {
  return {
    lengths,
    gap: rules.cutGap,
    ends: rules.leader + rules.trailer,
    maxRun: film.maxRun ?? Infinity,
    reels: reels.map(({ bought, left, count }) => ({ bought, left, count })),
    keepLength: rules.keepLength,
  };
}

function packed(
  { rules }: Instance,
  supply: Supply,
  width: Ticks,
  lengths: readonly Ticks[],
  reels: readonly ReelEntries[],
  chosen: readonly { readonly reel: number; readonly cuts: readonly number[] }[],
): PackedLoads {
  const taken = reels.map(() => 0);
  const loads: PackedLoad[] = [];
  let rest = supply;
  for (const { reel, cuts } of chosen) {
    const { entries, count } = reels[reel] as ReelEntries;
    // Of reels alike one after another; a single one is loaded as often as it is asked.
    const stock = entries[count === 1 ? 0 : (taken[reel] as number)] ?? null;
    taken[reel] = (taken[reel] as number) + 1;
    const used = cuts.reduce((sum, cut) => sum + (lengths[cut] as number) + rules.cutGap, rules.leader + rules.trailer);
    loads.push({ stock, width, cuts, used: used - rules.cutGap });
    rest = afterLoad(rest, stock, used - rules.cutGap);
  }
  return { loads, supply: rest };
}
