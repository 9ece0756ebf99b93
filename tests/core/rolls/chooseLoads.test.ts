import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { Film } from "../../../core/model/instance.ts";
import { chooseLoads, type LoadAnswer, loadChooser } from "../../../core/rolls/chooseLoads.ts";
import { fillLoads, scrapOf } from "../../../core/rolls/fillLoads.ts";
import { fewestLoadsBound } from "../../../core/rolls/loadBound.ts";
import type { LoadQuestion, Reel } from "../../../core/rolls/loadProgramme.ts";
import { packLoads } from "../../../core/rolls/packLoads.ts";
import { supplyOf } from "../../../core/rolls/supply.ts";
import { highs } from "../../support/highs.ts";
import { film, job, roll, rules } from "./jobs.ts";

const question = (lengths: number[], reels: Reel[], over: Partial<LoadQuestion> = {}): LoadQuestion => ({
  lengths,
  gap: 1,
  ends: 15,
  maxRun: Infinity,
  reels,
  keepLength: null,
  ...over,
});
const bought = (left: number, count = Infinity): Reel => ({ bought: true, left, count });
const stocked = (left: number, count = 1): Reel => ({ bought: false, left, count });

/** What each load takes, leader, gaps and trailer included. */
const usedOf = ({ lengths, gap, ends }: LoadQuestion, cuts: readonly number[]): number =>
  cuts.reduce((sum, cut) => sum + (lengths[cut] as number) + gap, ends - gap);

/** Loads, length from bought reels, and scrap of an answer. */
function worth(asked: LoadQuestion, answer: LoadAnswer): [number, number, number] {
  if (answer.status !== "packed") throw new Error(answer.status);
  const taken = answer.loads.map(({ reel, cuts }) => ({ reel: asked.reels[reel] as Reel, used: usedOf(asked, cuts) }));
  const sum = (amountOf: (load: (typeof taken)[number]) => number) => taken.reduce((s, load) => s + amountOf(load), 0);
  return [
    taken.length,
    sum(({ reel, used }) => (reel.bought ? used : 0)),
    sum(({ reel, used }) => (reel.left - used < (asked.keepLength ?? 0) ? reel.left - used : 0)),
  ];
}

/** The same by trying every load for every cut; null when there is no way. Each reel is one load. */
function bruteForce(asked: LoadQuestion): [number, number, number] | null {
  const { lengths, gap, ends, keepLength } = asked;
  const loads = asked.reels.flatMap(({ left, count, bought }) =>
    Array.from({ length: Math.min(count, lengths.length) }, () => ({ bought, left, used: ends - gap, cuts: 0 })),
  );
  let best: [number, number, number] | null = null;
  const better = (a: [number, number, number]) => best === null || lexLess(a, best);
  const lay = (cut: number): void => {
    if (cut === lengths.length) {
      const open = loads.filter(({ cuts }) => cuts > 0);
      const length = open.reduce((sum, load) => sum + (load.bought ? load.used : 0), 0);
      const scrap = open.reduce((sum, { left, used }) => sum + (left - used < (keepLength ?? 0) ? left - used : 0), 0);
      if (better([open.length, length, scrap])) best = [open.length, length, scrap];
      return;
    }
    for (const load of loads) {
      const more = (lengths[cut] as number) + gap;
      if (load.used + more > load.left) continue;
      load.used += more;
      load.cuts++;
      lay(cut + 1);
      load.used -= more;
      load.cuts--;
    }
  };
  lay(0);
  return best;
}

const lexLess = (a: readonly number[], b: readonly number[]): boolean => {
  const differing = a.findIndex((value, i) => value !== b[i]);
  return differing >= 0 && (a[differing] as number) < (b[differing] as number);
};

