import { spawnSync } from "node:child_process";

/**
 * A command line that keeps a process and all its threads on one core.
 *
 * @throws Error on a system without `taskset`: a figure for one core that was measured on more would be wrong
 */
export function onOneCore(command: readonly string[]): string[] {
  const core = "0";
  if (spawnSync("taskset", ["-c", core, "true"]).status !== 0) {
    throw new Error("this system has no taskset, so nothing can be measured on one core");
  }
  return ["taskset", "-c", core, ...command];
}
