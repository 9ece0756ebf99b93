import { workedJobs } from "../jobs.ts";
import type { Part } from "../part.ts";
import { costAndGap, planInProcess } from "../planInProcess.ts";
import { mean } from "../publishedSet.ts";

const seconds = 60;

/** The worked jobs, planned as a host does it, with every engine that a host hands in. */
export const jobs: Part = {
  name: "jobs",
  title: `The worked jobs, planned for at most ${seconds} s each: the chosen layout`,
  run: async ({ seed, tell }) => {
    const gaps: number[] = [];
    let proven = 0;
    for (const job of workedJobs()) {
      const { run } = await planInProcess({ job, seed, worker: "source", seconds });
      if (run.gapPercent === null) throw new Error(`${job} was not planned but ${run.status}`);
      gaps.push(run.gapPercent);
      if (run.chosenProven) proven++;
      const standing = run.chosenProven ? `proven, cost ${run.cost?.toFixed(2)} (${run.by})` : costAndGap(run);
      tell(job.replace(".job.json", ""), `${standing}, ${run.fullSeconds.toFixed(2)} s`);
    }
    const worst = Math.max(...gaps).toFixed(2);
    tell("all", `mean gap ${mean(gaps).toFixed(2)} %, worst ${worst} %, ${proven} of ${gaps.length} proven`);
  },
};