describe("which loads", () => {
  test("two loads of 100 hold 50, 34, 34, 50 where 15 are lost: 50 + 1 + 34 = 85 on each", () => {
    const asked = question([50, 34, 34, 50], [bought(100)]);
    const answer = chooseLoads(asked, 1, 4);
    expect(worth(asked, answer)).toEqual([2, 170 + 30, 0]);
    expect(answer).toMatchObject({ proven: true });
  });

  test("one tick less on the reel and there is no way with two", () => {
    expect(chooseLoads(question([50, 34, 34, 50], [bought(99)]), 1, 2)).toEqual({ status: "none" });
  });

  test("of equally many loads the one that takes least from new rolls: the offcut of 66 takes 50, not 34", () => {
    const asked = question([50, 34], [stocked(66), bought(100)]);
    // Together they take 15 + 85 of a new roll: one load. With 99 on it, two: 15 + 34 of the new one.
    expect(worth(asked, chooseLoads(asked, 1, 2))).toEqual([1, 100, 0]);
    const shorter = question([50, 34], [stocked(66), bought(99)]);
    expect(worth(shorter, chooseLoads(shorter, 1, 2))).toEqual([2, 49, 0]);
  });

  test("of those the one that leaves least scrap: 65 on the 80 leaves 15, on the 100 it leaves 35 worth keeping", () => {
    const asked = question([50], [stocked(80), stocked(100)], { keepLength: 30 });
    expect(chooseLoads(asked, 1, 1)).toMatchObject({ loads: [{ reel: 1 }], proven: true });
    // From 36 on neither rest is worth keeping, so the shorter one is thrown away.
    const more = question([50], [stocked(80), stocked(100)], { keepLength: 36 });
    expect(chooseLoads(more, 1, 1)).toMatchObject({ loads: [{ reel: 0 }], proven: true });
  });

  test("a reel longer than one run is loaded again while it lasts", () => {
    // Runs of 65 hold one cut of 50; 65 + 65 + 65 = 195.
    expect(chooseLoads(question([50, 50, 50], [stocked(195)], { maxRun: 65 }), 1, 3)).toMatchObject({
      loads: [{ reel: 0 }, { reel: 0 }, { reel: 0 }],
    });
    expect(chooseLoads(question([50, 50, 50], [stocked(194)], { maxRun: 65 }), 1, 3)).toEqual({ status: "none" });
  });

  test("what is too large is not asked", () => {
    const cuts = Array.from({ length: 60 }, (_, i) => 10 + i);
    expect(chooseLoads(question(cuts, [bought(1000)]), 1, 60, highs)).toEqual({ status: "unknown" });
    expect(chooseLoads(question(new Array(101).fill(10), [bought(20)]), 1, 101, highs)).toEqual({ status: "unknown" });
  });

  test("one laying asks the same question once, and no more than a dozen", () => {
    let calls = 0;
    const choose = loadChooser(
      (programme, limit) => {
        calls++;
        return highs(programme, limit);
      },
      () => false,
    );
    const long = (k: number) =>
      question(
        Array.from({ length: 12 }, (_, i) => 20 + i + k),
        [bought(100)],
      );
    const first = choose(long(0), 3, 12);
    expect([first.status, calls]).toEqual(["packed", 1]);
    expect(choose(long(0), 3, 12)).toBe(first);
    for (let k = 1; k < 20; k++) choose(long(k), 3, 12);
    expect(calls).toBe(12);
    expect(choose(long(19), 3, 12)).toEqual({ status: "unknown" });
  });

  test("agrees with trying every load for every cut, by both engines", () => {
    const asked = fc
      .record({
        lengths: fc.array(fc.integer({ min: 5, max: 40 }), { minLength: 1, maxLength: 5 }),
        stock: fc.array(fc.integer({ min: 15, max: 90 }), { maxLength: 2 }),
        left: fc.integer({ min: 25, max: 120 }),
        newRolls: fc.integer({ min: 0, max: 3 }),
        keepLength: fc.option(fc.integer({ min: 1, max: 50 })),
      })
      .map(({ lengths, stock, left, newRolls, keepLength }) =>
        question(lengths, [...stock.map((length) => stocked(length)), bought(left, newRolls)], { keepLength }),
      );
    fc.assert(
      fc.property(asked, (small) => {
        const best = bruteForce(small);
        for (const engine of [undefined, highs]) {
          const answer = chooseLoads(small, 1, small.lengths.length, engine);
          // Without an engine to load, more than fifty ways to fill a load are too many.
          if (engine === undefined && answer.status === "unknown") continue;
          if (best === null) expect(answer.status).toBe("none");
          else {
            expect(worth(small, answer)).toEqual(best);
            expect(fewestLoadsBound(small)).toBeLessThanOrEqual(best[0]);
          }
        }
      }),
      { seed: 20261125, numRuns: 300 },
    );
  });
});

