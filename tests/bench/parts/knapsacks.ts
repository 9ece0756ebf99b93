import type { Part } from "../part.ts";
import { leftOut, mean, type PublishedInstance, publishedSet, solved } from "../publishedSet.ts";

const file = "guillotine-2stage-odd.json";
const seconds = 30;

interface KnapsackInstance extends PublishedInstance {
  readonly optimumFirstCutHorizontal: number;
  readonly optimumFirstCutVertical: number;
}

/** What the answer says of each direction of the first cut. */
type BothDirections = Readonly<
  Record<"firstCutHorizontal" | "firstCutVertical", { readonly objective: number; readonly provenOptimal: boolean }>
>;

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
      const answer = await solved({ instance, seconds, seed });
      if (answer === null) return tell("all", leftOut.noEngine);
      times.push(answer.seconds);
      const { firstCutHorizontal, firstCutVertical } = answer.whole as unknown as BothDirections;
      if (
        firstCutHorizontal.objective !== instance.optimumFirstCutHorizontal ||
        firstCutVertical.objective !== instance.optimumFirstCutVertical
      ) {
        missed.push(instance.name);
      }
      if (firstCutHorizontal.provenOptimal && firstCutVertical.provenOptimal) proved++;
    }
    tell("both optima found", `${set.length - missed.length} of ${set.length}`);
    tell("both proved", `${proved} of ${set.length}`);
    tell("time", `mean ${mean(times).toFixed(3)} s, worst ${Math.max(...times).toFixed(2)} s`);
    if (missed.length > 0) tell("missed", missed.join(", "));
  },
};
