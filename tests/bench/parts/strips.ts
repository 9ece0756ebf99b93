import type { Part } from "../part.ts";
import { leftOut, mean, type PublishedInstance, publishedSet, solved } from "../publishedSet.ts";

const seconds = 10;
/** One in so many is solved: the last set is ten times as long as the others, and each takes its whole time. */
const sets = [
  { file: "rect-c.json", oneIn: 1 },
  { file: "rect-burke-odd.json", oneIn: 1 },
  { file: "rect-beng-odd.json", oneIn: 1 },
  { file: "rect-bwmv-part.json", oneIn: 10 },
] as const;

interface StripInstance extends PublishedInstance {
  readonly bestKnown: number;
}

/** Rectangular strips: used height beside the best known. */
export const strips: Part = {
  name: "strips",
  title: `Rectangular strips, ${seconds} s each`,
  run: async ({ seed, tell }) => {
    for (const { file, oneIn } of sets) {
      const set = publishedSet<StripInstance>(file);
      if (set === null) return tell("all", leftOut.noData);
      const chosen = set.filter((_, place) => place % oneIn === 0);
      const over: number[] = [];
      let proved = 0;
      for (const instance of chosen) {
        const { bestKnown } = instance;
        const answer = await solved({ instance, seconds, seed });
        if (answer === null) return tell("all", leftOut.noEngine);
        over.push((100 * (answer.objective - bestKnown)) / bestKnown);
        if (answer.provenOptimal) proved++;
      }
      const worst = Math.max(...over).toFixed(2);
      tell(
        file.replace(".json", ""),
        `mean ${mean(over).toFixed(2)} % over the best known, worst ${worst} %, ${proved} of ${chosen.length} proved${oneIn === 1 ? "" : ` (one instance in ${oneIn})`}`,
      );
    }
  },
};
