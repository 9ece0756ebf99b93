import { expect, test } from "vitest";
import type { WorkerMessage } from "../../../main/workers/messages.ts";
import { planJob } from "../../../main/workers/planJob.ts";
import type { Budget, JobJson } from "../../../shared/host.ts";
import { brokenJob, clinicWall } from "../../contract/jobs.ts";

const flag = (value: number): SharedArrayBuffer => {
  const buffer = new SharedArrayBuffer(4);
  Atomics.store(new Int32Array(buffer), 0, value);
  return buffer;
};

function run(job: JobJson, budget: Budget, { stop = 0, now = (): number => 0 } = {}) {
  const sent: WorkerMessage[] = [];
  const outcome = planJob({ job, seed: 1, budget, stop: flag(stop) }, (message) => sent.push(message), now);
  return { sent, outcome };
}

test("sends the job's warnings, steps and plans", () => {
  const { sent, outcome } = run({ ...clinicWall, keepclear: [] }, { work: 3 });
  expect(outcome).toMatchObject({ status: "planned", warnings: [{ path: "keepclear" }] });
  expect(sent[0]).toMatchObject({ kind: "warnings", warnings: [{ path: "keepclear" }] });
  expect(new Set(sent.map(({ kind }) => kind))).toEqual(new Set(["warnings", "step", "plan", "standing"]));
});

test("a job that can't be read says all of it and sends nothing", () => {
  const { sent, outcome } = run(brokenJob, { work: 3 });
  expect(outcome.status === "badJob" && outcome.problems.length).toBeGreaterThanOrEqual(2);
  expect(sent).toEqual([]);
});

test("a time that is up at once still gives a first plan", () => {
  let clock = 0;
  const { outcome } = run(clinicWall, { seconds: 0.001 }, { now: () => (clock += 1000) });
  expect(outcome.status).toBe("planned");
});

test("the stop flag ends it before a first plan", () => {
  expect(run(clinicWall, { seconds: 10 }, { stop: 1 }).outcome).toEqual({ status: "stopped" });
});

test("each better plan is told of at once by its chosen layout's cost and bound, the last of them the outcome's", () => {
  const { sent, outcome } = run(clinicWall, { work: 50 });
  const standings = sent.flatMap((message) => (message.kind === "standing" ? [message.standing] : []));
  const costs = standings.map(({ cost }) => cost);
  expect(costs.length).toBeGreaterThan(0);
  expect(costs).toEqual([...costs].sort((a, b) => b - a));
  if (outcome.status !== "planned") throw new Error(outcome.status);
  const chosen = outcome.plan.layouts.find(({ id }) => id === outcome.plan.chosen);
  expect(standings.at(-1)).toMatchObject({ cost: chosen?.totals.cost.total, bound: chosen?.bound.cost });
  for (const { cost, bound } of standings) expect(bound).toBeLessThanOrEqual(cost + 0.005);
});

test("a clock that runs between plans keeps the messages apart", () => {
  const still = run(clinicWall, { work: 50 }).sent.filter(({ kind }) => kind === "plan");
  expect(still).toHaveLength(1); // no time passes, so only the first is sent
});
