import { bestStrips, stripOf } from "./bestStrips.ts";
import { type PackingColumn, PackingMaster } from "./packingMaster.ts";
import type { Strip, StripEntry, StripItem } from "./twoStage.ts";

export interface StripPlan {
  readonly value: number;
  /** No plan is worth more. */
  readonly upperBound: number;
  /** By falling depth. */
  readonly strips: readonly Strip[];
}

/** A gain below this share of the value counts as none. */
const CLOSED = 1e-7;
/** The first search asks for a plan within this share of the bound; each further one for four times as much. */
const FIRST_SHARE = 0.002;

/**
 * The most valuable items that one sheet gives in two guillotine stages, exactly: strips of the sheet's full length, items
 * side by side in each, lower ones trimmed, each item at most `most` times.
 *
 * @param items sizes whole numbers ≥ 1; those worth nothing are never cut
 * @param length of each strip, and `depth` for all strips together: whole numbers ≥ 0
 * @param stop true ends the search with the best plan so far; asked once a round of pricing and once a strip tried
 * @returns a plan that is proven best when its value equals the bound
 *
 * Prices of the items' limits come from the linear relaxation over strips, by column generation with an exact knapsack for
 * each depth (Gilmore and Gomory 1965, Operations Research 13(1), 94-120). With the limits priced, the best strips for a
 * depth follow from a knapsack over depths, whose value with what the limits are worth bounds every plan (Lagrange). The
 * search then lays one strip after another, the one with the last lead item in order of depth first, and leaves a branch
 * where the bound does not exceed the best plan. A strip need only be tried when no further item still to be had fits
 * into it, since moving one there from a later strip changes no value. Ties: first found. Cost: exponential at worst.
 */
export function twoStageKnapsack(
  items: readonly StripItem[],
  length: number,
  depth: number,
  stop: () => boolean,
): StripPlan {
  const useful = items
    .map((item, index) => ({ ...item, index }))
    .filter((item) => item.value > 0 && item.along <= length && item.depth <= depth)
    .map((item) => ({
      ...item,
      most: Math.min(item.most, Math.floor(length / item.along) * Math.floor(depth / item.depth)),
    }))
    .filter(({ most }) => most > 0)
    .sort((a, b) => a.depth - b.depth || a.along - b.along || a.index - b.index);
  if (useful.length === 0) return { value: 0, upperBound: 0, strips: [] };
  const { strips, value, upperBound } = new StripSearch(useful, length, depth, stop).run();
  const named = strips.map(({ entries }) =>
    stripOf(
      items,
      entries.map(({ item, count }) => ({ item: (useful[item] as { index: number }).index, count })),
    ),
  );
  return { value, upperBound, strips: named };
}

class StripSearch {
  private readonly items: readonly StripItem[];
  private readonly length: number;
  private readonly depth: number;
  private readonly stop: () => boolean;
  private readonly whole: boolean;
  /** Of each item by depth, what its value leaves above the price of its limit, and that price. */
  private worth = new Float64Array(0);
  private price = new Float64Array(0);
  /** filled[j][l]: most worth of a strip of length l from the items before j. */
  private filled: Float64Array[] = [];
  /** stacked[j][d]: most worth of strips of depth d in all, led by items before j. */
  private stacked: Float64Array[] = [];
  private best: { value: number; strips: readonly Strip[] } = { value: 0, strips: [] };
  /** A plan counts only when it is worth more. */
  private threshold = 0;
  private stopped = false;

  constructor(items: readonly StripItem[], length: number, depth: number, stop: () => boolean) {
    this.items = items;
    this.length = length;
    this.depth = depth;
    this.stop = stop;
    this.whole = items.every(({ value }) => Number.isInteger(value));
  }

