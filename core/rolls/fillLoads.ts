import type { Instance, StockEntry } from "../model/instance.ts";
import { boundedKnapsack } from "../nesting/boundedKnapsack.ts";
import type { Ticks } from "../units/ticks.ts";
import { afterLoad, roomInLoad, type Supply } from "./supply.ts";

/** One load and the cuts on it, by their place in the list given. */
export interface PackedLoad {
  readonly stock: StockEntry | null;
  readonly width: Ticks;
  readonly cuts: readonly number[];
  /** Leader, cuts with gaps, trailer. */
  readonly used: Ticks;
}

export interface PackedLoads {
  readonly loads: readonly PackedLoad[];
  readonly supply: Supply;
}

/** Which rolls may be taken. */
export interface Allowed {
  readonly stock: (entry: StockEntry) => boolean;
  readonly bought: boolean;
}

interface Attempt {
  readonly order: "largest" | "stockLargest" | "stockSmallest";
  readonly fill: "sequence" | "fullest";
}

const ATTEMPTS: readonly Attempt[] = [
  { order: "stockLargest", fill: "sequence" },
  { order: "largest", fill: "sequence" },
  { order: "stockSmallest", fill: "sequence" },
  { order: "stockLargest", fill: "fullest" },
  { order: "largest", fill: "fullest" },
  { order: "stockSmallest", fill: "fullest" },
];

/**
 * Fills loads with cuts of one width by heuristics, better ones first (see `betterLoads`), of equals the one that keeps
 * the cuts in sequence.
 *
 * @param lengths of the cuts in the sequence wished for, ticks, each > 0
 * @returns loads with the cuts of each in sequence, and what is left of the film; null when the attempts found no way
 *
 * Attempts: loads filled in sequence, or each as full as can be by subset sums round the longest cut left (the minimal bin
 * slack heuristic of Gupta and Ho 1999, Production Planning and Control 10(6), 598-603), with the rolls taken in three
 * orders. The last load goes to the least piece of stock that holds it.
 * Time O(cuts + loads x lengths x fillings) each; equal loads are filled once.
 */
export function fillLoads(
  instance: Instance,
  supply: Supply,
  width: Ticks,
  allowed: Allowed,
  lengths: readonly Ticks[],
): PackedLoads | null {
  if (lengths.length === 0) return { loads: [], supply };
  let best: PackedLoads | null = null;
  for (const attempt of ATTEMPTS) {
    const packed = pack(instance, supply, width, allowed, lengths, attempt);
    if (packed !== null && (best === null || betterLoads(instance, supply, packed, best))) best = packed;
  }
  return best;
}

/** Fewest loads, since each costs a leader and a trailer; of equals the least from new rolls, then the least scrap. */
export function betterLoads(instance: Instance, before: Supply, a: PackedLoads, b: PackedLoads): boolean {
  if (a.loads.length !== b.loads.length) return a.loads.length < b.loads.length;
  const [p, q] = [boughtLength(a), boughtLength(b)];
  return p !== q ? p < q : scrapOf(instance, before, a) < scrapOf(instance, before, b);
}

/** Length that these loads leave on opened rolls, too short to be kept; 0 where the job does not say what is. */
export function scrapOf({ rules: { keepLength } }: Instance, before: Supply, { loads, supply }: PackedLoads): Ticks {
  if (keepLength === null) return 0;
  const opened = supply.stock.filter(({ left }, i) => left < (before.stock[i] as Supply["stock"][number]).left);
  const lefts = [
    ...opened.map(({ left }) => left),
    ...loads.flatMap(({ stock, used }) => (stock === null ? [(supply.film.rollLength ?? Infinity) - used] : [])),
  ];
  return lefts.reduce((sum, left) => sum + (left < keepLength ? left : 0), 0);
}

export const boughtLength = ({ loads }: PackedLoads): Ticks =>
  loads.reduce((sum, { stock, used }) => sum + (stock === null ? used : 0), 0);

function pack(
  instance: Instance,
  supply: Supply,
  width: Ticks,
  allowed: Allowed,
  lengths: readonly Ticks[],
  attempt: Attempt,
): PackedLoads | null {
  const gap = instance.rules.cutGap;
  const waiting = attempt.fill === "sequence" ? inSequence(lengths, gap) : asFullAsCan(lengths, gap);
  const loads: PackedLoad[] = [];
  let rest = supply;
  const ends = instance.rules.leader + instance.rules.trailer;
  while (waiting.total() > 0) {
    const offers = offersOf(instance, rest, width, allowed, attempt.order);
    const snug = snuggest(offers, waiting.total() - gap, ends, instance.rules.keepLength ?? 0);
    let taken = false;
    for (const offer of snug === null ? offers : [snug]) {
      const cuts = waiting.take(offer.room + gap);
      if (cuts.length === 0) continue;
      const used = ends + cuts.reduce((sum, cut) => sum + (lengths[cut] as number) + gap, 0) - gap;
      loads.push({ stock: offer.stock, width, cuts, used });
      rest = afterLoad(rest, offer.stock, used);
      taken = true;
      break;
    }
    if (!taken) return null;
  }
  return { loads, supply: rest };
}

