import type { Violation } from "../../model/violation.ts";
import { breachOf, type LayoutCheck } from "../check.ts";

const breach = breachOf("restsRight");

/**
 * Where a load says what it leaves on its roll or offcut, that is the roll's length less this load and those of the same
 * roll listed before it, nothing for a roll that does not end; where it says whether that is worth keeping, it is so
 * exactly from the job's keepLength on, and says nothing where the job has none.
 */
export const restsRight: LayoutCheck = ({ job: { films, stock, instance, words }, layout }) => {
  const found: Violation[] = [];
  const { keepLength } = instance.rules;
  const taken = new Map<string, number>();
  for (const load of layout.rolls) {
    const length = load.stock === null ? films.get(load.film)?.rollLength : stock.get(load.stock)?.length;
    // A film or an entry that is not there is told by other checks.
    if (length === undefined) continue;
    const used = load.used + (load.stock === null ? 0 : (taken.get(load.stock) ?? 0));
    if (load.stock !== null) taken.set(load.stock, used);
    const leaves = length === null ? null : length - used;
    if (load.leaves !== undefined && load.leaves !== leaves) {
      const said = load.leaves === null ? "no end" : words.length(load.leaves);
      found.push(
        breach([load.id], `it says that ${said} is left; ${leaves === null ? "no end" : words.length(leaves)} is`),
      );
    }
    if (load.keep === undefined) continue;
    if (keepLength === null) {
      found.push(
        breach([load.id], "it says whether its rest is worth keeping; the job does not say from which length on"),
      );
    } else if (load.keep !== (leaves === null || leaves >= keepLength)) {
      const what = leaves === null ? "a roll without an end" : words.length(leaves);
      const worth = load.keep ? "worth keeping" : "scrap";
      found.push(breach([load.id], `it calls ${what} ${worth}; ${words.length(keepLength)} and more is worth keeping`));
    }
  }
  return found;
};
