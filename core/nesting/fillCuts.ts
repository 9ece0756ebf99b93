import { fillCut } from "./fillCut.ts";
import { type CutPattern, type Room, type Shape, type Size, shortestAlong } from "./sizes.ts";

/** Sizes tried for one cut: as many of the next longest, and as many spread over the rest. */
const NEXT_LONGEST = 72;
const SPREAD = 40;

/** How much a piece is wanted in a cut, for each square tick of it. */
export type Worth = (size: number, shape: Shape) => number;

/** Long pieces first: a piece left over opens a cut as long as itself. */
export const straight =
  (sizes: readonly Size[]): Worth =>
  (size, shape) =>
    (sizes[size] as Size).due ? shape.along : shape.along / 1e6;

/**
 * Lays pieces in cuts by first fit: the longest piece left opens a cut, the cut is filled round it and used as often as
 * the counts allow.
 *
 * @param counts how many of each size are to be laid; those that are not due only fill gaps
 * @returns cut patterns in the order made; every due piece in exactly one use
 *
 * Time O(cuts x (columns x fillings)); patterns count, not copies.
 */
export function fillCuts(
  sizes: readonly Size[],
  counts: readonly number[],
  room: Room,
  worthOf: (sizes: readonly Size[]) => Worth,
): CutPattern[] {
  const left = [...counts];
  const order = sizes.map((_, i) => i).filter((i) => (counts[i] as number) > 0);
  const along = sizes.map(shortestAlong);
  order.sort((a, b) => (along[b] as number) - (along[a] as number) || a - b);
  const next = skipper(order.length, (rank) => (left[order[rank] as number] as number) > 0);
  const worth = worthOf(sizes);
  const patterns: CutPattern[] = [];
  let opener = next(0);
  while (opener < order.length) {
    const size = order[opener] as number;
    if (!(sizes[size] as Size).due) {
      opener = next(opener + 1);
      continue;
    }
    const shape = openingShape(sizes[size] as Size);
    const places = fillCut(
      { sizes, among: amongst(order, opener, next), left: (i) => left[i] as number, worth },
      { size, shape },
      shape.along,
      room,
    );
    const used = new Map<number, number>();
    for (const place of places) used.set(place.size, (used.get(place.size) ?? 0) + 1);
    let times = Infinity;
    for (const [i, uses] of used) times = Math.min(times, Math.floor((left[i] as number) / uses));
    for (const [i, uses] of used) left[i] = (left[i] as number) - times * uses;
    patterns.push({ length: shape.along, places, times });
    opener = next(0);
  }
  return patterns;
}

/** The shape with the least along; of equals the widest, which leaves the smaller rest. */
function openingShape({ shapes }: Size): Shape {
  return shapes.reduce((best, shape) =>
    shape.along < best.along || (shape.along === best.along && shape.across > best.across) ? shape : best,
  );
}

/** Sizes worth trying in a cut: fillers too, so all that are left when they are few, else the next longest and a spread. */
function amongst(order: readonly number[], opener: number, next: (rank: number) => number): number[] {
  const ranks = new Set<number>();
  let rank = next(0);
  for (; rank < order.length && ranks.size < NEXT_LONGEST; rank = next(rank + 1)) ranks.add(rank);
  ranks.add(opener);
  const step = Math.max(1, (order.length - rank) / SPREAD);
  for (let at = rank; at < order.length; at += step) {
    const alive = next(Math.floor(at));
    if (alive < order.length) ranks.add(alive);
  }
  return [...ranks].map((r) => order[r] as number);
}

/** The first rank at or after one at which something is left; skips what is used up in nearly constant time. */
function skipper(length: number, alive: (rank: number) => boolean): (rank: number) => number {
  const jump = Int32Array.from({ length: length + 1 }, (_, i) => i);
  return (start) => {
    let rank = Math.min(start, length);
    while (rank < length) {
      const target = jump[rank] as number;
      if (target !== rank) rank = target;
      else if (alive(rank)) break;
      else {
        jump[rank] = rank + 1;
        rank += 1;
      }
    }
    for (let walk = Math.min(start, length); walk < rank; ) {
      const target = jump[walk] as number;
      if (target === walk) break;
      jump[walk] = rank;
      walk = target;
    }
    return rank;
  };
}
