import type { Random } from "../model/run.ts";
import type { Ticks } from "../units/ticks.ts";
import type { Shape } from "./sizes.ts";
import { type Bunch, type Filler, type Laid, type Lying, skylineFiller } from "./skyline.ts";
import type { Strip, StripEffort, StripSize } from "./strip.ts";

/** So many bunches are told apart in an order; beyond, like pieces stand together. */
const MOST_BUNCHES = 256;
/** A length is given up after so many fillings that brought no more area inside, or so many times the pairs to swap. */
const PATIENCE = 4000;
const TIMES_EACH_PAIR = 20;
/** A change is accepted that is no worse than the incumbent, or than the one so many fillings ago. */
const MEMORY = 5;
/** After so many lengths given up, one is tried with fillings that go by the order alone, for what fit never finds. */
const PLAIN_EACH = 5;
/** The first length tried is this part of the way from the incumbent to the bound. */
const FIRST_STEP = 1 / 4;
/** Lengths nearer than this share of the whole are not told apart. */
const LEAST_STEP = 1e-5;

interface Found {
  readonly length: Ticks;
  readonly places: readonly Laid[];
}

/**
 * Searches for a short nesting in a strip.
 *
 * @param bound no nesting is shorter, so that the search ends there
 * @returns the shortest nesting found, in the order laid
 *
 * First the skyline is filled in some sorted orders without an end of the strip. Then the length is tightened: the pieces
 * are to fill a rectangle shorter than the incumbent; a local search swaps two places in the order and keeps what leaves
 * less area outside, by late acceptance (Burke and Bykov 2017, European Journal of Operational Research 258(1), 70-78).
 * When all lie inside, that is the new incumbent; after enough fillings in vain a longer rectangle is tried. The
 * rectangle is filled from its start and from its side by turns, since what is hard the one way may be easy the other.
 * A filling ends as soon as it has lost more area than would be accepted.
 *
 * Time is the caller's: `stop` is asked before each filling. Ties: the earlier.
 */
export function stripSearch(strip: Strip, bound: Ticks, { random, stop }: StripEffort): Found {
  const bunches = bunchesOf(strip.sizes);
  const upright = skylineFiller(strip.sizes, bunches);
  const starts = sortedOrders(upright.lyings);
  let best = openFilling(upright, strip.width, starts, stop);
  if (best.length <= bound) return best;
  const lying = skylineFiller(strip.sizes.map(onItsSide), bunches);

  let step = Math.floor((best.length - bound) * FIRST_STEP);
  for (let failures = 0; best.length > bound && !stop(); ) {
    step = Math.max(1, step, Math.floor(best.length * LEAST_STEP));
    const length = Math.max(bound, best.length - step);
    const sideways = failures % 2 === 1;
    const byFit = failures % PLAIN_EACH !== PLAIN_EACH - 1;
    const fill = (order: Int32Array, limit: number): number =>
      sideways
        ? lying.fill(order, length, strip.width, limit, byFit)
        : upright.fill(order, strip.width, length, limit, byFit);
    const start = failures % 4 < 2 ? bestOrder(starts, fill, stop) : pick(starts, random);
    if (fullest(start, fill, random, stop).outside === 0) {
      best = sideways ? stoodUp(lying.laid()) : { length: upright.top(), places: upright.laid() };
    } else {
      failures++;
      step = Math.floor(step / 2);
    }
  }
  return best;
}

/**
 * Fills a part of a strip as full as can be.
 *
 * @param length of the part; pieces that it does not take stay outside
 * @returns the pieces inside, in the order laid
 *
 * One local search as in `stripSearch`. Ends when all lie inside, after enough fillings in vain or when stopped.
 */
export function fillLength({ width, sizes }: Strip, length: Ticks, { random, stop }: StripEffort): readonly Laid[] {
  const filler = skylineFiller(sizes, bunchesOf(sizes));
  const fill = (order: Int32Array, limit: number): number => filler.fill(order, width, length, limit, true);
  const start = bestOrder(sortedOrders(filler.lyings), fill, stop);
  fill(fullest(start, fill, random, stop).order, Infinity);
  return filler.laid();
}

