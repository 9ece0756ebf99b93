import { expect, test } from "vitest";
import { combinations } from "../../../core/choosing/combinations.ts";
import type { Covering } from "../../../core/model/covering.ts";

function covering(source: string, visibleSeams: number, costEstimate: number, aloneArea = costEstimate): Covering {
  const measures = {
    windowArea: aloneArea,
    aloneArea,
    openSeamsPerCopy: visibleSeams,
    visibleSeams,
    visibleLength: visibleSeams,
    penalties: 0,
    panels: 1,
    costEstimate,
  };
  return { source, panels: [], seams: [], measures };
}

const seamsOf = (coverings: readonly Covering[]) => coverings.map(({ measures }) => measures.visibleSeams);

test("picks by each policy, and the steps between fewest seams and lowest cost", () => {
  const left = [covering("left", 4, 10), covering("left", 1, 30)];
  const rear = [covering("rear", 2, 5), covering("rear", 0, 9)];
  const picked = combinations([left, rear]);
  expect(picked.map(({ policy, coverings }) => [policy, seamsOf(coverings)])).toEqual([
    ["cheapest", [4, 2]],
    ["fewestSeams", [1, 0]],
    // 1 + 2 seams cost 35, 4 + 0 seams 19: each buys a lower cost than any with fewer seams
    ["between", [1, 2]],
    ["between", [4, 0]],
  ]);
});

test("a job of loose pieces alone has one empty combination", () => {
  expect(combinations([])).toEqual([{ policy: "cheapest", coverings: [] }]);
});

test("of equals the covering listed first is taken", () => {
  const twins = [covering("left", 1, 10), covering("left", 1, 10)];
  expect(combinations([twins])[0]?.coverings[0]).toBe(twins[0]);
  expect(combinations([twins])).toHaveLength(1);
});
