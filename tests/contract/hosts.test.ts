import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { demoName } from "../../main/files/demoJob.ts";
import { Refused } from "../../renderer/host/refusal.ts";
import { type CallName, type EventBody, type Host, hostCalls, hostEvents } from "../../shared/host.ts";
import type { PlanFile } from "../../shared/planFile.ts";
import { projectRoot } from "../support/projectRoot.ts";
import { callCases, runCases, type Step } from "./cases.ts";
import { electronHost, httpHost, type TestedHost } from "./hosts.ts";
import { clinicWall } from "./jobs.ts";

/** Takes one step; what came of it, checked against the contract's own schema. */
async function take(
  host: Host,
  { call, input, gives, refused }: Step,
  answers: Record<string, unknown>[],
): Promise<void> {
  const given = typeof input === "function" ? (input as (answers: unknown) => unknown)(answers) : input;
  const ask = host[call as CallName] as (input: unknown) => Promise<unknown>;
  if (refused !== undefined) {
    const refusal = await ask(given).then(
      () => null,
      (cause: unknown) => cause,
    );
    expect(refusal).toBeInstanceOf(Refused);
    expect((refusal as Refused).message).toMatch(refused);
    return;
  }
  const output = await ask(given);
  expect(hostCalls[call].output.parse(output)).toEqual(output);
  expect(output).toMatchObject(gives as object);
  answers.push(output as Record<string, unknown>);
}

interface Watched {
  readonly progress: EventBody<"planProgress">[];
  readonly done: Promise<EventBody<"planDone">>;
}

/** All that a host says of one run. */
function watch(host: Host, runId: string): Watched {
  const progress: EventBody<"planProgress">[] = [];
  host.on("planProgress", (body) => {
    if (body.runId === runId) progress.push(hostEvents.planProgress.parse(body));
  });
  const done = new Promise<EventBody<"planDone">>((resolve) => {
    const off = host.on("planDone", (body) => {
      if (body.runId !== runId) return;
      off();
      resolve(hostEvents.planDone.parse(body));
    });
  });
  return { progress, done };
}

async function planned(host: Host, runId: string): Promise<PlanFile> {
  const { done } = watch(host, runId);
  await host.startPlan({ runId, job: clinicWall, seed: 1, budget: { work: 2 } });
  const { outcome } = await done;
  if (outcome.status !== "planned") throw new Error(`no plan: ${JSON.stringify(outcome)}`);
  return outcome.plan;
}

const demo = JSON.parse(readFileSync(join(projectRoot, "tests", "data", demoName), "utf8")) as Record<string, unknown>;

