import type { CuttingPlan, CuttingStock } from "./cuttingStock.ts";

/**
 * Holds a plan against its question by plain counting, whoever made the plan.
 *
 * @returns one sentence for each thing that is wrong: a pattern longer than its stock, numbers that are not whole, items
 * cut too often or too seldom, a cost that is not the sum of its patterns, a bound above the cost. None when all is well.
 */
export function cuttingFaults({ stocks, items }: CuttingStock, { cost, bound, patterns }: CuttingPlan): string[] {
  const faults: string[] = [];
  const made = items.map(() => 0);
  let spent = 0;
  for (const [p, { stock, times, counts }] of patterns.entries()) {
    const from = stocks[stock];
    if (from === undefined) faults.push(`pattern ${p} names stock ${stock} of ${stocks.length}`);
    if (!(Number.isInteger(times) && times > 0)) faults.push(`pattern ${p} is used ${times} times`);
    if (counts.length !== items.length) faults.push(`pattern ${p} counts ${counts.length} items of ${items.length}`);
    let filled = 0;
    for (const [i, count] of counts.entries()) {
      if (!(Number.isInteger(count) && count >= 0)) faults.push(`pattern ${p} holds item ${i} ${count} times`);
      filled += count * (items[i]?.length ?? 0);
      made[i] = (made[i] ?? 0) + count * times;
    }
    if (from !== undefined && filled > from.length) faults.push(`pattern ${p} fills ${filled} of ${from.length}`);
    spent += (from?.cost ?? 0) * times;
  }
  for (const [i, { count }] of items.entries()) {
    if (made[i] !== count) faults.push(`item ${i} is cut ${made[i]} times, wanted are ${count}`);
  }
  if (spent !== cost) faults.push(`the patterns cost ${spent}, the plan says ${cost}`);
  if (!(bound <= cost)) faults.push(`the bound ${bound} is above the cost ${cost}`);
  return faults;
}