interface Offer {
  readonly stock: StockEntry | null;
  /** Length for cuts and the gaps between them. */
  readonly room: Ticks;
  /** On the roll; Infinity where it does not end. */
  readonly left: Ticks;
}

function offersOf(
  instance: Instance,
  supply: Supply,
  width: Ticks,
  allowed: Allowed,
  order: Attempt["order"],
): Offer[] {
  const { film } = supply;
  const stock = supply.stock
    .filter(({ entry }) => entry.width === width && allowed.stock(entry))
    .map(({ entry, left }): Offer => ({ stock: entry, room: roomInLoad(instance, film, left), left }))
    .filter(({ room }) => room > 0);
  const whole = film.rollLength ?? Infinity;
  const bought: Offer[] =
    allowed.bought && supply.newRolls > 0 && film.rollWidths.includes(width)
      ? [{ stock: null, room: roomInLoad(instance, film, whole), left: whole }]
      : [];
  const bySize = (a: Offer, b: Offer) => (a.room === b.room ? 0 : b.room - a.room);
  if (order === "stockSmallest") return [...stock.sort((a, b) => bySize(b, a)), ...bought];
  if (order === "stockLargest") return [...stock.sort(bySize), ...bought];
  return [...stock, ...bought].sort(bySize);
}

/**
 * The piece of stock that holds all that waits, else a new roll that does: one that leaves least to throw away, then the
 * shortest.
 */
function snuggest(offers: readonly Offer[], length: Ticks, ends: Ticks, keepLength: Ticks): Offer | null {
  const holding = offers.filter(({ room }) => room >= length);
  const stock = holding.filter((offer) => offer.stock !== null);
  const among = stock.length > 0 ? stock : holding;
  const scrap = ({ left }: Offer) => (left - ends - length < keepLength ? left - ends - length : 0);
  const before = (a: Offer, b: Offer) => (scrap(a) === scrap(b) ? a.room < b.room : scrap(a) < scrap(b));
  return among.reduce<Offer | null>((best, offer) => (best === null || before(offer, best) ? offer : best), null);
}

/** Cuts not yet on a load; lengths are counted with one gap each. */
interface Waiting {
  readonly total: () => Ticks;
  /** Takes cuts for a load with this room, one gap included; ascending. */
  readonly take: (room: Ticks) => number[];
}

function inSequence(lengths: readonly Ticks[], gap: Ticks): Waiting {
  let next = 0;
  let total = lengths.reduce((sum, length) => sum + length + gap, 0);
  return {
    total: () => total,
    take: (room) => {
      const cuts: number[] = [];
      for (let left = room; next < lengths.length && (lengths[next] as number) + gap <= left; next++) {
        cuts.push(next);
        left -= (lengths[next] as number) + gap;
        total -= (lengths[next] as number) + gap;
      }
      return cuts;
    },
  };
}

function asFullAsCan(lengths: readonly Ticks[], gap: Ticks): Waiting {
  let total = lengths.reduce((sum, length) => sum + length + gap, 0);
  const byLength = new Map<Ticks, { cuts: number[]; next: number }>();
  for (const [cut, length] of lengths.entries()) {
    const known = byLength.get(length);
    if (known === undefined) byLength.set(length, { cuts: [cut], next: 0 });
    else known.cuts.push(cut);
  }
  const kinds = [...byLength].sort(([a], [b]) => b - a).map(([length, queue]) => ({ space: length + gap, queue }));
  let last: { room: Ticks; counts: readonly number[] } | null = null;
  const left = (kind: number) => {
    const { queue } = kinds[kind] as (typeof kinds)[number];
    return queue.cuts.length - queue.next;
  };
  return {
    total: () => total,
    take: (room) => {
      if (room >= total) room = total;
      if (last === null || last.room !== room || last.counts.some((count, kind) => count > left(kind))) {
        last = { room, counts: fullest(kinds, left, room) };
      }
      const cuts: number[] = [];
      for (const [kind, count] of last.counts.entries()) {
        const { space, queue } = kinds[kind] as (typeof kinds)[number];
        for (let i = 0; i < count; i++) cuts.push(queue.cuts[queue.next++] as number);
        total -= count * space;
      }
      return cuts.sort((a, b) => a - b);
    },
  };
}

/** The longest cut that fits, and round it what fills the room best. */
function fullest(kinds: readonly { space: Ticks }[], left: (kind: number) => number, room: Ticks): number[] {
  const longest = kinds.findIndex(({ space }, kind) => space <= room && left(kind) > 0);
  if (longest < 0) return kinds.map(() => 0);
  const counts = boundedKnapsack(
    kinds.map(({ space }, kind) => ({ size: space, value: space, most: left(kind) - (kind === longest ? 1 : 0) })),
    room - (kinds[longest] as { space: Ticks }).space,
    400,
  );
  counts[longest] = (counts[longest] as number) + 1;
  return counts;
}
