import { buildWindow } from "../buildWindow.ts";
import { fleetJobIsThere } from "../jobs.ts";
import type { Part } from "../part.ts";
import { costAndGap, planInProcess } from "../planInProcess.ts";

const seconds = 30;

/** Fleets: many copies of the same vehicle, as the window plans them, for a set time. */
export const fleet: Part = {
  name: "fleet",
  title: `Fleets, planned for ${seconds} s in a worker thread of a fresh process`,
  run: async ({ seed, tell }) => {
    buildWindow();
    const single = await planInProcess({ job: "demo", seed, worker: "built", seconds });
    const before = single.run.firstSeconds;
    tell("demo: first verified layout", before === null ? "none came" : `${before.toFixed(2)} s`);
    for (const job of ["demo x 200", "fleet"]) {
      if (job === "fleet" && !fleetJobIsThere()) {
        tell(job, "left out: its generator is not there");
        continue;
      }
      const { run, peak } = await planInProcess({ job, seed, worker: "built", seconds });
      const { firstSeconds } = run;
      const ratio =
        before !== null && firstSeconds !== null ? `, ${(firstSeconds / before).toFixed(2)} x the demo's` : "";
      tell(
        `${job}: first verified layout`,
        firstSeconds === null ? "none came" : `${firstSeconds.toFixed(2)} s${ratio}`,
      );
      tell(`${job}: after ${run.fullSeconds.toFixed(1)} s`, costAndGap(run));
      tell(`${job}: peak memory of all processes`, peak === null ? "not told by this system" : `${peak.toFixed(0)} MB`);
    }
  },
};
