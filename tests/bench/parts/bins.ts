import type { Part } from "../part.ts";
import { leftOut, type PublishedInstance, publishedSet, solved } from "../publishedSet.ts";

const file = "guillotine-variable-bins-odd.json";
const seconds = 30;

interface BinInstance extends PublishedInstance {
  readonly bestKnownCost: number;
}

/** Two-stage bins of several sizes: cost beside the best that is listed. */
export const bins: Part = {
  name: "bins",
  title: `Two-stage variable bins, at most ${seconds} s each`,
  run: async ({ seed, tell }) => {
    const set = publishedSet<BinInstance>(file);
    if (set === null) return tell("all", leftOut.noData);
    const over: number[] = [];
    for (const instance of set) {
      const { name, bestKnownCost } = instance;
      const answer = await solved({ instance, seconds, seed });
      if (answer === null) return tell("all", leftOut.noEngine);
      const { objective, lowerBound } = answer;
      over.push((100 * (objective - bestKnownCost)) / bestKnownCost);
      const gap = (100 * (objective - lowerBound)) / objective;
      tell(name, `cost ${objective}, ${over.at(-1)?.toFixed(3)} % over the best listed, gap ${gap.toFixed(3)} %`);
    }
    tell("worst", `${Math.max(...over).toFixed(3)} % over the best listed`);
  },
};
