import type { Ticks } from "../units/ticks.ts";
import { EMPTY, type Filling, fillingFor, fillingsWith, partsOf } from "./boundedKnapsack.ts";
import { fillCut, fillRest } from "./fillCut.ts";
import type { Place, Room, Shape, Size } from "./sizes.ts";

/** Sizes that are still wanted, and how many of each. */
export interface Wanted {
  readonly sizes: readonly Size[];
  readonly counts: readonly number[];
}

/** A cut and what it is worth at the prices it was made for. */
export interface PricedCut {
  readonly length: Ticks;
  readonly places: readonly Place[];
}

export interface CutPricing {
  /** Cuts worth more than their length, the best for its length first. */
  readonly cuts: readonly PricedCut[];
  /** What the best cut found of the class is worth for its length and one gap. */
  readonly mostPerLength: number;
  /** Whether no cut of the class is worth more: false where lists of fillings had to be thinned. */
  readonly exact: boolean;
}

/** Undominated fillings kept while rows, columns and cuts are put together. */
const MOST_FILLINGS = 100;
/** Cuts handed back at once. */
const MOST_CUTS = 12;
const WORTHWHILE = 1 + 1e-7;

/** A shape of a size, grown by the gap. */
interface Offer {
  readonly size: number;
  readonly shape: Shape;
  readonly wide: Ticks;
  readonly deep: Ticks;
}

/** Columns of one width: the fillings of their depth with rows. */
interface Columns {
  readonly wide: Ticks;
  readonly rows: readonly Filling[];
  readonly depths: readonly Filling[];
}

/**
 * Finds the cuts that are worth most at given prices of the sizes.
 *
 * The class: columns side by side, each of rows one behind another, each row of pieces side by side; a guillotine cut in
 * three stages (Gilmore and Gomory 1965, Operations Research 13(1), 94-120). The best row of each depth and width comes of
 * one knapsack over the width, sizes taken by rising depth; the best column of a width for every length at once of one
 * knapsack over the length; the best cut of a length of one over the width again. Counts are kept within a row; a row or
 * a column may be repeated beyond them, so that the value is a limit for every cut of the class. What comes back keeps
 * the counts: pieces too many are left out, and what then is free is filled again with what is worth most.
 *
 * @param price of one piece of each size, ≥ 0; nothing is made of sizes without a price
 * @returns cuts in ticks; of equals the shortest first
 *
 * Time O(widths x depths x log counts x fillings) for the columns, as much again for the cuts.
 */
export function priceCuts({ sizes, counts }: Wanted, price: ArrayLike<number>, room: Room): CutPricing {
  const strip = room.width + room.gap;
  const offers = offersOf(sizes, counts, price, room);
  const depths = distinct(offers.map(({ deep }) => deep));
  const longest = depths.at(-1);
  if (longest === undefined) return { cuts: [], mostPerLength: 0, exact: true };
  let thinned = false;
  const onThinned = () => {
    thinned = true;
  };
  const rowsBy = rowsByDepth(offers, depths, counts, price, strip, onThinned);
  const columns = distinct(offers.map(({ wide }) => wide)).map(
    (wide): Columns => columnsOf(wide, depths, rowsBy, longest, onThinned),
  );

  const found: { deep: Ticks; perLength: number; cut: Filling }[] = [];
  let most = 0;
  for (const deep of depths) {
    const values = columns.map(({ depths: each }) => fillingFor(each, deep).value);
    // Filled to its whole width at the best column's rate the cut is worth no more than this.
    const limit = strip * Math.max(...columns.map(({ wide }, i) => (values[i] as number) / wide));
    if (limit <= deep * WORTHWHILE) {
      most = Math.max(most, limit / deep);
      continue;
    }
    let fillings: readonly Filling[] = [EMPTY];
    let before = 0;
    for (const [i, { wide }] of columns.entries()) {
      const value = values[i] as number;
      // A wider column that is worth no more than a narrower one is of no use.
      if (value <= before) continue;
      before = value;
      fillings = fillingsWith(fillings, i, { size: wide, value, most: Infinity }, strip, MOST_FILLINGS, onThinned);
    }
    const cut = fillings.at(-1) as Filling;
    most = Math.max(most, cut.value / deep);
    if (cut.value > deep * WORTHWHILE) found.push({ deep, perLength: cut.value / deep, cut });
  }
  found.sort((a, b) => b.perLength - a.perLength || a.deep - b.deep);
  const cuts = found.slice(0, MOST_CUTS).map(({ deep, cut }) => {
    const places = placesOf(cut, deep, columns, rowsBy, offers, { sizes, counts }, price, room);
    return { length: lengthOf(places), places };
  });
  return { cuts, mostPerLength: most, exact: !thinned };
}

/**
 * One cut for each length that a piece can have, filled round that piece with what is worth most by columns of one size
 * and into free rectangles (`fillCut`): never beyond the counts, so that it helps where few of each size are wanted.
 */
