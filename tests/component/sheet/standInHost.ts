import type { CallInput, EventBody, EventName, Host, JobJson, OpenedJob, PlanOutcome } from "../../../shared/host.ts";
import { PlanFile } from "../../../shared/planFile.ts";
import type { Standing } from "../../../shared/standing.ts";
import jobText from "../../data/puppet-booth.job.json?raw";
import planText from "../../data/puppet-booth.plan.json?raw";

/** The hand-made job and its hand-made plan. */
export const boothJob = (): JobJson => JSON.parse(jobText) as JobJson;
export const boothPlan = (): PlanFile => PlanFile.parse(JSON.parse(planText));

/** The plan with a second layout that costs more and shows fewer seams, so that there is something to weigh. */
export function twoLayouts(): PlanFile {
  const plan = boothPlan();
  const first = plan.layouts[0];
  if (first === undefined) throw new Error("The hand-made plan has no layout.");
  const second = structuredClone(first);
  second.id = "fewer";
  second.totals.openSeams = 1;
  second.totals.cost.total = first.totals.cost.total + 50;
  return { ...plan, layouts: [first, second], frontier: [first.id, second.id] };
}

export interface StandIn {
  readonly host: Host;
  /** Every call in its order. */
  readonly calls: { name: string; input: unknown }[];
  readonly emit: <E extends EventName>(event: E, body: EventBody<E>) => void;
  /** The id of the last run that was started. */
  readonly lastRun: () => string;
  readonly lastPlanned: () => JobJson;
  readonly finish: (outcome: PlanOutcome, standings?: readonly Standing[]) => void;
}

export const opened = (job: JobJson, more: Partial<OpenedJob> = {}): OpenedJob => ({
  token: "token-of-the-job",
  name: "booth.job.json",
  onDisk: true,
  job,
  problems: [],
  warnings: [],
  ...more,
});

/** A host that remembers what it was asked and plans only what a test tells it to. */
export function standInHost(first: OpenedJob, more: Partial<Host> = {}): StandIn {
  const calls: StandIn["calls"] = [];
  const listeners = new Map<string, Set<(body: never) => void>>();
  const answers = {
    hostInfo: async () => ({ kind: "loopback", version: "0.1.0", dialogs: false, folder: "Jobs" }),
    openFirst: async () => first,
    openDemo: async () => opened(boothJob(), { name: "demo.job.json" }),
    listJobs: async () => ({
      jobs: [{ token: "token-of-another", name: "trailer.job.json", changed: "2026-01-02T10:00:00Z" }],
    }),
    openListed: async () => opened(boothJob(), { name: "trailer.job.json", token: "token-of-another" }),
    openByDialog: async () => null,
    adoptJob: async ({ name, text }: CallInput<"adoptJob">) =>
      opened(JSON.parse(text) as JobJson, { name, onDisk: false }),
    readJob: async () => ({ problems: [], warnings: [] }),
    saveJob: async () => ({ name: first.name }),
    saveJobAs: async ({ name, replace }: CallInput<"saveJobAs">) =>
      replace === true ? { saved: true, token: "token-of-the-new", name } : { saved: false, exists: name },
    startPlan: async ({ runId }: CallInput<"startPlan">) => ({ runId }),
    stopPlan: async () => ({ known: true }),
    checkPlan: async () => ({ problems: [], violations: [] }),
    exportPlan: async () => ({
      delivered: "files",
      files: [{ name: "booth.cuts.csv", mime: "text/csv", text: "a,b" }],
    }),
    ...more,
  } as unknown as Record<string, (input: unknown) => Promise<unknown>>;
  const host = Object.fromEntries(
    Object.entries(answers).map(([name, answer]) => [
      name,
      (input: unknown) => {
        calls.push({ name, input });
        return answer(input);
      },
    ]),
  );
  host.on = ((event: EventName, listener: (body: never) => void) => {
    const set = listeners.get(event) ?? new Set();
    listeners.set(event, set.add(listener));
    return () => set.delete(listener);
  }) as never;
  const started = (): CallInput<"startPlan"> => {
    const last = calls.findLast(({ name }) => name === "startPlan");
    if (last === undefined) throw new Error("No run was started.");
    return last.input as CallInput<"startPlan">;
  };
  const emit: StandIn["emit"] = (event, body) => {
    for (const listener of listeners.get(event) ?? []) listener(body as never);
  };
  return {
    host: host as unknown as Host,
    calls,
    emit,
    lastRun: () => started().runId,
    lastPlanned: () => started().job,
    finish: (outcome, standings = []) => emit("planDone", { runId: started().runId, seconds: 1.5, outcome, standings }),
  };
}
