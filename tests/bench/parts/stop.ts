import { plannerOn } from "../../../main/workers/planRunner.ts";
import { workerFromSource } from "../../../main/workers/workerFile.ts";
import { benchJob } from "../jobs.ts";
import type { Part } from "../part.ts";
import { told } from "../spread.ts";

/** How long a stopped run takes to end, its worker's end included, at several moments of a search. */
export const stop: Part = {
  name: "stop",
  title: "From asking a run to stop to its end",
  run: async ({ seed, tell }) => {
    for (const name of ["demo", "demo x 200"]) {
      const job = await benchJob(name);
      const times: number[] = [];
      let kept = 0;
      for (const after of [300, 900, 1500, 2200, 3000, 4000]) {
        const run = plannerOn(workerFromSource()).start({ job, seed, budget: { seconds: 600 } }, () => undefined);
        const over = await Promise.race([
          run.ended.then(() => true),
          new Promise<false>((wake) => setTimeout(() => wake(false), after)),
        ]);
        if (over) continue;
        const asked = performance.now();
        run.stop();
        const { outcome } = await run.ended;
        times.push(performance.now() - asked);
        if (outcome.status === "planned") kept++;
      }
      const figure = times.length === 0 ? "every run was over before" : `${told(times, "ms", 0)}, ${kept} with a plan`;
      tell(name, figure);
    }
  },
};
