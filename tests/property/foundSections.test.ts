import fc from "fast-check";
import { expect, test } from "vitest";
import { coverParted } from "../../core/panelling/coverParted.ts";
import { quietRun } from "../core/panelling/builders.ts";
import { type PlainElevation, plainSections } from "../support/plainSections.ts";
import { programInput, smallElevation } from "../support/smallElevation.ts";

/** Least estimate of all that the program finds, in its own sections and in found ones; Infinity where it finds nothing. */
function programCost(plain: PlainElevation): number {
  const { instance, source, limits } = programInput(plain);
  const covered = coverParted(instance, source, [], limits, quietRun);
  if ("reasons" in covered) return Infinity;
  return Math.min(...covered.coverings.map(({ measures }) => measures.costEstimate));
}

/** Money is summed in another order on both sides. */
const ROUNDING = 1e-9;

test("along lines from side to side, found sections cost as little as trying everything", () => {
  let [compared, parted] = [0, 0];
  fc.assert(
    fc.property(smallElevation(false), (plain) => {
      const [brute, ours] = [plainSections(plain), programCost(plain)];
      if (brute === null) {
        expect(ours).toBe(Infinity);
        return;
      }
      compared++;
      if (brute.parts.length > 1) parted++;
      expect(ours / brute.cost).toBeLessThanOrEqual(1 + ROUNDING);
      // Round an opening a place between two inches may spare a window that touches something, so ours may be cheaper.
      if (plain.opening === null) expect(ours / brute.cost).toBeGreaterThanOrEqual(1 - ROUNDING);
    }),
    { seed: 20260110, numRuns: 100 },
  );
  expect(compared).toBeGreaterThan(70);
  expect(parted).toBeGreaterThan(10);
});

test("along lines over a part, found sections are seldom dearer than trying everything", () => {
  let [compared, dearer] = [0, 0];
  fc.assert(
    fc.property(smallElevation(true), (plain) => {
      const [brute, ours] = [plainSections(plain), programCost(plain)];
      if (brute === null) {
        expect(ours).toBe(Infinity);
        return;
      }
      compared++;
      if (ours > brute.cost * (1 + ROUNDING)) dearer++;
      if (plain.opening === null) expect(ours / brute.cost).toBeGreaterThanOrEqual(1 - ROUNDING);
    }),
    { seed: 20260111, numRuns: 100 },
  );
  expect(compared).toBeGreaterThan(70);
  // What a line over a part hides depends on all parts along it; the search looks at one part at a time.
  expect(dearer).toBeLessThanOrEqual(0.03 * compared);
});