  run(): StripPlan {
    const uses = this.relax();
    this.tabulate();
    const limits = this.items.reduce((sum, { most }, i) => sum + most * (this.price[i] as number), 0);
    const root = (this.stacked[this.items.length] as Float64Array)[this.depth] as number;
    let upperBound = this.reachable(root + limits);
    this.round(uses);
    for (let share = FIRST_SHARE; !this.stopped && this.best.value < upperBound; share *= 4) {
      const asked = this.whole ? Math.floor(upperBound * (1 - share)) : upperBound * (1 - share);
      this.threshold = Math.max(this.best.value, asked);
      const from = this.threshold;
      this.lay(
        this.items.length - 1,
        this.depth,
        this.items.map(({ most }) => most),
        0,
        [],
      );
      if (this.stopped) break;
      // Nothing left out by the threshold is worth more than where the search began or what it found.
      upperBound = Math.min(upperBound, Math.max(from, this.best.value));
    }
    return { value: this.best.value, upperBound, strips: this.best.strips };
  }

  /** The most that a plan can reach under a bound. */
  private reachable(bound: number): number {
    return this.whole ? Math.floor(bound + bound * CLOSED) : bound * (1 + CLOSED);
  }

  /** Column generation; keeps the prices of the limits, and returns the strips used by the relaxation. */
  private relax(): readonly { strip: Strip; times: number }[] {
    const rows = this.items.length;
    const master = new PackingMaster([...this.items.map(({ most }) => most), this.depth]);
    const strips: Strip[] = [];
    // Less is rounding: asked for without end, it would bring the same strips again. Well above what the master tells apart.
    const least = Math.max(1e-8, ...this.items.map(({ value }) => CLOSED * value));
    for (;;) {
      const duals = master.optimise();
      this.price = duals.slice(0, rows);
      this.worth = this.price.map((price, i) => (this.items[i] as StripItem).value - price);
      const layer = duals[rows] as number;
      const found = bestStrips(this.items, this.worth, this.length).filter(
        ({ depth, worth }) => worth - layer * depth > least,
      );
      this.stopped = this.stop();
      if (found.length === 0 || this.stopped || master.stuck) {
        return master.uses().map(({ column, times }) => ({ strip: strips[column] as Strip, times }));
      }
      for (const { entries } of found) strips.push(stripOf(this.items, entries));
      master.add(
        found.map(({ entries }): PackingColumn => {
          const { depth, value } = stripOf(this.items, entries);
          return {
            value,
            entries: [
              ...entries.map(({ item, count }) => ({ row: item, amount: count })),
              { row: rows, amount: depth },
            ],
          };
        }),
      );
    }
  }

  /** The tables of what is left of strips and of the sheet, at the prices of the limits. */
  private tabulate(): void {
    const { items, length, depth } = this;
    let strip = new Float64Array(length + 1);
    let sheet = new Float64Array(depth + 1);
    this.filled = [strip];
    this.stacked = [sheet];
    for (const [i, item] of items.entries()) {
      const [next, each] = [new Float64Array(strip), this.worth[i] as number];
      for (let l = item.along; each > 0 && l <= length; l++) {
        for (let n = 1; n <= item.most && n * item.along <= l; n++) {
          next[l] = Math.max(next[l] as number, (strip[l - n * item.along] as number) + n * each);
        }
      }
      strip = next;
      this.filled.push(strip);
      sheet = new Float64Array(sheet);
      for (let d = item.depth; d <= depth; d++) {
        sheet[d] = Math.max(sheet[d] as number, (sheet[d - item.depth] as number) + (strip[length] as number));
      }
      this.stacked.push(sheet);
    }
  }