describe("the bound on loads", () => {
  test("counts length, and cuts that are too long for one another", () => {
    expect(fewestLoadsBound(question([84], [bought(100)]))).toBe(1);
    expect(fewestLoadsBound(question([50, 34], [bought(100)]))).toBe(1); // 15 + 50 + 1 + 34
    expect(fewestLoadsBound(question([50, 35], [bought(100)]))).toBe(2); // 101
    expect(fewestLoadsBound(question([45, 45, 45], [bought(100)]))).toBe(3); // 138 of 86 would be 2
    // Three of 30 fill 93 of 86 + what lies beside two of 56: 30 on neither (57 + 31 > 86): 2 + 2.
    expect(fewestLoadsBound(question([56, 56, 30, 30, 30], [bought(100)]))).toBe(4);
  });

  test("takes the fullest reels first, and is endless when all together hold too little", () => {
    expect(fewestLoadsBound(question([30, 30, 30], [stocked(50), bought(80, 1)]))).toBe(2);
    expect(fewestLoadsBound(question([30, 30, 30], [stocked(45), bought(60, 1)]))).toBe(Infinity);
    expect(fewestLoadsBound(question([3000], [bought(Infinity)]))).toBe(1);
  });
});

describe("packing", () => {
  const all = { stock: () => true, bought: true };
  const choose = loadChooser(highs, () => false);

  // 42 + 40 + 51 and two gaps fill 135; 54 + 30 + 48 take 134, 53 + 59 take 113.
  const lengths = [42, 40, 54, 30, 48, 53, 59, 51];

  test("three rolls of 150 do where heuristics take four", () => {
    const instance = job({ films: [film({ rollLength: 150 })] });
    const supply = supplyOf(instance, instance.films[0] as Film);
    expect(fillLoads(instance, supply, 50, all, lengths)?.loads).toHaveLength(4);
    expect(packLoads(instance, supply, 50, all, lengths, choose)?.loads).toHaveLength(3);
  });

  test("finds a way through stock alone where every attempt fails", () => {
    const stock = ["a", "b", "c"].map((id) => roll(id, 150));
    const instance = job({ films: [film({ newRolls: 0 })], stock });
    const supply = supplyOf(instance, instance.films[0] as Film);
    expect(fillLoads(instance, supply, 50, all, lengths)).toBeNull();
    const packed = packLoads(instance, supply, 50, all, lengths, choose);
    expect(packed?.loads.every(({ used }) => used <= 150)).toBe(true);
    // 377 of cuts, 5 gaps between 8 cuts on 3 loads, 3 x 15.
    expect(packed?.loads.reduce((sum, { used }) => sum + used, 0)).toBe(427);
    expect(new Set(packed?.loads.map((load) => load.stock?.id))).toEqual(new Set(["a", "b", "c"]));
  });

  test("scrap counts opened rolls alone", () => {
    const instance = job({ stock: [roll("a", 100), roll("b", 20)], rules: { ...rules, keepLength: 40 } });
    const supply = supplyOf(instance, instance.films[0] as Film);
    const packed = packLoads(instance, supply, 50, all, [50], choose);
    expect(packed?.loads.map(({ stock }) => stock?.id)).toEqual(["a"]);
    expect(packed && scrapOf(instance, supply, packed)).toBe(35);
  });
});
