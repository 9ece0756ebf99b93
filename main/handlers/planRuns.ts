import type { CallRequest } from "../../shared/host.ts";
import type { PlanRun } from "../workers/planRunner.ts";
import { Refusal } from "./refusal.ts";
import type { Services } from "./services.ts";

/** Most runs at one time: each keeps a core busy. */
const mostRuns = 2;

export interface PlanRuns {
  readonly start: (request: CallRequest<"startPlan">) => Promise<void>;
  /** True when there was such a run. */
  readonly stop: (runId: string) => boolean;
  /** Ends every run and waits until their workers are gone. */
  readonly stopAll: () => Promise<void>;
}

/** The planning runs of one host. Each run's events carry its id; its outcome comes once. */
export function planRuns({ planner, emit }: Pick<Services, "planner" | "emit">): PlanRuns {
  const running = new Map<string, PlanRun>();
  const start: PlanRuns["start"] = async ({ runId, job, seed, budget }) => {
    // Asked again after each wait: another request for the same id may have come in between.
    for (let before = running.get(runId); before !== undefined; before = running.get(runId)) {
      before.stop();
      await before.ended;
    }
    if (running.size >= mostRuns) {
      throw new Refusal("notNow", `${mostRuns} plans are being searched for already; stop one first.`);
    }
    const run = planner.start({ job, seed, budget }, (progress) => emit("planProgress", { runId, ...progress }));
    running.set(runId, run);
    void run.ended.then((ended) => {
      if (running.get(runId) === run) running.delete(runId);
      emit("planDone", { runId, ...ended });
    });
  };
  const stop = (runId: string): boolean => {
    running.get(runId)?.stop();
    return running.has(runId);
  };
  const stopAll = async (): Promise<void> => {
    const runs = [...running.values()];
    for (const run of runs) run.stop();
    await Promise.all(runs.map(({ ended }) => ended));
  };
  return { start, stop, stopAll };
}
