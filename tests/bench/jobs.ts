import { existsSync, readdirSync } from "node:fs";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import type { JobJson } from "../../shared/host.ts";
import { dataFile } from "../support/dataFile.ts";
import { projectRoot } from "../support/projectRoot.ts";
import { twelveElevations } from "../support/twelveElevations.ts";

/** The jobs that are planned for the benchmark, each by a name that a process of its own can be given. */

const fleetGenerator = join(projectRoot, "tests/support/fleetJob.ts");
export const fleetJobIsThere = (): boolean => existsSync(fleetGenerator);

const workedFolder = "worked-jobs";
const tenFolder = "ten-jobs";
const jobsIn = (folder: string): string[] =>
  readdirSync(join(projectRoot, "tests/data", folder))
    .filter((name) => name.endsWith(".job.json"))
    .sort((a, b) => Number.parseInt(a, 10) - Number.parseInt(b, 10));
export const workedJobs = (): string[] => jobsIn(workedFolder);
/** The ten jobs with breaks. */
export const tenJobs = (): string[] => jobsIn(tenFolder);

interface Counted {
  readonly count?: number;
}

/** The job with every count of elevations and loose pieces times `times`. */
function multiplied(job: JobJson, times: number): JobJson {
  const more = (list: unknown): unknown =>
    Array.isArray(list) ? list.map((one: Counted) => ({ ...one, count: (one.count ?? 1) * times })) : list;
  return { ...job, elevations: more(job.elevations), pieces: more(job.pieces) };
}

/**
 * @param name `demo`, `demo x 200`, `fleet`, `twelve elevations`, or the file name of a worked job or one of the ten
 * @throws Error when there is no such job
 */
export async function benchJob(name: string): Promise<JobJson> {
  const times = /^demo(?: x (\d+))?$/.exec(name);
  if (times !== null) return multiplied(dataFile<JobJson>("demo.job.json"), Number(times[1] ?? 1));
  if (workedJobs().includes(name)) return dataFile<JobJson>(`${workedFolder}/${name}`);
  if (tenJobs().includes(name)) return dataFile<JobJson>(`${tenFolder}/${name}`);
  if (name === "twelve elevations") return twelveElevations();
  if (name === "fleet" && fleetJobIsThere()) {
    const { fleetJob } = (await import(pathToFileURL(fleetGenerator).href)) as { fleetJob: () => JobJson };
    return fleetJob();
  }
  throw new Error(`no job ${name}`);
}
