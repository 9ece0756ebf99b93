import { spawn } from "node:child_process";
import { join } from "node:path";
import { projectRoot } from "../support/projectRoot.ts";
import { onOneCore } from "./onOneCore.ts";
import { watchMemory } from "./peakMemory.ts";

/** What `planOnce.ts` prints. */
export interface PlannedRun {
  readonly status: string;
  readonly firstSeconds: number | null;
  readonly fullSeconds: number;
  readonly layouts: number;
  readonly proven: number;
  readonly cost: number | null;
  readonly wastePercent: number | null;
  readonly bound: number | null;
  readonly gapPercent: number | null;
  readonly chosenProven: boolean;
  readonly by: string | null;
  readonly steps: number;
  /** Of the chosen layout, and the fewest of any. */
  readonly openSeams: number | null;
  readonly fewestOpenSeams: number | null;
}

export interface PlanningWish {
  readonly job: string;
  readonly seed: number;
  readonly worker: "built" | "source";
  readonly seconds: number;
  /** Whether all its threads share one core. */
  readonly oneCore?: boolean;
}

/** One cold run in a process of its own, with the sum of the peak memory of all it started, in MB. */
export function planInProcess(wish: PlanningWish): Promise<{ run: PlannedRun; peak: number | null }> {
  return new Promise((resolve, reject) => {
    const script = join(projectRoot, "tests/bench/planOnce.ts");
    const { job, seed, worker, seconds, oneCore = false } = wish;
    const node = [process.execPath, "--import", "tsx", script, job, `${seed}`, worker, `${seconds}`];
    const [command, ...args] = oneCore ? onOneCore(node) : node;
    const child = spawn(command as string, args, {
      cwd: projectRoot,
      stdio: ["ignore", "pipe", "inherit"],
    });
    const watch = watchMemory(child.pid as number);
    let output = "";
    child.stdout.setEncoding("utf8").on("data", (text: string) => {
      output += text;
    });
    child.on("error", reject);
    child.on("close", (status) => {
      const peak = watch.end();
      if (status === 0) resolve({ run: JSON.parse(output) as PlannedRun, peak });
      else reject(new Error(`planning ${job} ended with status ${status}`));
    });
  });
}

const shown = (value: number | null): string => (value === null ? "-" : value.toFixed(2));

/** The chosen layout's cost and how far it may be from the least. */
export const costAndGap = ({ cost, bound, gapPercent, by }: PlannedRun): string =>
  `cost ${shown(cost)}, bound ${shown(bound)}, gap ${shown(gapPercent)} % (${by ?? "no bound"})`;
