import { basename, join } from "node:path";
import type { Handlers, OpenedJob } from "../../shared/host.ts";
import { demoName } from "../files/demoJob.ts";
import { jobFileName } from "../files/fileNames.ts";
import { jobTokens } from "../files/jobTokens.ts";
import { isThere, readWhole, writeWhole } from "../files/wholeFile.ts";
import { jobsIn } from "../files/workFolder.ts";
import { jobToInstance } from "./jobToInstance.ts";
import { openedJob } from "./openedJob.ts";
import { Refusal } from "./refusal.ts";
import type { Services } from "./services.ts";

type JobCalls =
  | "openFirst"
  | "openDemo"
  | "listJobs"
  | "openListed"
  | "openByDialog"
  | "adoptJob"
  | "readJob"
  | "saveJob"
  | "saveJobAs";

const asText = (job: unknown): string => `${JSON.stringify(job, null, 2)}\n`;

/** Opening, reading and saving of jobs. */
export function jobHandlers(services: Services): Pick<Handlers, JobCalls> {
  const { dialogs, workFolder, firstJob, demo } = services;
  const tokens = jobTokens();

  const openPath = async (path: string): Promise<OpenedJob> =>
    openedJob(await readWhole(path), basename(path), path, tokens.keep);
  const openDemo = async (): Promise<OpenedJob> => openedJob(await readWhole(demo), demoName, null, tokens.keep);
  const held = (token: string): { name: string; path: string | null } => {
    const job = tokens.find(token);
    if (job === null) throw new Refusal("unknown", "This job is not known here; open it again.");
    return job;
  };

  return {
    openFirst: () => (firstJob === null ? openDemo() : openPath(firstJob)),
    openDemo,
    listJobs: async () => {
      if (dialogs !== null) return { jobs: [] };
      const entries = await jobsIn(workFolder);
      const jobs = entries.map(({ name, path, changed }) => ({
        token: tokens.keep({ name, path }),
        name,
        changed: new Date(changed).toISOString(),
      }));
      return { jobs };
    },
    openListed: async ({ token }) => {
      const { path } = held(token);
      if (path === null) throw new Refusal("unknown", "This job is not on disk.");
      return openPath(path);
    },
    openByDialog: async () => {
      if (dialogs === null)
        throw new Refusal("notNow", "There are no system dialogs here; choose a file in the window.");
      const path = await dialogs.openJob();
      return path === null ? null : openPath(path);
    },
    adoptJob: async ({ name, text }) => openedJob(text, jobFileName(name), null, tokens.keep),
    readJob: async ({ job }) => {
      const read = jobToInstance(job);
      return { problems: read.instance === null ? read.problems : [], warnings: read.warnings };
    },
    saveJob: async ({ token, job }) => {
      const { name, path } = held(token);
      if (path === null) throw new Refusal("notNow", "This job is not on disk yet; save it under a name.");
      await writeWhole(path, asText(job));
      return { name };
    },
    saveJobAs: async ({ name, job, replace }) => {
      const path = dialogs === null ? join(workFolder, jobFileName(name)) : await dialogs.saveJob(jobFileName(name));
      if (path === null) return null;
      // A dialog has asked already whether to replace a file of that name.
      if (dialogs === null && !replace && (await isThere(path))) return { saved: false, exists: basename(path) };
      await writeWhole(path, asText(job));
      return { saved: true, token: tokens.keep({ name: basename(path), path }), name: basename(path) };
    },
  };
}
