import { join } from "node:path";
import { demoPath } from "../files/demoJob.ts";
import { packageRoot, packageVersion } from "../files/packageRoot.ts";
import { rendererFiles } from "../files/rendererFiles.ts";
import { defaultWorkFolder } from "../files/workFolder.ts";
import { plannerOn } from "../workers/planRunner.ts";
import { type LoopbackServer, startLoopback } from "./server.ts";

export interface ServeOptions {
  readonly port: number;
  /** Job to open first; null for the demo. */
  readonly job: string | null;
  /** null for the usual one. */
  readonly workFolder: string | null;
  readonly complain: (text: string) => void;
  /** Called each time the last window has been away for some seconds. */
  readonly gone?: () => void;
}

/** The loopback host of the built program: everything it needs stands beside this file once it is bundled. */
export function serve({ job, workFolder, ...rest }: ServeOptions): Promise<LoopbackServer> {
  const root = packageRoot();
  return startLoopback({
    ...rest,
    files: rendererFiles(join(root, "out", "renderer")),
    version: packageVersion(root),
    planner: plannerOn(join(root, "out", "main", "planWorker.js")),
    workFolder: workFolder ?? defaultWorkFolder(),
    demo: demoPath(root),
    firstJob: job,
  });
}
