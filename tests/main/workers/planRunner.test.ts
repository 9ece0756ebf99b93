import { join } from "node:path";
import { expect, test } from "vitest";
import { type PlanRequest, plannerOn, type RunProgress } from "../../../main/workers/planRunner.ts";

const thread = (name: string): string => join(import.meta.dirname, "threads", `${name}.mjs`);
const bound = { cost: 90, filmArea: 9, gapPercent: 10, proven: false, by: "area" };
const layouts = ["early", "wound up"].map((id, place) => ({ id, totals: { cost: { total: 100 - place } }, bound }));
const plan = { format: "lapwright-plan", chosen: "early", layouts };
const request = (job: Record<string, unknown>): PlanRequest => ({ job, seed: 1, budget: { work: 1 } });

/** Starts a thread and stops it once it has said something of the given kind. */
function stoppedAfter(
  name: string,
  job: Record<string, unknown>,
  enough: (said: RunProgress) => boolean,
  grace?: number,
) {
  const said: RunProgress[] = [];
  const run = plannerOn(thread(name), grace).start(request(job), (progress) => {
    said.push(progress);
    if (enough(progress)) run.stop();
  });
  return { said, ended: run.ended };
}

test("a thread that winds up by itself has the last word", async () => {
  const { said, ended } = stoppedAfter("obedient", { plan }, (progress) => progress.plan !== null, 60_000);
  expect((await ended).outcome).toEqual({ status: "planned", plan: { ...plan, chosen: "wound up" }, warnings: [] });
  expect(said.map(({ done, of, what, plan }) => ({ done, of, what, plan: plan?.chosen ?? null }))).toEqual([
    { done: 1, of: 4, what: "first", plan: null },
    { done: 1, of: 4, what: "first", plan: null },
    { done: 1, of: 4, what: "first", plan: "early" },
  ]);
  const standing = { cost: 100, bound: 90, gapPercent: 10, proven: false, by: "area" };
  expect(said.map((progress) => progress.standing)).toEqual([null, expect.objectContaining(standing), null]);
  const { standings } = await ended;
  expect(standings).toEqual([expect.objectContaining(standing), expect.objectContaining({ ...standing, cost: 99 })]);
  expect(standings[1]?.seconds).toBeGreaterThanOrEqual(standings[0]?.seconds ?? Number.NaN);
});

test("one that does not is ended, with its last verified plan and the job's warnings", async () => {
  const { ended } = stoppedAfter("deaf", { plan }, (progress) => progress.plan !== null);
  const warnings = [{ path: "keepclear", value: 1, why: "unknown", mend: "none" }];
  expect((await ended).standings).toEqual([expect.objectContaining({ cost: 100, bound: 90 })]);
  expect((await ended).outcome).toEqual({ status: "planned", plan, warnings });
});

test("without a plan it was stopped, which is not the same as that none exists", async () => {
  const { ended } = stoppedAfter("deaf", {}, () => true);
  expect((await ended).outcome).toEqual({ status: "stopped" });
});

test("a crash is an outcome with its message", async () => {
  const run = plannerOn(thread("crashing")).start(request({}), () => undefined);
  expect((await run.ended).outcome).toEqual({ status: "failed", says: "a promise was broken: 3 is not 4" });
  run.stop(); // nothing is left to stop
});

test("so is an end without an answer", async () => {
  const run = plannerOn(thread("silent")).start(request({}), () => undefined);
  expect((await run.ended).outcome).toEqual({ status: "failed", says: "The planner ended by itself with code 7." });
});

test("and a thread that can't be started", async () => {
  const run = plannerOn(thread("none")).start(request({}), () => undefined);
  expect((await run.ended).outcome.status).toBe("failed");
});
