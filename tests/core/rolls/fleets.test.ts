import { describe, expect, test } from "vitest";
import { seededRandom } from "../../../core/model/run.ts";
import { layOnRolls } from "../../../core/rolls/layOnRolls.ts";
import { fleetJob } from "../../support/fleetJob.ts";
import { instanceOf, verifiedPlan } from "../../support/planJob.ts";

const run = { random: seededRandom(1), stop: () => false, report: () => {}, work: null };

describe("fleets", () => {
  test("thirty trailers with sixty kinds of decal are planned, every piece once by the verifier", () => {
    const job = fleetJob({ copies: 30 });
    const [layout] = verifiedPlan(job, { work: 1 }).layouts;
    const laid = layout?.rolls.flatMap(({ cuts }) => cuts.flatMap(({ pieces }) => pieces)) ?? [];
    // 40 kinds on each of 30 trailers, 20 kinds on 3 of them.
    expect(laid.filter(({ id }) => id.startsWith("decal")).length).toBe(40 * 30 + 20 * 3);
    expect(laid.length).toBe(1260 + 30 * (layout?.panels.length ?? 0));
  });

  test("patterns take less film for decals than filling one cut after another", () => {
    const { films, pieces, ...job } = fleetJob({ copies: 40, kinds: 24 });
    const decals = instanceOf({ ...job, elevations: [], pieces, films: films.filter(({ id }) => id === "decal") });
    const used = (patternSteps: number): number => {
      const laid = layOnRolls(decals, [], null, { ...run, random: seededRandom(1) }, undefined, patternSteps);
      if ("reasons" in laid) throw new Error(laid.reasons.map(({ why }) => why).join("; "));
      return laid.rolls.reduce((sum, each) => sum + each.used, 0);
    };
    const [without, withPatterns] = [used(0), used(60)];
    expect(withPatterns).toBeLessThan(without);
    expect(used(60)).toBe(withPatterns);
  });
});
