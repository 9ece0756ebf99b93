import { execFileSync } from "node:child_process";
import { cpus, totalmem } from "node:os";
import { projectRoot } from "../support/projectRoot.ts";

const git = (...args: string[]): string => execFileSync("git", args, { cwd: projectRoot, encoding: "utf8" }).trim();

/** What was measured and on what: a figure without it can't be compared with another. */
export interface Conditions {
  readonly commit: string;
  readonly machine: string;
  readonly cores: number;
  readonly node: string;
}

export function conditions(): Conditions {
  const changed = git("status", "--porcelain") === "" ? "" : " with changes";
  const processors = cpus();
  const memory = Math.round(totalmem() / 2 ** 30);
  return {
    commit: `${git("rev-parse", "--short", "HEAD")}${changed}`,
    machine: `${processors.length} x ${processors[0]?.model ?? "unknown"}, ${memory} GB`,
    cores: processors.length,
    node: `${process.version} on ${process.platform} ${process.arch}`,
  };
}
