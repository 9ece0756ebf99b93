import type { Ticks } from "../units/ticks.ts";
import { boundedKnapsack } from "./boundedKnapsack.ts";
import type { Place, Room, Shape, Size } from "./sizes.ts";

/** What one cut may draw on: sizes by index, how many of each are left, and how much each is wanted. */
export interface Choice {
  readonly sizes: readonly Size[];
  /** Indices of the sizes to be tried, in order. */
  readonly among: readonly number[];
  readonly left: (size: number) => number;
  /** Worth of a piece for each square tick of it; more for pieces that are hard to place later. */
  readonly worth: (size: number, shape: Shape) => number;
}

interface Column {
  readonly size: number;
  readonly shape: Shape;
  readonly times: number;
}

/** A free rectangle; like everything in this file in lengths grown by the gap, so that boxes may touch. */
interface Free {
  readonly x0: Ticks;
  readonly y0: Ticks;
  readonly x1: Ticks;
  readonly y1: Ticks;
}

/** More free rectangles than this are not kept; the smallest are given up. */
const MOST_FREE = 48;
/** Undominated fillings of the width that are kept while columns are chosen. */
const MOST_FILLINGS = 300;

/**
 * Fills one cut round a first piece: columns side by side across the roll, each of like pieces one behind another, then
 * whatever still fits into the rectangles left free.
 *
 * @param first the piece that must be in it
 * @param length of the cut, at least the first piece's along
 * @returns the places of the pieces, deepest column first; x and y in ticks from the corner of the room
 *
 * Columns are chosen by a knapsack over the width, then set down by falling length, so that the free space is a staircase.
 * Free rectangles are kept as the set of maximal ones and filled with blocks of like pieces, the most wanted size first.
 * Time O(columns x fillings + sizes x free rectangles x blocks).
 */
export function fillCut(choice: Choice, first: { size: number; shape: Shape }, length: Ticks, room: Room): Place[] {
  const [strip, deep] = [room.width + room.gap, length + room.gap];
  const used = new Map<number, number>();
  const places: Place[] = [];
  const remaining = (size: number) => choice.left(size) - (used.get(size) ?? 0);
  const put = (size: number, shape: Shape, x: Ticks, y: Ticks) => {
    used.set(size, (used.get(size) ?? 0) + 1);
    places.push({ size, shape, x, y });
  };

  const others = bestColumns(
    choice,
    (size) => choice.left(size) - (size === first.size ? 1 : 0),
    strip - first.shape.across - room.gap,
    deep,
    room.gap,
  );
  const columns: Column[] = [];
  for (const { size, shape, times } of [{ ...first, times: 1 }, ...others]) {
    const fits = Math.min(times, remaining(size));
    if (fits === 0) continue;
    used.set(size, (used.get(size) ?? 0) + fits);
    columns.push({ size, shape, times: fits });
  }
  columns.sort((a, b) => depth(b, room.gap) - depth(a, room.gap));

  let x = 0;
  const free: Free[] = [];
  for (const { size, shape, times } of columns) {
    for (let i = 0; i < times; i++) places.push({ size, shape, x, y: i * (shape.along + room.gap) });
    // Columns fall to the right, so that the space behind one is free up to the edge of the room.
    free.push({ x0: x, y0: times * (shape.along + room.gap), x1: strip, y1: deep });
    x += shape.across + room.gap;
  }
  free.push({ x0: x, y0: 0, x1: strip, y1: deep });
  fillFree(choice, remaining, put, maximalOnly(free), room.gap);
  return places;
}

/**
 * What still fits beside the pieces of a cut.
 *
 * @param choice `left` counts what may be used besides the places given
 * @param places in ticks from the corner of the room, apart by the gap
 * @param length of the cut
 * @returns further places, apart from those given and from each other
 *
 * The free space is what staircases and rows leave: maximal rectangles, found by taking one piece after another out of
 * the room; where there are many pieces, those alike in a block are taken out together.
 */
export function fillRest(choice: Choice, places: readonly Place[], length: Ticks, room: Room): Place[] {
  let free: Free[] = [{ x0: 0, y0: 0, x1: room.width + room.gap, y1: length + room.gap }];
  for (const box of blocksOf(places, room.gap)) free = without(free, box);
  const used = new Map<number, number>();
  const more: Place[] = [];
  const put = (size: number, shape: Shape, x: Ticks, y: Ticks) => {
    used.set(size, (used.get(size) ?? 0) + 1);
    more.push({ size, shape, x, y });
  };
  fillFree(choice, (size) => choice.left(size) - (used.get(size) ?? 0), put, free, room.gap);
  return more;
}

/** The grown boxes of the places, those joined that lie behind one another with the same edges, then those side by side. */
function blocksOf(places: readonly Place[], gap: Ticks): Free[] {
  const boxes = places.map(({ x, y, shape }) => ({
    x0: x,
    y0: y,
    x1: x + shape.across + gap,
    y1: y + shape.along + gap,
  }));
  const behind = joined(
    boxes,
    ({ x0, x1, y0 }) => `${x0} ${x1} ${y0}`,
    ({ x0, x1, y1 }) => `${x0} ${x1} ${y1}`,
  );
  return joined(
    behind,
    ({ x0, y0, y1 }) => `${y0} ${y1} ${x0}`,
    ({ x1, y0, y1 }) => `${y0} ${y1} ${x1}`,
  );
}

