import { spawnSync } from "node:child_process";
import { join } from "node:path";
import { bestByHand } from "../../support/fullWidthByHand.ts";
import { instanceOf } from "../../support/planJob.ts";
import { projectRoot } from "../../support/projectRoot.ts";
import { buildWindow } from "../buildWindow.ts";
import { benchJob, tenJobs } from "../jobs.ts";
import { onOneCore } from "../onOneCore.ts";
import type { Part } from "../part.ts";
import { planInProcess } from "../planInProcess.ts";
import { median, told } from "../spread.ts";

/** Enough for the first layout and the comparison of widths; nothing here waits for sharp bounds. */
const seconds = 20;
const large = "twelve elevations";

/** One cold panelling of a job in a process of its own. */
function panelledOnce(job: string, seed: number): { seconds: number; coverings: number } {
  const script = join(projectRoot, "tests/bench/coverOnce.ts");
  const [command, ...args] = onOneCore([process.execPath, "--import", "tsx", script, job, `${seed}`]);
  const { status, stdout } = spawnSync(command as string, args, {
    cwd: projectRoot,
    encoding: "utf8",
    stdio: ["ignore", "pipe", "inherit"],
  });
  if (status !== 0) throw new Error(`panelling ${job} ended with status ${status}`);
  return JSON.parse(stdout) as { seconds: number; coverings: number };
}

/** Twelve elevations of 12 m beside the demo, on one core; and the ten jobs with breaks beside full widths by hand. */
export const sections: Part = {
  name: "sections",
  title: `Sections found: twelve elevations of 12 m on one core; ten jobs with breaks, planned for at most ${seconds} s`,
  run: async ({ seed, repeats, tell }) => {
    buildWindow();
    const medians: Record<string, { first: number; panelled: number }> = {};
    for (const job of ["demo", large]) {
      const first: number[] = [];
      const panelled: number[] = [];
      let coverings = 0;
      for (let repeat = 0; repeat < repeats; repeat++) {
        const { run } = await planInProcess({ job, seed, worker: "built", seconds, oneCore: true });
        if (run.firstSeconds === null) throw new Error(`${job} was not planned but ${run.status}`);
        first.push(run.firstSeconds);
        const once = panelledOnce(job, seed);
        panelled.push(once.seconds);
        coverings = once.coverings;
      }
      tell(`${job}: first verified layout, as built`, told(first, "s"));
      tell(`${job}: panelling on every width, from source`, `${told(panelled, "s")}, ${coverings} coverings`);
      medians[job] = { first: median(first), panelled: median(panelled) };
    }
    const [demo, twelve] = [medians.demo, medians[large]];
    if (demo === undefined || twelve === undefined) throw new Error("nothing was measured");
    tell(
      `${large}: over the demo`,
      `first layout ${(twelve.first / demo.first).toFixed(2)} x, panelling ${(twelve.panelled / demo.panelled).toFixed(2)} x`,
    );
    let fewer = 0;
    for (const job of tenJobs()) {
      const hand = bestByHand(instanceOf(await benchJob(job)))?.openSeams;
      const { run } = await planInProcess({ job, seed, worker: "built", seconds });
      if (run.fewestOpenSeams === null) throw new Error(`${job} was not planned but ${run.status}`);
      if (hand === undefined || run.fewestOpenSeams < hand) fewer++;
      tell(
        job.replace(".job.json", ""),
        `open seams by hand ${hand ?? "none legal"}, ours ${run.fewestOpenSeams}, chosen ${run.openSeams}, first layout ${run.firstSeconds?.toFixed(2)} s, all ${run.fullSeconds.toFixed(2)} s`,
      );
    }
    tell("ten jobs", `fewer open seams than by hand in ${fewer}`);
  },
};
