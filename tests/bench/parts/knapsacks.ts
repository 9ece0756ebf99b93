import type { Part } from "../part.ts";
import { leftOut, mean, type PublishedInstance, publishedSet, solved } from "../publishedSet.ts";

const file = "guillotine-2stage-odd.json";
const seconds = 30;

interface KnapsackInstance extends PublishedInstance {
  readonly optimumFirstCutHorizontal: number;
  readonly optimumFirstCutVertical: number;
}

/** Two-stage knapsacks: the proved optimum of both directions of the first cut. */
export const knapsacks: Part = {
  name: "knapsacks",
  title: `Two-stage knapsacks, at most ${seconds} s each`,
  run: async ({ seed, tell }) => {
    const set = publishedSet<KnapsackInstance>(file);
    if (set === null) return tell("all", leftOut.noData);
    const times: number[] = [];
    const missed: string[] = [];
    let proved = 0;
    for (const instance of set) {
      const answer = await solved({ file, name: instance.name, seconds, seed });
      if (answer === null) return tell("all", leftOut.noEngine);
      times.push(answer.seconds);
      if (answer.provenOptimal) proved++;
      // The answer's own fields for the two directions carry the names that the optima have in the set.
      const values = JSON.stringify(answer.whole);
      const wanted = [instance.optimumFirstCutHorizontal, instance.optimumFirstCutVertical];
      if (!wanted.every((value) => new RegExp(`[:,[]${value}[,}\\]]`).test(values))) missed.push(instance.name);
    }
    tell("both optima found", `${set.length - missed.length} of ${set.length}`);
    tell("proved", `${proved} of ${set.length}`);
    tell("time", `mean ${mean(times).toFixed(3)} s, worst ${Math.max(...times).toFixed(2)} s`);
    if (missed.length > 0) tell("missed", missed.join(", "));
  },
};
