import type { Instance } from "../model/instance.ts";
import type { Random } from "../model/run.ts";
import { nestInStrip } from "../nesting/nestInStrip.ts";
import type { Room } from "../nesting/sizes.ts";
import type { StripEffort, StripPlace, StripSize } from "../nesting/strip.ts";
import { fillLength } from "../nesting/stripSearch.ts";
import type { Ticks } from "../units/ticks.ts";
import type { DraftLoad } from "./draft.ts";
import type { DraftCut } from "./handOut.ts";
import { compareRanks, type Item } from "./neighbours.ts";
import type { Stack } from "./stacks.ts";
import { afterLoad, roomInLoad, type Supply } from "./supply.ts";

/** Pieces times ways to lie that one nesting may look at: what bounds its time. */
const MOST_LOOKS = 12_000_000;
/** A filling tells apart about so many ways to lie, and never more than there are pieces and shapes. */
const MOST_WAYS = 512;
const MOST_FILLINGS = 2_000;
const FEWEST_FILLINGS = 8;

/** Areas nearer than this are equal: beyond 2^53 square ticks products are rounded. */
const SAME = 1e-9;

/** How hard one nesting may try. */
export interface FreeEffort {
  readonly random: Random;
  readonly stop: () => boolean;
  /** Fillings that the caller allows at most; null for no limit of his own. */
  readonly work: number | null;
}

/** Where pieces may go that are free to change among some loads of one width. */
export interface Pool {
  readonly room: Room;
  readonly width: Ticks;
  /** What lies on the loads now, as stacks with nothing but that. */
  readonly stacks: readonly Stack[];
  /** The loads as they are. */
  readonly loads: readonly DraftLoad[];
  /** The film with these loads given back. */
  readonly supply: Supply;
}

/**
 * Lays the pieces of some loads anywhere within the printable width, on the same rolls or fewer of them.
 *
 * @returns the loads, stock first and the longest first among them; null when they would not take all pieces
 *
 * Grown by the gap to the right and forward, pieces that are the gap apart across or along are disjoint in a strip of
 * width + gap. Load after load is filled as full as can be; the last one is made short.
 */
export function freeLoads(instance: Instance, pool: Pool, effort: FreeEffort): DraftLoad[] | null {
  const { leader, trailer } = instance.rules;
  const { room, width } = pool;
  let left = pool.stacks;
  let supply = pool.supply;
  const loads: DraftLoad[] = [];
  for (const stock of rollsOf(instance, pool)) {
    if (left.length === 0) break;
    const length = roomInLoad(instance, supply.film, lengthLeft(supply, stock));
    const strip = { width: room.width + room.gap, sizes: left.map((stack) => grown(stack, room)) };
    const { random } = effort;
    const stop = (): (() => boolean) => countedStop(left, effort);
    // Areas are not exact; where they are equal it is tried.
    const whole = areaOf(strip.sizes) <= strip.width * (length + room.gap) * (1 + SAME);
    let places: readonly StripPlace[] = whole ? nestInStrip(strip, { random, stop: stop() }).places : [];
    const ends = Math.max(0, ...places.map(({ shape, y }) => y + shape.along)) - room.gap;
    if (!whole || ends > length) places = fillLength(strip, length + room.gap, { random, stop: stop() });
    if (places.length === 0) continue;
    const laid = laidOut(places, left, room);
    const used = leader + trailer + laid.cuts.reduce((sum, cut) => sum + cut.length + room.gap, -room.gap);
    loads.push({ stock, width, used, cuts: laid.cuts });
    supply = afterLoad(supply, stock, used);
    left = laid.rest;
  }
  return left.length === 0 ? loads : null;
}

/** Each load's roll once more: stock first, the longest first. */
function rollsOf(instance: Instance, { loads, supply }: Pool): DraftLoad["stock"][] {
  const length = (stock: DraftLoad["stock"]): Ticks => roomInLoad(instance, supply.film, lengthLeft(supply, stock));
  return loads
    .map(({ stock }) => stock)
    .sort((a, b) => Number(a === null) - Number(b === null) || (length(a) === length(b) ? 0 : length(b) - length(a)));
}

const lengthLeft = ({ film, stock }: Supply, roll: DraftLoad["stock"]): Ticks =>
  roll === null ? (film.rollLength ?? Infinity) : (stock.find(({ entry }) => entry === roll)?.left ?? 0);

const grown = ({ shapes, items }: Stack, { width, gap }: Room): StripSize => ({
  shapes: shapes
    .filter(({ across }) => across <= width)
    .map(({ across, along, turn }) => ({ across: across + gap, along: along + gap, turn })),
  count: items.length,
});

const areaOf = (sizes: readonly StripSize[]): number =>
  sizes.reduce(
    (sum, { shapes: [shape], count }) => sum + count * (shape === undefined ? 0 : shape.across * shape.along),
    0,
  );

/** True once so many fillings are made as these pieces allow, or the caller says so. */
function countedStop(stacks: readonly Stack[], { stop, work }: FreeEffort): StripEffort["stop"] {
  const pieces = stacks.reduce((sum, { items }) => sum + items.length, 0);
  const looks = pieces * Math.min(MOST_WAYS, 2 * pieces);
  let fillings = Math.min(MOST_FILLINGS, Math.max(FEWEST_FILLINGS, Math.floor(MOST_LOOKS / looks)));
  if (work !== null) fillings = Math.min(fillings, work);
  return () => --fillings < 0 || stop();
}

/** Gives each place its copy, along the roll, and cuts wherever a straight line across passes between pieces. */
function laidOut(
  places: readonly StripPlace[],
  stacks: readonly Stack[],
  { gap }: Room,
): { cuts: DraftCut[]; rest: Stack[] } {
  const next = stacks.map(() => 0);
  const cuts: DraftCut[] = [];
  let pieces: DraftCut["pieces"][number][] = [];
  let [start, end] = [0, 0];
  const close = (): void => {
    if (pieces.length === 0) return;
    const first = pieces.reduce((a, b) => (compareRanks(b.item.rank, a.item.rank) < 0 ? b : a));
    cuts.push({ length: end - gap - start, pieces, pattern: cuts.length, rank: first.item.rank });
    pieces = [];
  };
  for (const { size, shape, x, y } of [...places].sort((a, b) => a.y - b.y || a.x - b.x)) {
    if (y >= end) {
      close();
      start = y;
    }
    const item = (stacks[size] as Stack).items[next[size] as number] as Item;
    next[size] = (next[size] as number) + 1;
    const own = { across: shape.across - gap, along: shape.along - gap, turn: shape.turn };
    pieces.push({ item, shape: own, x, y: y - start });
    end = Math.max(end, y + shape.along);
  }
  close();
  const rest = stacks.map(({ shapes, items }, size) => ({ shapes, items: items.slice(next[size]) }));
  return { cuts, rest: rest.filter(({ items }) => items.length > 0) };
}
