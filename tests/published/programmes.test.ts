import { describe, expect, test } from "vitest";
import type { Programme } from "../../core/programme/programme.ts";
import { dataFile } from "../support/dataFile.ts";
import { highs } from "../support/highs.ts";

/**
 * Published cutting-stock examples as integer programmes with every cutting pattern written out, solved through the port:
 * a second way to figures that `cuttingStock.test.ts` reaches by column generation. Citations stand beside the figures in
 * tests/data/published-cutting.json. All are too large to be confirmed by enumeration.
 */
interface Example {
  readonly id: string;
  readonly data: {
    readonly stock?: number;
    readonly stocks?: readonly { readonly length: number; readonly cost: number }[];
    readonly items: readonly (readonly [length: number, count: number])[];
  };
}
const { examples } = dataFile<{ examples: readonly Example[] }>("published-cutting.json");

/** Every way to cut one piece of stock, those included that leave room for more. */
function patterns(items: Example["data"]["items"], room: number, from = 0): number[][] {
  if (from === items.length) return [items.map(() => 0)];
  const [length, count] = items[from] as Example["data"]["items"][number];
  const found: number[][] = [];
  for (let times = 0; times <= count && times * length <= room; times++) {
    for (const rest of patterns(items, room - times * length, from + 1)) found.push(rest.with(from, times));
  }
  return found;
}

function programmeOf(id: string): Programme {
  const found = examples.find((one) => one.id === id);
  if (found === undefined) throw new Error(`no example ${id}`);
  const { stock, stocks, items } = found.data;
  const columns = (stocks ?? [{ length: stock as number, cost: 1 }]).flatMap(({ length, cost }) =>
    patterns(items, length).map((counts) => ({ counts, cost })),
  );
  return {
    variables: columns.map(({ cost }) => ({ cost, whole: true })),
    rows: items.map(([, demand], item) => ({
      terms: columns.flatMap(({ counts }, variable) =>
        counts[item] === 0 ? [] : [{ variable, coefficient: counts[item] as number }],
      ),
      least: demand,
      most: null,
    })),
  };
}

describe("published cutting stock with all patterns", () => {
  test.each([
    // Encyclopedia article "Cutting stock problem": 5600 mm paper machine, 13 widths, 73 rolls.
    ["paper-machine-5600", 73],
    // Chvátal (1983), Linear Programming, W. H. Freeman, chapter 13: 100 in rolls, 453 of them.
    ["chvatal-100", 453],
    // Fourer, Gay and Kernighan (2003), AMPL, 2nd ed., section 15.2: 110 in rolls, 47 of them.
    ["textbook-110", 47],
    // Gilmore and Gomory (1961), Operations Research 9(6), 849-859: three stock lengths, cost 170.
    ["gilmore-gomory-three-stock-lengths", 170],
  ])("%s comes to %d, proved by HiGHS", (id, answer) => {
    expect(highs(programmeOf(id))).toMatchObject({ status: "optimal", objective: answer });
  });
});
