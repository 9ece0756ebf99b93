import { basename, join } from "node:path";
import { type Instance, type Plan, readPlan, type Violation, verifyPlan } from "../../core/index.ts";
import type { Handlers, JobJson, LooseFile } from "../../shared/host.ts";
import type { PlanFile } from "../../shared/planFile.ts";
import type { Problem } from "../../shared/problem.ts";
import { isThere, writeWhole } from "../files/wholeFile.ts";
import { exportFiles } from "./exportFiles.ts";
import { jobToInstance } from "./jobToInstance.ts";
import type { PlanRuns } from "./planRuns.ts";
import { Refusal } from "./refusal.ts";
import type { Services } from "./services.ts";

/** A broken rule in the form of a problem, for those who read one list. */
export const violationProblem = ({ rule, at, says }: Violation): Problem => ({
  path: at.join(", "),
  value: rule,
  why: says,
  mend: "Plan the job again; a plan that breaks a rule is not used.",
});

interface Checked {
  readonly instance: Instance;
  readonly plan: Plan;
}

function checked(job: JobJson, file: PlanFile): Checked {
  const read = jobToInstance(job);
  if (read.instance === null) throw new Refusal("badInput", "The job can't be read as it stands.", read.problems);
  const { plan, problems } = readPlan(file);
  if (plan === null) throw new Refusal("badInput", "The plan can't be read.", problems);
  const violations = verifyPlan(read.instance, plan);
  if (violations.length > 0) {
    throw new Refusal("badInput", "The plan breaks rules, so nothing was written.", violations.map(violationProblem));
  }
  return { instance: read.instance, plan };
}

/** Renames the files alike, with 2, 3, … behind the stem, until none would replace another file of the folder. */
async function withFreeNames(folder: string, files: readonly LooseFile[]): Promise<LooseFile[]> {
  for (let n = 1; ; n++) {
    const named = files.map((file) => {
      const [, stem = "", ending = ""] = /^(.*?)((?:\.[a-z]+){2})$/.exec(file.name) ?? [];
      return n === 1 ? file : { ...file, name: `${stem} ${n}${ending}` };
    });
    const taken = await Promise.all(named.map(({ name }) => isThere(join(folder, name))));
    if (!taken.includes(true)) return named;
  }
}

/** Planning, checking and exporting. */
export function planHandlers(
  services: Services,
  runs: PlanRuns,
): Pick<Handlers, "startPlan" | "stopPlan" | "checkPlan" | "exportPlan"> {
  return {
    startPlan: async (request) => {
      await runs.start(request);
      return { runId: request.runId };
    },
    stopPlan: async ({ runId }) => ({ known: runs.stop(runId) }),
    checkPlan: async ({ job, plan: file }) => {
      const read = jobToInstance(job);
      if (read.instance === null) return { problems: read.problems, violations: [] };
      const { plan, problems } = readPlan(file);
      if (plan === null) return { problems: [...problems], violations: [] };
      const violations = verifyPlan(read.instance, plan);
      return { problems: [], violations: violations.map(({ rule, at, says }) => ({ rule, at: [...at], says })) };
    },
    exportPlan: async ({ job, plan: file, layout, kinds }) => {
      const { instance, plan } = checked(job, file);
      const files = exportFiles(instance, plan, layout, kinds, plan.jobName);
      if (services.dialogs === null) return { delivered: "files", files };
      const folder = await services.dialogs.pickFolder();
      if (folder === null) return { delivered: "turnedAway" };
      const named = await withFreeNames(folder, files);
      for (const { name, text } of named) await writeWhole(join(folder, name), text);
      return { delivered: "folder", folder: basename(folder), names: named.map(({ name }) => name) };
    },
  };
}