/** Swaps places in the order to leave less outside, until nothing is or that seems too hard or the search is stopped. */
function fullest(
  start: Int32Array,
  fill: (order: Int32Array, limit: number) => number,
  random: Random,
  stop: () => boolean,
): { order: Int32Array; outside: number } {
  const order = Int32Array.from(start);
  let outside = fill(order, Infinity);
  if (outside === 0 || order.length < 2) return { order, outside };
  const remembered = new Float64Array(MEMORY).fill(outside);
  const best = { order: Int32Array.from(order), outside };
  const patience = Math.min(PATIENCE, (TIMES_EACH_PAIR * order.length * (order.length - 1)) / 2);
  let vain = 0;
  for (let turn = 0; vain < patience && !stop(); turn = (turn + 1) % MEMORY) {
    const i = Math.floor(random() * order.length);
    const other = Math.floor(random() * (order.length - 1));
    const k = other < i ? other : other + 1;
    swap(order, i, k);
    const limit = Math.max(outside, remembered[turn] as number);
    const now = fill(order, limit);
    if (now <= limit) outside = now;
    else swap(order, i, k);
    remembered[turn] = Math.min(remembered[turn] as number, outside);
    vain++;
    if (outside < best.outside) {
      best.order.set(order);
      best.outside = outside;
      if (outside === 0) break;
      vain = 0;
    }
  }
  return best;
}

function swap(order: Int32Array, i: number, k: number): void {
  const kept = order[i] as number;
  order[i] = order[k] as number;
  order[k] = kept;
}

/** The shortest of the fillings of a strip without end; at least one is made, whatever `stop` says. */
function openFilling(filler: Filler, width: Ticks, orders: readonly Int32Array[], stop: () => boolean): Found {
  let best: Found | null = null;
  for (const order of orders) {
    if (best !== null && stop()) break;
    filler.fill(order, width, Infinity, Infinity, true);
    if (best === null || filler.top() < best.length) best = { length: filler.top(), places: filler.laid() };
  }
  return best as Found;
}

/** The order that leaves least outside. */
function bestOrder(
  orders: readonly Int32Array[],
  fill: (order: Int32Array, limit: number) => number,
  stop: () => boolean,
): Int32Array {
  let best = orders[0] as Int32Array;
  let least = Infinity;
  for (const order of orders) {
    if (stop()) break;
    const outside = fill(order, Infinity);
    if (outside < least) [best, least] = [order, outside];
    if (outside === 0) break;
  }
  return best;
}

const pick = (orders: readonly Int32Array[], random: Random): Int32Array =>
  orders[Math.floor(random() * orders.length)] as Int32Array;

/** Like pieces one by one while they are few, else in bunches of equal count. */
function bunchesOf(sizes: readonly StripSize[]): Bunch[] {
  const pieces = sizes.reduce((sum, { count }) => sum + count, 0);
  const most = Math.max(1, Math.ceil(pieces / MOST_BUNCHES));
  return sizes.flatMap(({ count }, size) =>
    Array.from({ length: Math.ceil(count / most) }, (_, k) => ({ size, count: Math.min(most, count - k * most) })),
  );
}

/** By falling width, length, area, girth and longer side; the first is the order of Burke, Kendall and Whitwell. */
function sortedOrders(lyings: readonly Lying[]): Int32Array[] {
  const keys: ((shape: Shape) => readonly [number, number])[] = [
    ({ across, along }) => [across, along],
    ({ across, along }) => [along, across],
    ({ across, along }) => [across * along, along],
    ({ across, along }) => [across + along, along],
    ({ across, along }) => [Math.max(across, along), along],
  ];
  return keys.map((key) => {
    const keyed = lyings.map(({ shape }) => key(shape));
    const order = Int32Array.from(lyings.keys());
    return order.sort((a, b) => {
      const [p, q] = [keyed[a] as (typeof keyed)[number], keyed[b] as (typeof keyed)[number]];
      return q[0] - p[0] || q[1] - p[1] || a - b;
    });
  });
}

const turnedOver = (shape: Shape): Shape => ({ ...shape, across: shape.along, along: shape.across });

const onItsSide = ({ shapes, count }: StripSize): StripSize => ({ shapes: shapes.map(turnedOver), count });

/** A filling from the side, put upright: across and along change places. */
function stoodUp(laid: readonly Laid[]): Found {
  const places = laid.map(({ size, shape, x, y }) => ({ size, shape: turnedOver(shape), x: y, y: x }));
  return { length: Math.max(...places.map(({ shape, y }) => y + shape.along)), places };
}
