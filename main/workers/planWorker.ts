import { parentPort, workerData } from "node:worker_threads";
import { loadHighsEngine } from "./highsLoader.ts";
import type { PlanAssignment, WorkerMessage } from "./messages.ts";
import { planJob } from "./planJob.ts";

/** The thread's own file: plans the job it was started with, says so as it goes, and ends. */
const port = parentPort;
if (port === null) throw new Error("planWorker runs in a worker thread only");
const send = (message: WorkerMessage): void => port.postMessage(message);
const engine = await loadHighsEngine();
send({ kind: "outcome", outcome: planJob(workerData as PlanAssignment, send, () => performance.now(), engine) });
