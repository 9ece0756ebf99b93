import { join } from "node:path";
import { plannerOn } from "../../main/workers/planRunner.ts";
import { workerFromSource } from "../../main/workers/workerFile.ts";
import { projectRoot } from "../support/projectRoot.ts";
import { benchJob } from "./jobs.ts";

/**
 * Plans one job once as a host does, in a worker thread of its own, and prints one line of JSON. Started as a process of
 * its own by the benchmark, so that its memory can be looked at from outside and every repeat begins cold.
 */
const [name = "demo", seed = "1", worker = "source", seconds = "120"] = process.argv.slice(2);
/** The worker as the window runs it, or as the command line does. */
const workerFile = worker === "built" ? join(projectRoot, "out/main/planWorker.js") : workerFromSource();
let firstSeconds: number | null = null;

const run = plannerOn(workerFile).start(
  { job: await benchJob(name), seed: Number(seed), budget: { seconds: Number(seconds) } },
  (progress) => {
    if (progress.plan !== null) firstSeconds ??= progress.seconds;
  },
);
const { seconds: fullSeconds, outcome, standings } = await run.ended;
if (outcome.status === "failed") throw new Error(outcome.says);
const plan = outcome.status === "planned" ? outcome.plan : null;
const chosen = plan?.layouts.find(({ id }) => id === plan.chosen);
console.log(
  JSON.stringify({
    status: outcome.status,
    // A plan that came with the outcome alone was seen no earlier than that.
    firstSeconds: firstSeconds ?? (plan === null ? null : fullSeconds),
    fullSeconds,
    layouts: plan?.layouts.length ?? 0,
    proven: plan?.layouts.filter(({ bound }) => bound.proven).length ?? 0,
    cost: chosen?.totals.cost.total ?? null,
    wastePercent: chosen?.totals.wastePercent ?? null,
    bound: chosen?.bound.cost ?? null,
    gapPercent: chosen?.bound.gapPercent ?? null,
    chosenProven: chosen?.bound.proven ?? false,
    by: chosen?.bound.by ?? null,
    steps: standings.length,
    openSeams: chosen?.totals.openSeams ?? null,
    fewestOpenSeams: plan === null ? null : Math.min(...plan.layouts.map(({ totals }) => totals.openSeams)),
  }),
);
