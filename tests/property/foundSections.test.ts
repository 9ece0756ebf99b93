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

/**
 * Elevations on which a seam just before a gap once stood in for one farther left that the gap's wide overlap leaves room
 * for: the first was told to have no plan, the second one that was dearer.
 */
const pastFailures: [PlainElevation][] = [
  [
    {
      width: 17,
      height: 11,
      lines: [
        { axis: "x", at: 12, from: 0, to: 11, kind: "moulding", width: 0, mustSplit: true },
        { axis: "y", at: 6, from: 0, to: 17, kind: "moulding", width: 6, mustSplit: false },
      ],
      opening: null,
      zones: [
        { box: [4, 4, 6, 8], rule: "avoid" },
        { box: [0, 8, 3, 12], rule: "avoid" },
      ],
      bleed: 0,
      bleedOfOpenings: 2,
      overlap: 2,
      trimOverlap: 4,
      printable: 13,
      longest: 12,
      prices: { area: 1, seam: 3, panel: 4, avoid: 1 },
    },
  ],
  [
    {
      width: 18,
      height: 14,
      lines: [
        { axis: "x", at: 9, from: 0, to: 14, kind: "moulding", width: 6, mustSplit: true },
        { axis: "x", at: 6, from: 0, to: 14, kind: "moulding", width: 0, mustSplit: false },
        { axis: "y", at: 9, from: 0, to: 18, kind: "colourEdge", width: 0, mustSplit: false },
      ],
      opening: [1, 1, 4, 7],
      zones: [{ box: [4, 13, 6, 14], rule: "avoid" }],
      bleed: 1,
      bleedOfOpenings: 1,
      overlap: 2,
      trimOverlap: 4,
      printable: 11,
      longest: 12,
      prices: { area: 1, seam: 0, panel: 4, avoid: 1 },
    },
  ],
];

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
    { seed: 20260110, numRuns: 100, examples: pastFailures },
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
