import { buildInstance, type Instance, readJob } from "../../core/index.ts";
import type { JobJson } from "../../shared/host.ts";
import type { Problem } from "../../shared/problem.ts";

export type JobRead =
  | { readonly instance: Instance; readonly warnings: Problem[] }
  | { readonly instance: null; readonly problems: Problem[]; readonly warnings: Problem[] };

/** From a document to an instance, through both readers, with every problem and warning of either. */
export function jobToInstance(document: JobJson): JobRead {
  const { job, problems, warnings } = readJob(document);
  if (job === null) return { instance: null, problems, warnings };
  const built = buildInstance(job);
  if ("problems" in built) return { instance: null, problems: [...built.problems], warnings };
  return { instance: built.instance, warnings: [...warnings, ...built.warnings] };
}