export function cutsRoundPieces({ sizes, counts }: Wanted, price: ArrayLike<number>, room: Room): PricedCut[] {
  const offers = offersOf(sizes, counts, price, room);
  const openers = new Map(offers.map((offer) => [`${offer.deep} ${offer.size}`, offer]));
  const among = distinct(offers.map(({ size }) => size));
  const worth = worthAt(price, room);
  return [...openers.values()].map((first) => {
    const choice = { sizes, among, left: (size: number) => counts[size] as number, worth };
    return { length: first.shape.along, places: fillCut(choice, first, first.shape.along, room) };
  });
}

/** The least length that holds all places. */
export const lengthOf = (places: readonly Place[]): Ticks =>
  places.reduce((length, { y, shape }) => Math.max(length, y + shape.along), 0);

const worthAt =
  (price: ArrayLike<number>, { gap }: Room) =>
  (size: number, { across, along }: Shape): number =>
    (price[size] as number) / ((across + gap) * (along + gap));

function offersOf(sizes: readonly Size[], counts: readonly number[], price: ArrayLike<number>, { gap }: Room): Offer[] {
  const offers = sizes.flatMap(({ shapes }, size) =>
    (counts[size] as number) > 0 && (price[size] as number) > 0
      ? shapes.map((shape) => ({ size, shape, wide: shape.across + gap, deep: shape.along + gap }))
      : [],
  );
  return offers.sort((a, b) => a.deep - b.deep || a.wide - b.wide || a.size - b.size);
}

const distinct = (lengths: readonly number[]): number[] => [...new Set(lengths)].sort((a, b) => a - b);

/** For each depth the rows no deeper, by width. A size with two shapes may come in both, each within its count. */
function rowsByDepth(
  offers: readonly Offer[],
  depths: readonly Ticks[],
  counts: readonly number[],
  price: ArrayLike<number>,
  strip: Ticks,
  onThinned: () => void,
): (readonly Filling[])[] {
  let rows: readonly Filling[] = [EMPTY];
  let next = 0;
  return depths.map((deep) => {
    for (; next < offers.length && (offers[next] as Offer).deep <= deep; next++) {
      const { size, wide } = offers[next] as Offer;
      const item = { size: wide, value: price[size] as number, most: counts[size] as number };
      rows = fillingsWith(rows, next, item, strip, MOST_FILLINGS, onThinned);
    }
    return rows;
  });
}

function columnsOf(
  wide: Ticks,
  depths: readonly Ticks[],
  rowsBy: readonly (readonly Filling[])[],
  longest: Ticks,
  onThinned: () => void,
): Columns {
  const rows = rowsBy.map((fillings) => fillingFor(fillings, wide));
  let fillings: readonly Filling[] = [EMPTY];
  let before = 0;
  for (const [i, { value }] of rows.entries()) {
    // A deeper row that is worth no more than a shallower one is of no use.
    if (value <= before) continue;
    before = value;
    const item = { size: depths[i] as Ticks, value, most: Infinity };
    fillings = fillingsWith(fillings, i, item, longest, MOST_FILLINGS, onThinned);
  }
  return { wide, rows, depths: fillings };
}

/** The pieces of a cut, no more of a size than wanted, and what else fits beside them. */
function placesOf(
  cut: Filling,
  deep: Ticks,
  columns: readonly Columns[],
  rowsBy: readonly (readonly Filling[])[],
  offers: readonly Offer[],
  { sizes, counts }: Wanted,
  price: ArrayLike<number>,
  room: Room,
): Place[] {
  const left = [...counts];
  const places: Place[] = [];
  let x = 0;
  for (const { wide, depths } of listed(cut).map((column) => columns[column] as Columns)) {
    let y = 0;
    let widest = 0;
    for (const row of listed(fillingFor(depths, deep)).sort((a, b) => b - a)) {
      let [across, along] = [0, 0];
      const parts = listed(fillingFor(rowsBy[row] as readonly Filling[], wide)).map((offer) => offers[offer] as Offer);
      for (const { size, shape, wide: each, deep: depth } of parts) {
        if ((left[size] as number) === 0) continue;
        left[size] = (left[size] as number) - 1;
        places.push({ size, shape, x: x + across, y });
        across += each;
        along = Math.max(along, depth);
      }
      y += along;
      widest = Math.max(widest, across);
    }
    x += widest;
  }
  const choice = {
    sizes,
    among: distinct(offers.map(({ size }) => size)),
    left: (size: number) => left[size] as number,
  };
  return [...places, ...fillRest({ ...choice, worth: worthAt(price, room) }, places, deep - room.gap, room)];
}

/** The items of a filling, each as often as it is in it. */
const listed = (filling: Filling): number[] =>
  partsOf(filling).flatMap(({ item, times }) => new Array<number>(times).fill(item));
