import { existsSync } from "node:fs";
import { join } from "node:path";

/** Name under which the demo is offered for saving. */
export const demoName = "demo.job.json";

/** Where the demo job stands: in the package, or among the resources of a packaged app. */
export function demoPath(root: string): string {
  const inPackage = join(root, "tests", "data", demoName);
  const resources = (process as { resourcesPath?: string }).resourcesPath;
  return existsSync(inPackage) || resources === undefined ? inPackage : join(resources, demoName);
}
