import { buildInstance, type Instance, readJob } from "../../core/index.ts";
import type { JobJson } from "../../shared/host.ts";
import type { JobFile } from "../../shared/jobFile.ts";

/** A job document read: with defaults filled in, and with mirrors and units worked out; null as far as it can't be. */
export interface Resolved {
  readonly job: JobFile | null;
  readonly instance: Instance | null;
}

const known = new WeakMap<JobJson, Resolved>();

/** Reads a document once; the same document again costs nothing. */
export function resolve(document: JobJson): Resolved {
  const before = known.get(document);
  if (before !== undefined) return before;
  const { job } = readJob(document);
  const built = job === null ? null : buildInstance(job);
  const resolved: Resolved = { job, instance: built !== null && "instance" in built ? built.instance : null };
  known.set(document, resolved);
  return resolved;
}
