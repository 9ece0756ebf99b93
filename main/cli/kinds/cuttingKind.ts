import { type CuttingPlan, cuttingFaults, solveCuttingStock } from "../../../core/index.ts";
import type { Problem } from "../../../shared/problem.ts";
import { type CuttingInstance, type CuttingKind, cuttingInstance, cuttingKinds } from "../cuttingInstance.ts";
import type { NamedInstance } from "../instanceAtDoor.ts";
import type { Answer, PublishedKind, Readable } from "./publishedKind.ts";

/**
 * Cutting stock in one dimension, with one stock length and with several. It takes no chance and one thread, so seed and
 * threads change nothing. A step is one round of column generation or one rounding.
 */
export const cuttingKind: PublishedKind = { kinds: cuttingKinds, read };

function read(named: NamedInstance): Readable {
  const kind = named.kind as CuttingKind;
  const found = cuttingInstance(kind, named);
  if ("problems" in found) return found;
  const misfits = tooLong(named, found.instance);
  if (misfits.length > 0) return { problems: misfits, noPlan: true };
  const { problem, costScale } = found.instance;
  return {
    solve: ({ stop }) => {
      const plan = solveCuttingStock(problem, stop);
      const faults = cuttingFaults(problem, plan);
      if (faults.length > 0) throw new Error(`the plan of ${named.name} does not hold: ${faults.join("; ")}`);
      return answerOf(kind, plan, costScale);
    },
  };
}

/** Items that no stock length takes: then no plan exists. */
function tooLong({ path, fields }: NamedInstance, { problem }: CuttingInstance): Problem[] {
  const longest = Math.max(...problem.stocks.map(({ length }) => length));
  return problem.items.flatMap(({ length, count }, i) => {
    if (length <= longest || count === 0) return [];
    const value = (fields.items as unknown[])[i];
    const why = "This item is longer than every stock length, so that no plan exists";
    return [{ path: `${path}.items[${i}]`, value, why, mend: "Give a longer stock length or a shorter item" }];
  });
}

function answerOf(kind: CuttingKind, { cost, bound, patterns }: CuttingPlan, costScale: number): Answer {
  const plain = kind === "cutting-stock-1d";
  return {
    objective: cost / costScale,
    lowerBound: bound / costScale,
    provenOptimal: bound >= cost,
    found: {
      patterns: patterns.map(({ stock, times, counts }) => (plain ? { times, counts } : { stock, times, counts })),
    },
  };
}
