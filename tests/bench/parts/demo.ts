import { buildWindow } from "../buildWindow.ts";
import type { Part } from "../part.ts";
import { costAndGap, planInProcess } from "../planInProcess.ts";
import { told } from "../spread.ts";

/** The demo as people meet it: as built for the window, and from source as on the command line. */
export const demo: Part = {
  name: "demo",
  title: "The demo, planned in a worker thread of a fresh process",
  run: async ({ seed, repeats, tell }) => {
    buildWindow();
    // The two ways in turn, so that whatever else the machine does slows both alike.
    const ways = { built: [], source: [] } as Record<"built" | "source", Awaited<ReturnType<typeof planInProcess>>[]>;
    for (let repeat = 0; repeat < repeats; repeat++) {
      for (const worker of ["built", "source"] as const) {
        ways[worker].push(await planInProcess({ job: "demo", seed, worker, seconds: 120 }));
      }
    }
    for (const [worker, runs] of Object.entries(ways)) {
      const how = worker === "built" ? "as built" : "from source";
      const first = runs.flatMap(({ run }) => run.firstSeconds ?? []);
      const full = runs.map(({ run }) => run.fullSeconds);
      const peaks = runs.flatMap(({ peak }) => peak ?? []);
      tell(`first verified layout, ${how}`, first.length > 0 ? told(first, "s") : "none came");
      tell(`whole comparison, ${how}`, told(full, "s"));
      tell(`peak memory of all processes, ${how}`, peaks.length > 0 ? told(peaks, "MB", 0) : "not told by this system");
    }
    const last = ways.built.at(-1)?.run;
    if (last === undefined) return;
    tell("chosen layout", costAndGap(last));
    tell("proven layouts", `${last.proven} of ${last.layouts}`);
  },
};
