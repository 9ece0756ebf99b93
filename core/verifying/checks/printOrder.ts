import type { Violation } from "../../model/violation.ts";
import { breachOf, type LayoutCheck } from "../check.ts";

const breach = breachOf("printOrder");

/** Every cut is printed once, those of one load in the order in which they lie on it. */
export const printOrder: LayoutCheck = ({ layout }) => {
  const found: Violation[] = [];
  const cuts = new Map<string, { load: string; number: number }>();
  for (const load of layout.rolls) {
    load.cuts.forEach((_, index) => {
      cuts.set(`${load.id}:${index + 1}`, { load: load.id, number: index + 1 });
    });
  }
  const printed = new Set<string>();
  const last = new Map<string, number>();
  for (const id of layout.printOrder) {
    const cut = cuts.get(id);
    if (cut === undefined) {
      found.push(breach([id], "there is no such cut to print"));
      continue;
    }
    if (printed.has(id)) found.push(breach([id], "it is printed more than once"));
    printed.add(id);
    if ((last.get(cut.load) ?? 0) > cut.number)
      found.push(breach([id], "it is printed after one that lies behind it on the roll"));
    last.set(cut.load, cut.number);
  }
  for (const id of cuts.keys()) if (!printed.has(id)) found.push(breach([id], "it is never printed"));
  return found;
};
