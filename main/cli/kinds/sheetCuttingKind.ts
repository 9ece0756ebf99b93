import { type FirstCut, type SheetCutting, sheetCuttingFaults, solveSheetCutting } from "../../../core/index.ts";
import type { Problem } from "../../../shared/problem.ts";
import type { NamedInstance } from "../instanceAtDoor.ts";
import { placedItems } from "./placedItems.ts";
import type { PublishedKind, Readable } from "./publishedKind.ts";
import { copies, money, SheetReader, side } from "./sheetReader.ts";

/** The published bounds and best costs are for sheets that are first cut into strips as wide as the sheet. */
const firstCuts: readonly FirstCut[] = ["horizontal"];

/**
 * Items from sheets of several sizes at the least cost: `bins: [[W, H, cost], ...]`, `items: [[w, h, count], ...]`.
 *
 * Every sheet is listed by itself: `bin` its index, `cuts` the heights of the strips that the first cuts make, from the
 * bottom, what is left above them is waste. No chance, one thread. A step is one round of column generation or one rounding.
 */
export const sheetCuttingKind: PublishedKind = { kinds: ["guillotine-2stage-variable-bins"], read };

function read(named: NamedInstance): Readable {
  const reader = new SheetReader(named);
  const bins = reader
    .rows("bins", "[W, H, cost]", [side, side, money])
    .map(([width = 1, height = 1, cost = 1]) => ({ width, height, cost }));
  const items = reader
    .rows("items", "[w, h, count]", [side, side, copies])
    .map(([width = 1, height = 1, count = 0]) => ({ width, height, count }));
  if (bins.length === 0 && reader.problems.length === 0) reader.wrong("bins", [], "There is no bin", "Give one");
  if (reader.problems.length > 0) return { problems: reader.problems };
  const problem: SheetCutting = { bins, items };
  const misfits = tooLarge(named, problem);
  if (misfits.length > 0) return { problems: misfits, noPlan: true };
  return {
    solve: ({ stop }) => {
      const plan = solveSheetCutting(problem, firstCuts, stop);
      const faults = sheetCuttingFaults(problem, plan);
      if (faults.length > 0) throw new Error(`the plan of ${named.name} does not hold: ${faults.join("; ")}`);
      const sheets = plan.sheets.map(({ bin, cuts, placements }) => ({
        bin,
        cuts,
        placements: placedItems(placements, items),
      }));
      return {
        objective: plan.cost,
        lowerBound: plan.bound,
        provenOptimal: plan.bound >= plan.cost,
        found: { sheets },
      };
    },
  };
}

/** Items that no bin takes: then no plan exists. */
function tooLarge({ path, fields }: NamedInstance, { bins, items }: SheetCutting): Problem[] {
  return items.flatMap(({ width, height, count }, i) => {
    if (count === 0 || bins.some((bin) => bin.width >= width && bin.height >= height)) return [];
    const value = (fields.items as unknown[])[i];
    const why = "This item fits no bin, so that no plan exists";
    return [{ path: `${path}.items[${i}]`, value, why, mend: "Give a larger bin or a smaller item" }];
  });
}
