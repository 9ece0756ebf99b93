// Reports a plan if it was given one, then never looks at the stop flag.
import { parentPort, workerData } from "node:worker_threads";

parentPort.postMessage({ kind: "warnings", warnings: [{ path: "keepclear", value: 1, why: "unknown", mend: "none" }] });
parentPort.postMessage({ kind: "step", done: 1, of: 4, what: "first" });
if (workerData.job.plan) parentPort.postMessage({ kind: "plan", plan: workerData.job.plan });
for (;;);
