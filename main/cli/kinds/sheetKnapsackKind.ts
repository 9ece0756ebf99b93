import { type FirstCut, type SheetKnapsack, sheetKnapsackFaults, solveSheetKnapsack } from "../../../core/index.ts";
import type { NamedInstance } from "../instanceAtDoor.ts";
import { placedItems } from "./placedItems.ts";
import type { PublishedKind, Readable } from "./publishedKind.ts";
import { copies, SheetReader, side, worth } from "./sheetReader.ts";

/**
 * The most valuable items from one sheet in two guillotine stages: `W`, `H`, `items: [[w, h, at most, value], ...]`.
 *
 * There are two questions, by the direction of the first cuts, and both are answered: `firstCutHorizontal` and
 * `firstCutVertical`. The fields every kind has tell of the better one. Values are maximised, so that the bound under
 * the name `lowerBound` limits them from above; it stands as `upperBound` too. No chance, one thread. A step is one round
 * of pricing or one strip tried.
 */
export const sheetKnapsackKind: PublishedKind = { kinds: ["guillotine-knapsack-2stage", "guillotine-knapsack"], read };

function read(named: NamedInstance): Readable {
  const reader = new SheetReader(named);
  const sheet = {
    width: reader.number("W", named.fields.W, side),
    height: reader.number("H", named.fields.H, side),
  };
  const items = reader
    .rows("items", "[w, h, at most, value]", [side, side, copies, worth])
    .map(([width = 1, height = 1, most = 0, value = 0]) => ({ width, height, most, value }));
  if (reader.problems.length > 0) return { problems: reader.problems };
  const problem: SheetKnapsack = { sheet, items };
  return {
    solve: ({ stop }) => {
      const horizontal = answered(named.name, problem, "horizontal", stop);
      const vertical = answered(named.name, problem, "vertical", stop);
      const best = vertical.objective > horizontal.objective ? vertical : horizontal;
      const upperBound = Math.max(horizontal.upperBound, vertical.upperBound);
      return {
        objective: best.objective,
        lowerBound: upperBound,
        provenOptimal: best.objective >= upperBound,
        found: {
          upperBound,
          firstCut: best === vertical ? "vertical" : "horizontal",
          cuts: best.cuts,
          placements: best.placements,
          firstCutHorizontal: horizontal,
          firstCutVertical: vertical,
        },
      };
    },
  };
}

function answered(name: string, problem: SheetKnapsack, firstCut: FirstCut, stop: () => boolean) {
  const plan = solveSheetKnapsack(problem, firstCut, stop);
  const faults = sheetKnapsackFaults(problem, firstCut, plan);
  if (faults.length > 0) throw new Error(`the plan of ${name} does not hold: ${faults.join("; ")}`);
  const { value: objective, upperBound, cuts, placements } = plan;
  const provenOptimal = objective >= upperBound;
  return { objective, upperBound, provenOptimal, cuts, placements: placedItems(placements, problem.items) };
}