/** Joins each box to the one whose end is its start. */
function joined(boxes: readonly Free[], start: (box: Free) => string, end: (box: Free) => string): Free[] {
  const open = new Map<string, Free>();
  const sorted = [...boxes].sort((a, b) => a.x0 - b.x0 || a.y0 - b.y0);
  for (const box of sorted) {
    const before = open.get(start(box));
    if (before !== undefined) open.delete(start(box));
    const grown = before === undefined ? box : { ...before, x1: box.x1, y1: box.y1 };
    open.set(end(grown), grown);
  }
  return [...open.values()];
}

const depth = ({ shape, times }: Column, gap: Ticks): Ticks => times * (shape.along + gap);

/** The columns of like pieces that are worth most side by side in `strip`, none deeper than `deep`. */
function bestColumns(choice: Choice, left: (size: number) => number, strip: Ticks, deep: Ticks, gap: Ticks): Column[] {
  const offers: { column: Column; most: number; value: number }[] = [];
  for (const size of choice.among) {
    const count = left(size);
    if (count <= 0) continue;
    for (const shape of (choice.sizes[size] as Size).shapes) {
      if (shape.across + gap > strip || shape.along + gap > deep) continue;
      const full = Math.min(count, Math.floor(deep / (shape.along + gap)));
      const area = (shape.across + gap) * (shape.along + gap) * choice.worth(size, shape);
      offers.push({ column: { size, shape, times: full }, most: Math.floor(count / full), value: full * area });
      const rest = count % full;
      if (rest > 0) offers.push({ column: { size, shape, times: rest }, most: 1, value: rest * area });
    }
  }
  if (offers.length === 0) return [];
  const counts = boundedKnapsack(
    offers.map(({ column, most, value }) => ({ size: column.shape.across + gap, value, most })),
    strip,
    MOST_FILLINGS,
  );
  return offers.flatMap(({ column }, i) => Array.from({ length: counts[i] as number }, () => column));
}

/** Fills free rectangles with blocks of like pieces, the most wanted size first, each block where it leaves least beside it. */
function fillFree(
  choice: Choice,
  remaining: (size: number) => number,
  put: (size: number, shape: Shape, x: Ticks, y: Ticks) => void,
  rectangles: Free[],
  gap: Ticks,
): void {
  let free = rectangles;
  const wanted = choice.among
    .flatMap((size) => (choice.sizes[size] as Size).shapes.map((shape) => ({ size, shape })))
    .map((offer) => ({
      ...offer,
      value: (offer.shape.across + gap) * (offer.shape.along + gap) * choice.worth(offer.size, offer.shape),
    }))
    .sort((a, b) => b.value - a.value);
  for (const { size, shape } of wanted) {
    const [wide, deep] = [shape.across + gap, shape.along + gap];
    while (free.length > 0 && remaining(size) > 0) {
      const at = tightest(free, wide, deep);
      if (at === null) break;
      const block = blockIn(at, wide, deep, remaining(size));
      for (let column = 0; column < block.columns; column++) {
        for (let row = 0; row < block.rows; row++) put(size, shape, at.x0 + column * wide, at.y0 + row * deep);
      }
      free = without(free, {
        x0: at.x0,
        y0: at.y0,
        x1: at.x0 + block.columns * wide,
        y1: at.y0 + block.rows * deep,
      });
    }
  }
}

function blockIn({ x0, y0, x1, y1 }: Free, wide: Ticks, deep: Ticks, count: number): { columns: number; rows: number } {
  const rows = Math.min(count, Math.floor((y1 - y0) / deep));
  return { rows, columns: Math.max(1, Math.min(Math.floor((x1 - x0) / wide), Math.floor(count / rows))) };
}

function tightest(free: readonly Free[], wide: Ticks, deep: Ticks): Free | null {
  let best: Free | null = null;
  let least = Infinity;
  for (const rectangle of free) {
    const [beside, behind] = [rectangle.x1 - rectangle.x0 - wide, rectangle.y1 - rectangle.y0 - deep];
    if (beside < 0 || behind < 0) continue;
    const rest = Math.min(beside % wide, behind % deep);
    if (rest < least) [best, least] = [rectangle, rest];
  }
  return best;
}

/** The maximal free rectangles once `taken` is no longer free. */
function without(free: readonly Free[], taken: Free): Free[] {
  const next: Free[] = [];
  for (const r of free) {
    if (taken.x0 >= r.x1 || taken.x1 <= r.x0 || taken.y0 >= r.y1 || taken.y1 <= r.y0) {
      next.push(r);
      continue;
    }
    if (taken.x0 > r.x0) next.push({ ...r, x1: taken.x0 });
    if (taken.x1 < r.x1) next.push({ ...r, x0: taken.x1 });
    if (taken.y0 > r.y0) next.push({ ...r, y1: taken.y0 });
    if (taken.y1 < r.y1) next.push({ ...r, y0: taken.y1 });
  }
  return maximalOnly(next);
}

function maximalOnly(free: readonly Free[]): Free[] {
  const sorted = free
    .filter(({ x0, y0, x1, y1 }) => x0 < x1 && y0 < y1)
    .sort((a, b) => (b.x1 - b.x0) * (b.y1 - b.y0) - (a.x1 - a.x0) * (a.y1 - a.y0));
  const kept: Free[] = [];
  for (const r of sorted) {
    if (kept.length === MOST_FREE) break;
    if (!kept.some((k) => k.x0 <= r.x0 && k.y0 <= r.y0 && k.x1 >= r.x1 && k.y1 >= r.y1)) kept.push(r);
  }
  return kept;
}
