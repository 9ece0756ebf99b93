import fc from "fast-check";
import { expect, test } from "vitest";
import { seamCount, verifyPlan } from "../../core/index.ts";
import type { JobDocument } from "../../shared/jobFile.ts";
import { plainSplit } from "../support/plainSplit.ts";
import { planJob } from "../support/planJob.ts";
import { tinyJob, tinySquareJob } from "../support/tinyJob.ts";
import { pastTinyFailures } from "./pastFailures.ts";

const seed = 20260420;
const examples = pastTinyFailures.map((job): [JobDocument] => [job]);

test("a tiny job has a plan exactly when a plain search finds a split, with as few visible seams", () => {
  const compared = { planned: 0, noPlan: 0 };
  fc.assert(
    fc.property(tinySquareJob, (job) => {
      const plain = plainSplit(job);
      const { instance, result } = planJob(job);
      if (result.status === "planned") expect(verifyPlan(instance, result.plan)).toEqual([]);
      if (plain === null) return; // the wording leaves room here, so nothing is claimed
      if (plain.fewestVisible === null) {
        compared.noPlan += 1;
        expect(result.status).toBe("noPlan");
      } else {
        compared.planned += 1;
        expect(result.status).toBe("planned");
        if (result.status !== "planned") return;
        expect(Math.min(...result.plan.layouts.map(({ totals }) => seamCount(totals)))).toBe(plain.fewestVisible);
      }
    }),
    { seed, numRuns: 400, examples },
  );
  expect(compared.planned).toBeGreaterThan(60);
  expect(compared.noPlan).toBeGreaterThan(20);
});

test("sloped tiny jobs end verified or with reasons", () => {
  fc.assert(
    fc.property(tinyJob, (job) => {
      const { instance, result } = planJob(job);
      if (result.status === "planned") expect(verifyPlan(instance, result.plan)).toEqual([]);
      else expect(result.status === "noPlan" && result.reasons.length > 0).toBe(true);
    }),
    { seed: seed + 1, numRuns: 150, examples },
  );
});