describe.each([
  { kind: "electron" as const, start: electronHost },
  { kind: "loopback" as const, start: httpHost },
])("$kind", ({ kind, start }) => {
  let tested: TestedHost;
  let host: Host;
  beforeAll(async () => {
    tested = await start();
    host = tested.host;
  });
  afterAll(async () => {
    await tested.close();
    expect(tested.complaints).toEqual([]);
  });

  test("says what it is and can do", async () => {
    const info = await host.hostInfo({});
    expect(info).toMatchObject({ kind, version: "0.0.0", dialogs: kind === "electron" });
    expect(info.folder === null).toBe(kind === "electron");
  });

  test.each(callCases)("$name", async ({ steps }) => {
    const answers: Record<string, unknown>[] = [];
    for (const step of steps) await take(host, step, answers);
  });

  test("answers hold no path of this machine", async () => {
    const saved = await host.saveJobAs({ name: "clinic", job: clinicWall, replace: true });
    const listed = await host.listJobs({});
    expect(JSON.stringify([saved, listed, await host.openFirst({})])).not.toContain(tested.folder);
  });

  test.each(runCases)("a run: $name", async ({ name, job, budget, outcome, says }) => {
    const runId = `run-${name.replace(/\W/g, "_")}`;
    const { progress, done } = watch(host, runId);
    expect(await host.startPlan({ runId, job, seed: 1, budget })).toEqual({ runId });
    const end = await done;
    expect(end.outcome.status).toBe(outcome);
    expect(JSON.stringify(end.outcome)).toMatch(says);
    const plans = progress.filter(({ plan }) => plan !== null);
    expect(plans.length > 0).toBe(outcome === "planned");
    // What a window gathers as it listens is what the host tells at the end.
    expect(end.standings.length > 0).toBe(outcome === "planned");
    const heard = progress.flatMap(({ standing }) => standing ?? []);
    expect(heard.length > 0).toBe(outcome === "planned");
    expect(end.standings.slice(0, heard.length)).toEqual(heard);
  });

  test("a run that is stopped ends, and its worker with it", async () => {
    const { done } = watch(host, "long");
    await host.startPlan({ runId: "long", job: demo, seed: 1, budget: { seconds: 3600 } });
    expect(await host.stopPlan({ runId: "long" })).toEqual({ known: true });
    expect(["stopped", "planned"]).toContain((await done).outcome.status);
    expect(await host.stopPlan({ runId: "long" })).toEqual({ known: false });
  });

  test("a run of the same id is ended before the next begins", async () => {
    const first = watch(host, "again");
    await host.startPlan({ runId: "again", job: demo, seed: 1, budget: { seconds: 3600 } });
    await host.startPlan({ runId: "again", job: clinicWall, seed: 1, budget: { work: 2 } });
    expect(["stopped", "planned"]).toContain((await first.done).outcome.status);
    expect((await watch(host, "again").done).outcome.status).toBe("planned");
  });

  test("more than two runs at one time are refused", async () => {
    const runs = ["one", "two"].map((runId) => watch(host, runId));
    const request = { job: demo, seed: 1, budget: { seconds: 3600 } };
    for (const runId of ["one", "two"]) await host.startPlan({ runId, ...request });
    await expect(host.startPlan({ runId: "three", ...request })).rejects.toThrow(/already/);
    for (const runId of ["one", "two"]) await host.stopPlan({ runId });
    await Promise.all(runs.map(({ done }) => done));
  });

  test("a plan is checked: as it is, and with a window moved", async () => {
    const plan = await planned(host, "check");
    expect(await host.checkPlan({ job: clinicWall, plan })).toEqual({ problems: [], violations: [] });
    const moved = structuredClone(plan);
    const panel = moved.layouts[0]?.panels[0];
    if (panel !== undefined) panel.window = [panel.window[0] + 5, panel.window[1], panel.window[2], panel.window[3]];
    const { violations } = await host.checkPlan({ job: clinicWall, plan: moved });
    expect(violations.length).toBeGreaterThan(0);
  });

  test("exports of a plan are handed out; those of a plan that breaks a rule are not", async () => {
    const plan = await planned(host, "export");
    const request = {
      job: clinicWall,
      plan,
      layout: plan.chosen,
      kinds: ["plan", "cutList", "datumSheet", "rollMap"] as const,
    };
    if ("electron" in tested) (tested.electron as { answers: { folder: string } }).answers.folder = tested.folder;
    const exported = await host.exportPlan({ ...request, kinds: [...request.kinds] });
    const names = ["Clinic wall.plan.json", "Clinic wall.cuts.csv", "Clinic wall.datum.csv", "Clinic wall.rolls.svg"];
    if (exported.delivered === "files") expect(exported.files.map(({ name }) => name)).toEqual(names);
    else {
      expect(exported).toMatchObject({ delivered: "folder", names });
      expect(readdirSync(tested.folder)).toEqual(expect.arrayContaining(names));
    }
    const costs = structuredClone(plan);
    if (costs.layouts[0] !== undefined) costs.layouts[0].totals.cost.total += 1;
    await expect(host.exportPlan({ ...request, kinds: ["plan"], plan: costs })).rejects.toThrow(/breaks rules/);
    await expect(host.exportPlan({ ...request, kinds: ["plan"], layout: "none such" })).rejects.toThrow(
      /no such layout/,
    );
  });
});
