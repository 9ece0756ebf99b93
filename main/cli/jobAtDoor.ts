import { basename } from "node:path";
import { type Instance, readJobText } from "../../core/index.ts";
import type { JobJson } from "../../shared/host.ts";
import type { Problem } from "../../shared/problem.ts";
import { FileFault } from "../files/fileFault.ts";
import { readWhole } from "../files/wholeFile.ts";
import { jobToInstance } from "../handlers/jobToInstance.ts";

export type JobAtDoor =
  | { readonly instance: Instance; readonly document: JobJson; readonly warnings: readonly Problem[] }
  | { readonly instance: null; readonly problems: readonly Problem[]; readonly warnings: readonly Problem[] };

/** A file's text, or the problem of reading it. */
export async function textAtDoor(path: string): Promise<{ text: string } | { problem: Problem }> {
  try {
    return { text: await readWhole(path) };
  } catch (cause) {
    if (!(cause instanceof FileFault)) throw cause;
    return { problem: { path, value: basename(path), why: cause.message, mend: "Name a file that can be read" } };
  }
}

/** A job from a file named on the command line, with every problem of the file or of the job. */
export async function jobAtDoor(path: string): Promise<JobAtDoor> {
  const read = await textAtDoor(path);
  if ("problem" in read) return { instance: null, problems: [read.problem], warnings: [] };
  const { job, problems, warnings } = readJobText(read.text);
  if (job === null) return { instance: null, problems, warnings };
  const document = JSON.parse(read.text.replace(/^\uFEFF/, "")) as JobJson; // read above, so it is an object
  const built = jobToInstance(document);
  return built.instance === null ? built : { instance: built.instance, document, warnings: built.warnings };
}
