import fc from "fast-check";
import { expect, test } from "vitest";
import { coverGroup } from "../../../core/panelling/coverGroup.ts";
import { limitsOf, quietRun } from "./builders.ts";
import { breaches, build, groups } from "./randomGroups.ts";

test("every covering of a random group keeps the rules of panels and seams", () => {
  let covered = 0;
  fc.assert(
    fc.property(groups, (c) => {
      const { instance, source, mirrors } = build(c);
      const limits = limitsOf(c.roll, c.preferred, c.along, ["cast", "black"]);
      const answer = coverGroup(instance, source, mirrors, limits, quietRun);
      if ("reasons" in answer) {
        expect(answer.reasons.length).toBeGreaterThan(0);
        return;
      }
      covered++;
      expect(answer.coverings.length).toBeLessThanOrEqual(24);
      const costs = answer.coverings.map(({ measures }) => measures.costEstimate);
      expect(costs).toEqual([...costs].sort((a, b) => a - b));
      for (const covering of answer.coverings) {
        expect(breaches(instance, [covering])).toEqual([]);
        for (const { film, across, along } of covering.panels) {
          expect(across).toBeLessThanOrEqual(limits.acrossByFilm.get(film) as number);
          expect(along).toBeLessThanOrEqual(limits.alongByFilm.get(film) as number);
        }
      }
    }),
    { seed: 20260103, numRuns: 60 },
  );
  expect(covered).toBeGreaterThan(20);
}, 120_000);
