import type { Part } from "../part.ts";
import { leftOut, mean, type PublishedInstance, publishedSet, solved } from "../publishedSet.ts";

const file = "cutting-1d-part.json";
const seconds = 5;

interface CuttingInstance extends PublishedInstance {
  readonly bestKnown: number;
}

/** Cutting stock in one dimension: how many are proved, and how long that takes. */
export const cutting: Part = {
  name: "cutting",
  title: `Cutting stock in one dimension, at most ${seconds} s each`,
  run: async ({ seed, tell }) => {
    const set = publishedSet<CuttingInstance>(file);
    if (set === null) return tell("all", leftOut.noData);
    const times: number[] = [];
    const open: string[] = [];
    let best = 0;
    for (const instance of set) {
      const { name, bestKnown } = instance;
      const answer = await solved({ instance, seconds, seed });
      if (answer === null) return tell("all", leftOut.noEngine);
      times.push(answer.seconds);
      if (!answer.provenOptimal) open.push(name);
      if (answer.objective <= bestKnown) best++;
    }
    const proved = set.length - open.length;
    tell("proved", `${proved} of ${set.length} (${((100 * proved) / set.length).toFixed(1)} %)`);
    tell("as good as the best known", `${best} of ${set.length}`);
    tell("time", `mean ${mean(times).toFixed(3)} s, worst ${Math.max(...times).toFixed(2)} s`);
    if (open.length > 0) tell("not proved", open.join(", "));
  },
};
