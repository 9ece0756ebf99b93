import {
  buildInstance,
  type Plan,
  type ProgrammeEngine,
  type Progress,
  planToFile,
  readJob,
  seededRandom,
  solve,
} from "../../core/index.ts";
import type { PlanOutcome } from "../../shared/host.ts";
import type { PlanAssignment, WorkerMessage } from "./messages.ts";
import { standingOf } from "./standingOf.ts";

/** Least time between two plans sent, milliseconds: a plan of many copies is long, and eyes are slow. */
const planInterval = 200;

/**
 * Plans one job from its document to an outcome: the whole work of a planning worker, without the thread.
 *
 * A time budget counts from the call and is asked for only once a first plan is there, so a short time still ends with a
 * plan or with the reasons why none exists; the stop flag ends the search at any time.
 *
 * @param now milliseconds of a clock that never goes back
 * @param engine for programmes beyond the embedded engine
 */
export function planJob(
  { job: document, seed, budget, stop }: PlanAssignment,
  send: (message: WorkerMessage) => void,
  now: () => number,
  engine?: ProgrammeEngine,
): PlanOutcome {
  const { job, problems, warnings } = readJob(document);
  if (job === null) return { status: "badJob", problems, warnings };
  const built = buildInstance(job);
  if ("problems" in built) return { status: "badJob", problems: [...built.problems], warnings };
  const allWarnings = [...warnings, ...built.warnings];
  send({ kind: "warnings", warnings: allWarnings });

  const flag = new Int32Array(stop);
  const deadline = "seconds" in budget ? now() + 1000 * budget.seconds : Number.POSITIVE_INFINITY;
  let first = true;
  let sentAt = Number.NEGATIVE_INFINITY;
  let unsent: Plan | null = null;
  const sendPlan = (): void => {
    if (unsent === null || now() - sentAt < planInterval) return;
    send({ kind: "plan", plan: planToFile(unsent) });
    sentAt = now();
    unsent = null;
  };
  const report = (event: Progress): void => {
    if (event.kind === "plan") {
      first = false;
      unsent = event.plan;
      send({ kind: "standing", standing: standingOf(event.plan) });
    } else {
      send({ kind: "step", done: event.done, of: event.of, what: event.what });
    }
    sendPlan();
  };
  const result = solve(
    built.instance,
    { seed, ...(engine === undefined ? {} : { engine }) },
    {
      random: seededRandom(seed),
      stop: () => Atomics.load(flag, 0) !== 0 || (!first && now() >= deadline),
      report,
      work: "work" in budget ? budget.work : null,
    },
  );
  if (result.status === "stopped") return { status: "stopped" };
  if (result.status === "noPlan") return { status: "noPlan", reasons: [...result.reasons] };
  return { status: "planned", plan: planToFile(result.plan), warnings: allWarnings };
}