  /** A first plan: strips of the relaxation as often as whole ones hold, then the best of what is left, one by one. */
  private round(uses: readonly { strip: Strip; times: number }[]): void {
    const left = this.items.map(({ most }) => most);
    const strips: Strip[] = [];
    let room = this.depth;
    const take = (entries: readonly StripEntry[]): void => {
      const held = entries
        .map(({ item, count }) => ({ item, count: Math.min(count, left[item] as number) }))
        .filter(({ count }) => count > 0);
      const strip = stripOf(this.items, held);
      if (held.length === 0 || strip.depth > room) return;
      for (const { item, count } of held) left[item] = (left[item] as number) - count;
      room -= strip.depth;
      strips.push(strip);
    };
    for (const { strip, times } of [...uses].sort((a, b) => b.times - a.times)) {
      for (let n = 0; n < Math.floor(times + 1e-6); n++) take(strip.entries);
    }
    for (;;) {
      const rest = this.items.map((item, i) => ({ ...item, most: left[i] as number }));
      const values = this.items.map(({ value }) => value);
      const fitting = bestStrips(rest, values, this.length).filter(({ depth }) => depth <= room);
      if (fitting.length === 0) break;
      take(fitting.reduce((a, b) => (b.worth * a.depth > a.worth * b.depth ? b : a)).entries);
    }
    const value = strips.reduce((sum, strip) => sum + strip.value, 0);
    this.best = { value, strips: strips.sort((a, b) => b.depth - a.depth) };
  }

  /** Lays further strips, led by the items up to `last`, into `room`. */
  private lay(last: number, room: number, left: number[], value: number, strips: readonly Strip[]): void {
    if (value > this.threshold && value > this.best.value) {
      this.best = { value, strips };
      this.threshold = value;
    }
    let limits = 0;
    for (let i = 0; i <= last; i++) limits += (left[i] as number) * (this.price[i] as number);
    for (let lead = last; lead >= 0; lead--) {
      if (this.hopeless(value + limits + ((this.stacked[lead + 1] as Float64Array)[room] as number))) return;
      const item = this.items[lead] as StripItem;
      if ((left[lead] as number) > 0 && item.depth <= room) {
        // What the strip and those after it may still be worth, besides the worth of the strip itself.
        const beyond = value + limits + ((this.stacked[lead + 1] as Float64Array)[room - item.depth] as number);
        const counts = new Array<number>(lead + 1).fill(0);
        this.fill(lead, lead, this.length, 0, beyond, counts, left, () => {
          const entries = counts.flatMap((count, i) => (count > 0 ? [{ item: i, count }] : []));
          const strip = stripOf(this.items, entries);
          for (const { item: i, count } of entries) left[i] = (left[i] as number) - count;
          this.lay(lead, room - item.depth, left, value + strip.value, [...strips, strip]);
          for (const { item: i, count } of entries) left[i] = (left[i] as number) + count;
        });
        if (this.stopped) return;
      }
      limits -= (left[lead] as number) * (this.price[lead] as number);
    }
  }

  /** Every strip of the items up to `item` that holds its lead, leaves no room for more, and may lead to a better plan. */
  private fill(
    item: number,
    lead: number,
    room: number,
    worth: number,
    beyond: number,
    counts: number[],
    left: readonly number[],
    found: () => void,
  ): void {
    if (this.hopeless(beyond + worth + ((this.filled[item + 1] as Float64Array)[room] as number))) return;
    if (item < 0) {
      this.stopped = this.stopped || this.stop();
      if (this.stopped) return;
      const more = counts.some((count, i) => count < (left[i] as number) && (this.items[i] as StripItem).along <= room);
      if (!more) found();
      return;
    }
    const { along } = this.items[item] as StripItem;
    const most = Math.min(left[item] as number, Math.floor(room / along));
    for (let count = most; count >= (item === lead ? 1 : 0) && !this.stopped; count--) {
      counts[item] = count;
      const here = worth + count * (this.worth[item] as number);
      this.fill(item - 1, lead, room - count * along, here, beyond, counts, left, found);
    }
    counts[item] = 0;
  }

  private hopeless(bound: number): boolean {
    const margin = bound * CLOSED;
    return this.whole ? bound + margin < this.threshold + 1 : bound <= this.threshold + margin;
  }
}
