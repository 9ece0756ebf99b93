import type { Random } from "../model/run.ts";
import type { Ticks } from "../units/ticks.ts";
import { fillCut } from "./fillCut.ts";
import { lengthBound } from "./lengthBound.ts";
import { type CutPattern, type Room, type Shape, type Size, shortestAlong } from "./sizes.ts";

/** How hard a search may try. */
export interface Effort {
  /** Times that part of the incumbent may be taken apart and made again. */
  readonly rounds: number;
  readonly random: Random;
  readonly stop: () => boolean;
}

/** Sizes tried for one cut: as many of the next longest, and as many spread over the rest. */
const NEXT_LONGEST = 72;
const SPREAD = 40;
/** Cuts filled again in one search: what bounds its time on jobs of thousands of different sizes. */
const MOST_FILLED = 3000;

/**
 * Lays counted pieces in cuts across a roll so that the cuts together are short.
 *
 * @param sizes any order; every shape fits the room; pieces that are not `due` are only used to fill gaps
 * @param room printable width and gap, ticks
 * @returns cut patterns, longest first; every due piece in exactly one of their uses, the others in at most one
 *
 * First fit by falling length in the form that suits counted pieces: the longest piece left opens a cut, the cut is filled
 * round it by a knapsack over the width and into the free rectangles (`fillCut`), and is used as often as the counts allow.
 * Then ruin and recreate (Schrimpf, Schneider, Stamm-Wilbrandt and Dueck 2000, Journal of Computational Physics 159(2),
 * 139-171): some cuts are taken apart and their pieces laid again with other worths; the result is kept when the cuts are
 * together no longer. Ends early when `lengthBound` is met, which proves the least length.
 *
 * Time O(cuts x (columns x fillings)) a pass; distinct patterns, not copies, count. Ties: sizes in the given order; equal
 * input and equal seed give equal output.
 */
export function nestInCuts(sizes: readonly Size[], room: Room, effort: Effort): CutPattern[] {
  const counts = sizes.map(({ count }) => count);
  let best = merged(fillAll(sizes, counts, room, straight));
  const due = sizes.filter((size) => size.due);
  const bound = lengthBound(due, room);
  let bestLength = totalLength(best, room.gap);
  let bestFiller = fillerArea(best, sizes);
  let filled = best.length;
  for (let round = 0; round < effort.rounds && best.length > 1; round++) {
    if (bestLength <= bound + 1e-6 * bound && round >= 1) break;
    if (filled > MOST_FILLED || effort.stop()) break;
    const { kept, taken } = takeApart(best, sizes.length, effort.random);
    const spare = leftOver(counts, best, sizes);
    const again = fillAll(
      sizes,
      taken.map((count, size) => count + (spare[size] as number)),
      room,
      perturbed(effort.random, sizes.length),
    );
    filled += again.length;
    const candidate = merged([...kept, ...again]);
    const length = totalLength(candidate, room.gap);
    if (length > bestLength) continue;
    const filler = fillerArea(candidate, sizes);
    if (length === bestLength && filler < bestFiller) continue;
    [best, bestLength, bestFiller] = [candidate, length, filler];
  }
  return [...best].sort((a, b) => b.length - a.length);
}

/** Length of all cuts, each with one gap. */
export const totalLength = (patterns: readonly CutPattern[], gap: Ticks): Ticks =>
  patterns.reduce((sum, { length, times }) => sum + times * (length + gap), 0);

type Worth = (size: number, shape: Shape) => number;

/** Long pieces first: a piece left over opens a cut as long as itself. */
const straight =
  (sizes: readonly Size[]): Worth =>
  (size, shape) =>
    (sizes[size] as Size).due ? shape.along : shape.along / 1e6;

function perturbed(random: Random, count: number): (sizes: readonly Size[]) => Worth {
  const power = random() * 1.5;
  const factors = Array.from({ length: count }, () => 0.6 + 0.8 * random());
  return (sizes) => (size, shape) => {
    const worth = shape.along ** power * (factors[size] as number);
    return (sizes[size] as Size).due ? worth : worth / 1e6;
  };
}

function fillAll(
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

/** Takes out some patterns, of a pattern used many times perhaps only a part, and counts the pieces set free. */
function takeApart(
  patterns: readonly CutPattern[],
  sizeCount: number,
  random: Random,
): { kept: CutPattern[]; taken: number[] } {
  const share = 0.15 + 0.5 * random();
  const taken = new Array<number>(sizeCount).fill(0);
  const kept: CutPattern[] = [];
  for (const pattern of patterns) {
    if (random() > share) {
      kept.push(pattern);
      continue;
    }
    const times = random() < 0.5 ? pattern.times : Math.ceil(pattern.times * random());
    for (const { size } of pattern.places) taken[size] = (taken[size] as number) + times;
    if (times < pattern.times) kept.push({ ...pattern, times: pattern.times - times });
  }
  return { kept, taken };
}

/** Fillers that lie nowhere yet. */
function leftOver(counts: readonly number[], patterns: readonly CutPattern[], sizes: readonly Size[]): number[] {
  if (sizes.every(({ due }) => due)) return counts.map(() => 0);
  const left = [...counts];
  for (const { places, times } of patterns) for (const { size } of places) left[size] = (left[size] as number) - times;
  return left;
}

function fillerArea(patterns: readonly CutPattern[], sizes: readonly Size[]): number {
  if (sizes.every(({ due }) => due)) return 0;
  let area = 0;
  for (const { places, times } of patterns) {
    for (const { size, shape } of places) {
      if (!(sizes[size] as Size).due) area += times * shape.across * shape.along;
    }
  }
  return area;
}

/** Patterns that place the same are one. */
function merged(patterns: readonly CutPattern[]): CutPattern[] {
  const byPlaces = new Map<string, CutPattern>();
  for (const pattern of patterns) {
    const key = pattern.places.map(({ size, x, y, shape }) => `${size},${x},${y},${shape.turn}`).join(" ");
    const known = byPlaces.get(key);
    byPlaces.set(key, known === undefined ? pattern : { ...known, times: known.times + pattern.times });
  }
  return [...byPlaces.values()];
}
