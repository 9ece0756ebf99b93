import type { Violation } from "../../model/violation.ts";
import { breachOf, type LayoutCheck } from "../check.ts";

const breach = breachOf("cutsFollow");

/**
 * A load begins with its leader, its cuts follow one another without overlapping, and what is used reaches the end of the
 * last one and the trailer (rules 20 and 21). A cut holds something.
 */
export const cutsFollow: LayoutCheck = ({ job: { instance, words }, layout }) => {
  const { leader, trailer } = instance.rules;
  const found: Violation[] = [];
  for (const load of layout.rolls) {
    if (load.cuts.length === 0) found.push(breach([load.id], "it has no cut"));
    let end = leader;
    load.cuts.forEach((cut, index) => {
      const at = [load.id, `${load.id}:${index + 1}`];
      if (cut.start < end) {
        const before = index === 0 ? "the leader" : "the cut before it";
        found.push(breach(at, `it starts at ${words.length(cut.start)}; ${before} ends at ${words.length(end)}`));
      }
      if (cut.length <= 0) found.push(breach(at, `its length is ${words.length(cut.length)}`));
      if (cut.pieces.length === 0) found.push(breach(at, "nothing lies in it"));
      end = Math.max(end, cut.start + cut.length);
    });
    if (load.used < end + trailer) {
      const due = words.length(end + trailer);
      found.push(breach([load.id], `it uses ${words.length(load.used)}; with the trailer its cuts end at ${due}`));
    }
  }
  return found;
};
