import { Worker } from "node:worker_threads";
import type { Budget, JobJson, PlanOutcome } from "../../shared/host.ts";
import type { PlanFile } from "../../shared/planFile.ts";
import type { Problem } from "../../shared/problem.ts";
import { type Standing, withStanding } from "../../shared/standing.ts";
import type { PlanAssignment, ReachedStanding, WorkerMessage } from "./messages.ts";
import { standingOf } from "./standingOf.ts";

export interface PlanRequest {
  readonly job: JobJson;
  readonly seed: number;
  readonly budget: Budget;
}

export interface RunProgress {
  readonly done: number;
  readonly of: number;
  readonly what: string;
  readonly seconds: number;
  /** Best verified plan so far, when it is new. */
  readonly plan: PlanFile | null;
  /** How the search stands, when that is new. */
  readonly standing: Standing | null;
}

export interface EndedRun {
  readonly seconds: number;
  readonly outcome: PlanOutcome;
  /** From the first layout on, oldest first, thinned; the last entry tells of the outcome's plan. */
  readonly standings: readonly Standing[];
}

/** One search under way. `ended` never rejects: a crash is an outcome. */
export interface PlanRun {
  /** Asks for an end within 0.2 s; the best verified plan so far becomes the outcome. May be called again. */
  readonly stop: () => void;
  readonly ended: Promise<EndedRun>;
}

export interface Planner {
  readonly start: (request: PlanRequest, report: (progress: RunProgress) => void) => PlanRun;
}

/** How long a worker may take to wind up by itself once asked to, milliseconds: the end of a busy thread takes as long again or longer. */
const usualGrace = 50;
/** The same once the time budget is over: the worker knows the time itself and is as a rule done by then. */
const graceAfterBudget = 3000;

/**
 * Runs searches in worker threads, one thread a run.
 *
 * @param workerFile the file a worker starts from: `workerFromSource()`, or the bundle's `planWorker.js`
 * @param grace milliseconds that a worker gets to wind up by itself once it is asked to stop
 */
export function plannerOn(workerFile: string, grace = usualGrace): Planner {
  return { start: (request, report) => startRun(workerFile, grace, request, report) };
}

function startRun(
  workerFile: string,
  grace: number,
  request: PlanRequest,
  report: (progress: RunProgress) => void,
): PlanRun {
  const began = performance.now();
  const seconds = (): number => (performance.now() - began) / 1000;
  const stopFlag = new SharedArrayBuffer(Int32Array.BYTES_PER_ELEMENT);
  const assignment: PlanAssignment = { ...request, stop: stopFlag };
  const worker = new Worker(workerFile, { workerData: assignment });

  let latest = { done: 0, of: 1, what: "" };
  let warnings: readonly Problem[] = [];
  let best: PlanFile | null = null;
  let timer: NodeJS.Timeout | null = null;
  let standings: readonly Standing[] = [];
  let settled = false;
  let settle: (run: EndedRun) => void = () => undefined;
  const ended = new Promise<EndedRun>((resolve) => {
    settle = resolve;
  });

  /** The entry that this adds, or null when it tells nothing new. */
  const dated = (reached: ReachedStanding): Standing | null => {
    const before = standings;
    const next = { seconds: seconds(), ...reached };
    standings = withStanding(before, next);
    return standings === before ? null : next;
  };

  const end = (outcome: PlanOutcome): void => {
    if (settled) return;
    settled = true;
    if (timer !== null) clearTimeout(timer);
    if (outcome.status === "planned") dated(standingOf(outcome.plan));
    const run = { seconds: seconds(), outcome, standings };
    // The thread is gone before anyone hears of the end, so that nothing is left running behind an ended run.
    void worker.terminate().then(() => settle(run));
  };
  const cutShort = (): void =>
    end(best === null ? { status: "stopped" } : { status: "planned", plan: best, warnings: [...warnings] });
  const cutShortAfter = (milliseconds: number): void => {
    if (timer !== null) clearTimeout(timer);
    timer = setTimeout(cutShort, milliseconds);
  };

  const watchBudget = (): void => {
    if (timer !== null || best === null || !("seconds" in request.budget)) return;
    cutShortAfter(Math.max(0, 1000 * (request.budget.seconds - seconds())) + graceAfterBudget);
  };

  worker.on("message", (message: WorkerMessage) => {
    if (settled) return;
    if (message.kind === "outcome") return end(message.outcome);
    if (message.kind === "warnings") {
      warnings = message.warnings;
      return;
    }
    let standing: Standing | null = null;
    if (message.kind === "plan") {
      best = message.plan;
      watchBudget();
    } else if (message.kind === "standing") {
      standing = dated(message.standing);
      if (standing === null) return;
    } else {
      latest = { done: message.done, of: message.of, what: message.what };
    }
    report({ ...latest, seconds: seconds(), plan: message.kind === "plan" ? message.plan : null, standing });
  });
  worker.on("messageerror", (cause) =>
    end({ status: "failed", says: `The planner's answer was lost: ${cause.message}` }),
  );
  worker.on("error", (cause) => {
    const says = cause instanceof Error ? cause.message : String(cause);
    end({ status: "failed", says: says === "" ? "The planner broke off without a reason." : says });
  });
  worker.on("exit", (code) => end({ status: "failed", says: `The planner ended by itself with code ${code}.` }));

  let stopping = false;
  const stop = (): void => {
    if (stopping || settled) return;
    stopping = true;
    Atomics.store(new Int32Array(stopFlag), 0, 1);
    cutShortAfter(grace);
  };
  return { stop, ended };
}
