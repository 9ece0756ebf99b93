import { verifiedPlan } from "../../support/planJob.ts";
import { benchJob, workedJobs } from "../jobs.ts";
import type { Part } from "../part.ts";

/** The worked jobs, searched to the end. */
export const jobs: Part = {
  name: "jobs",
  title: "The worked jobs: gap of the chosen layout",
  run: async ({ seed, tell }) => {
    const gaps: number[] = [];
    let proven = 0;
    for (const name of workedJobs()) {
      const began = performance.now();
      const plan = verifiedPlan(await benchJob(name), { seed });
      const seconds = (performance.now() - began) / 1000;
      const chosen = plan.layouts.find(({ id }) => id === plan.chosen);
      if (chosen === undefined) throw new Error(`${name} has no chosen layout`);
      const { bound, totals } = chosen;
      gaps.push(bound.gapPercent);
      if (bound.proven) proven++;
      const gap = bound.proven ? "proven" : `gap ${bound.gapPercent.toFixed(2)} %`;
      tell(
        name.replace(".job.json", ""),
        `${gap}, cost ${totals.cost.total.toFixed(2)}, ${seconds.toFixed(2)} s (${bound.by})`,
      );
    }
    const mean = gaps.reduce((sum, gap) => sum + gap, 0) / gaps.length;
    tell(
      "all",
      `mean gap ${mean.toFixed(2)} %, worst ${Math.max(...gaps).toFixed(2)} %, ${proven} of ${gaps.length} proven`,
    );
  },
};
