import type { SheetCutting, SheetPlan } from "./sheetCutting.ts";
import type { SheetKnapsack, SheetKnapsackPlan } from "./sheetKnapsack.ts";
import type { FirstCut, Rectangle, SheetPlacement } from "./twoStage.ts";

/**
 * Holds a plan for one sheet against its question by plain counting, whoever made the plan.
 *
 * @returns one sentence for each thing that is wrong: an item that is outside, that two stages do not separate, that is
 * cut too often, a value that is not the sum of the items, a bound below it. None when all is well.
 */
export function sheetKnapsackFaults(
  { sheet, items }: SheetKnapsack,
  firstCut: FirstCut,
  { value, upperBound, placements }: SheetKnapsackPlan,
): string[] {
  const faults = sheetFaults(sheet, items, firstCut, placements);
  for (const [i, { most }] of items.entries()) {
    const made = placements.filter(({ item }) => item === i).length;
    if (made > most) faults.push(`item ${i} is cut ${made} times, at most ${most} are wanted`);
  }
  const worth = placements.reduce((sum, { item }) => sum + (items[item]?.value ?? 0), 0);
  if (Math.abs(worth - value) > 1e-9 * Math.max(1, worth)) {
    faults.push(`the items are worth ${worth}, the plan says ${value}`);
  }
  if (!(upperBound >= value * (1 - 1e-9))) faults.push(`the bound ${upperBound} is below the value ${value}`);
  return faults;
}

/** The same for a plan of many sheets: every item exactly as often as wanted, and costs instead of values. */
export function sheetCuttingFaults({ bins, items }: SheetCutting, { cost, bound, sheets }: SheetPlan): string[] {
  const faults: string[] = [];
  let spent = 0;
  for (const [s, { bin, firstCut, placements }] of sheets.entries()) {
    const from = bins[bin];
    if (from === undefined) faults.push(`sheet ${s} names bin ${bin} of ${bins.length}`);
    else faults.push(...sheetFaults(from, items, firstCut, placements).map((fault) => `sheet ${s}: ${fault}`));
    spent += from?.cost ?? 0;
  }
  const made = items.map(() => 0);
  for (const { item } of sheets.flatMap(({ placements }) => placements)) made[item] = (made[item] ?? 0) + 1;
  for (const [i, { count }] of items.entries()) {
    if (made[i] !== count) faults.push(`item ${i} is cut ${made[i]} times, wanted are ${count}`);
  }
  if (spent !== cost) faults.push(`the sheets cost ${spent}, the plan says ${cost}`);
  if (!(bound <= cost)) faults.push(`the bound ${bound} is above the cost ${cost}`);
  return faults;
}

/**
 * What is wrong on one sheet. Two stages separate the items if, once they are gathered into strips wherever their extents
 * across the strips overlap, those of one strip are apart along it.
 */
export function sheetFaults(
  sheet: Rectangle,
  items: readonly Rectangle[],
  firstCut: FirstCut,
  placements: readonly SheetPlacement[],
): string[] {
  const faults: string[] = [];
  const boxes: { name: string; low: number; high: number; from: number; to: number }[] = [];
  for (const { item, copy, x, y } of placements) {
    const size = items[item];
    const name = `item ${item} copy ${copy}`;
    if (size === undefined) {
      faults.push(`${name} is none of ${items.length}`);
      continue;
    }
    const [right, top] = [x + size.width, y + size.height];
    if (!(x >= 0 && y >= 0 && right <= sheet.width && top <= sheet.height))
      faults.push(`${name} lies outside the sheet`);
    boxes.push(
      firstCut === "horizontal"
        ? { name, low: y, high: top, from: x, to: right }
        : { name, low: x, high: right, from: y, to: top },
    );
  }
  boxes.sort((a, b) => a.low - b.low);
  let strip: typeof boxes = [];
  let end = Number.NEGATIVE_INFINITY;
  for (const box of boxes) {
    if (box.low >= end) strip = [];
    for (const other of strip) {
      if (box.from < other.to && other.from < box.to) {
        faults.push(`${other.name} and ${box.name} are not separated by two stages`);
      }
    }
    strip.push(box);
    end = Math.max(end, box.high);
  }
  return faults;
}
