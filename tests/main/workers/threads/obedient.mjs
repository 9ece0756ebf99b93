// Reports a plan, then waits for the stop flag and ends with another.
import { parentPort, workerData } from "node:worker_threads";

const plan = (chosen) => ({ ...workerData.job.plan, chosen });
parentPort.postMessage({ kind: "warnings", warnings: [{ path: "keepclear", value: 1, why: "unknown", mend: "none" }] });
parentPort.postMessage({ kind: "step", done: 1, of: 4, what: "first" });
const standing = { cost: 100, bound: 90, gapPercent: 10, proven: false, by: "area" };
parentPort.postMessage({ kind: "standing", standing });
parentPort.postMessage({ kind: "standing", standing }); // no news
parentPort.postMessage({ kind: "plan", plan: plan("early") });
while (Atomics.load(new Int32Array(workerData.stop), 0) === 0);
parentPort.postMessage({ kind: "outcome", outcome: { status: "planned", plan: plan("wound up"), warnings: [] } });
