import { join } from "node:path";
import { plannerOn } from "../../main/workers/planRunner.ts";
import { workerFromSource } from "../../main/workers/workerFile.ts";
import type { JobJson } from "../../shared/host.ts";
import { dataFile } from "../support/dataFile.ts";
import { projectRoot } from "../support/projectRoot.ts";

/**
 * Plans the demo once as a host does, in a worker thread of its own, and prints one line of JSON. Started as a process of
 * its own by the benchmark, so that its memory can be looked at from outside and every repeat begins cold.
 */
const seed = Number(process.argv[2] ?? 1);
/** The worker as the window runs it, or as the command line does. */
const workerFile = process.argv[3] === "built" ? join(projectRoot, "out/main/planWorker.js") : workerFromSource();
let firstSeconds: number | null = null;

const run = plannerOn(workerFile).start(
  { job: dataFile<JobJson>("demo.job.json"), seed, budget: { seconds: 120 } },
  ({ plan, seconds }) => {
    if (plan !== null) firstSeconds ??= seconds;
  },
);
const { seconds, outcome } = await run.ended;
if (outcome.status === "failed") throw new Error(outcome.says);
const plan = outcome.status === "planned" ? outcome.plan : null;
const chosen = plan?.layouts.find(({ id }) => id === plan.chosen);
console.log(
  JSON.stringify({
    status: outcome.status,
    firstSeconds,
    fullSeconds: seconds,
    layouts: plan?.layouts.length ?? 0,
    cost: chosen?.totals.cost.total ?? null,
    wastePercent: chosen?.totals.wastePercent ?? null,
    gapPercent: chosen?.bound.gapPercent ?? null,
  }),
);
