import type { Random } from "../model/run.ts";
import { nestByPatterns, type PatternEffort } from "./cutPatterns.ts";
import { fillRest } from "./fillCut.ts";
import { fillCuts, straight, type Worth } from "./fillCuts.ts";
import { lengthBound } from "./lengthBound.ts";
import { type CutPattern, type Room, type Size, totalLength } from "./sizes.ts";

export { totalLength };

/** How hard a search may try. */
export interface Effort {
  /** Times that part of the incumbent may be taken apart and made again. */
  readonly rounds: number;
  readonly random: Random;
  readonly stop: () => boolean;
  /** A search by patterns after that; left out, or with few rounds, none. */
  readonly patterns?: Omit<PatternEffort, "stop">;
}

/** Cuts filled again in one search: what bounds its time on jobs of thousands of different sizes. */
const MOST_FILLED = 3000;
/** A search of fewer rounds is meant to be quick: no patterns are sought after it. */
const ROUNDS_FOR_PATTERNS = 20;

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
 * together no longer. Ends early when `lengthBound` is met, which proves the least length. With `effort.patterns`, column
 * generation then starts from the result (`nestByPatterns`), and what it finds is kept where it is shorter.
 *
 * Time O(cuts x (columns x fillings)) a pass; distinct patterns, not copies, count. Ties: sizes in the given order; equal
 * input and equal seed give equal output.
 */
export function nestInCuts(sizes: readonly Size[], room: Room, effort: Effort): CutPattern[] {
  const counts = sizes.map(({ count }) => count);
  let best = merged(fillCuts(sizes, counts, room, straight));
  const due = sizes.filter((size) => size.due);
  const bound = lengthBound(due, room);
  let bestLength = totalLength(best, room.gap);
  let bestFiller = fillerArea(best, sizes);
  const keepIfBetter = (candidate: CutPattern[]) => {
    const length = totalLength(candidate, room.gap);
    if (length > bestLength) return;
    const filler = fillerArea(candidate, sizes);
    if (length === bestLength && filler < bestFiller) return;
    [best, bestLength, bestFiller] = [candidate, length, filler];
  };
  const proven = () => bestLength <= bound + 1e-6 * bound;
  let filled = best.length;
  for (let round = 0; round < effort.rounds && best.length > 1; round++) {
    if (proven() && round >= 1) break;
    if (filled > MOST_FILLED || effort.stop()) break;
    const { kept, taken } = takeApart(best, sizes.length, effort.random);
    const spare = leftOver(counts, best, sizes);
    const again = fillCuts(
      sizes,
      taken.map((count, size) => count + (spare[size] as number)),
      room,
      perturbed(effort.random, sizes.length),
    );
    filled += again.length;
    keepIfBetter(merged([...kept, ...again]));
  }
  if (effort.patterns !== undefined && effort.rounds >= ROUNDS_FOR_PATTERNS && !proven() && !effort.stop()) {
    const { patterns } = nestByPatterns(sizes, room, best, { ...effort.patterns, stop: effort.stop });
    keepIfBetter(merged(withFillers(patterns, sizes, room)));
  }
  return [...best].sort((a, b) => b.length - a.length);
}

/** The same cuts with fillers in their gaps: a cut used several times takes the same ones for as long as they last. */
function withFillers(patterns: readonly CutPattern[], sizes: readonly Size[], room: Room): CutPattern[] {
  const among = sizes.flatMap(({ due }, size) => (due ? [] : [size]));
  if (among.length === 0) return [...patterns];
  const left = sizes.map(({ count }) => count);
  const choice = { sizes, among, left: (size: number) => left[size] as number, worth: () => 1 };
  return patterns.flatMap((pattern) => {
    const filled: CutPattern[] = [];
    for (let unfilled = pattern.times; unfilled > 0; ) {
      const more = fillRest(choice, pattern.places, pattern.length, room);
      const used = new Map<number, number>();
      for (const { size } of more) used.set(size, (used.get(size) ?? 0) + 1);
      let times = unfilled;
      for (const [size, uses] of used) times = Math.min(times, Math.floor((left[size] as number) / uses));
      for (const [size, uses] of used) left[size] = (left[size] as number) - times * uses;
      filled.push({ length: pattern.length, places: [...pattern.places, ...more], times });
      unfilled -= times;
    }
    return filled;
  });
}

function perturbed(random: Random, count: number): (sizes: readonly Size[]) => Worth {
  const power = random() * 1.5;
  const factors = Array.from({ length: count }, () => 0.6 + 0.8 * random());
  return (sizes) => (size, shape) => {
    const worth = shape.along ** power * (factors[size] as number);
    return (sizes[size] as Size).due ? worth : worth / 1e6;
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
