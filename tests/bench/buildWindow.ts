import { spawnSync } from "node:child_process";
import { join } from "node:path";
import { projectRoot } from "../support/projectRoot.ts";

/** What the window runs is built first, so that the figures are those a user meets. @throws Error when it can't be */
export function buildWindow(): void {
  // In a process of its own: the launcher is plain JavaScript and builds for the folder it is told.
  const build = `const { buildStale } = await import(process.argv[1]);
    const fault = await buildStale(process.cwd(), console.error);
    if (fault !== null) { console.error(fault); process.exitCode = 1; }`;
  const launcher = join(projectRoot, "main/launch/build.mjs");
  const { status } = spawnSync(process.execPath, ["--input-type=module", "-e", build, launcher], {
    cwd: projectRoot,
    stdio: "inherit",
  });
  if (status !== 0) throw new Error(`the build ended with status ${status}`);
}
