import fc from "fast-check";
import { expect, test } from "vitest";
import { embeddedEngine } from "../../../core/programme/embeddedEngine.ts";
import { type ArcGraph, pathProgramme } from "../../../core/programme/pathProgramme.ts";

test("a path of two arcs beats the dear direct one: 2 + 3 < 6", () => {
  const graph: ArcGraph = {
    nodeCount: 3,
    arcs: [
      { from: 0, to: 1, cost: 2 },
      { from: 1, to: 2, cost: 3 },
      { from: 0, to: 2, cost: 6 },
    ],
  };
  expect(embeddedEngine(pathProgramme(graph))).toEqual({ status: "optimal", objective: 5, values: [1, 1, 0] });
});

test("a last node that no arc reaches makes it infeasible", () => {
  const graph: ArcGraph = { nodeCount: 3, arcs: [{ from: 0, to: 1, cost: 1 }] };
  expect(embeddedEngine(pathProgramme(graph)).status).toBe("infeasible");
});

test("agrees with enumerating every path of small graphs without cycles", () => {
  const arc = fc.tuple(fc.integer({ min: 0, max: 5 }), fc.integer({ min: 1, max: 6 }), fc.integer({ min: 0, max: 20 }));
  fc.assert(
    fc.property(fc.array(arc, { maxLength: 14 }), (raw) => {
      const arcs = raw.map(([from, step, cost]) => ({ from, to: Math.min(6, from + step), cost }));
      const least = cheapest(arcs, 0);
      const outcome = embeddedEngine(pathProgramme({ nodeCount: 7, arcs }));
      if (least === Infinity) expect(outcome.status).toBe("infeasible");
      else expect(outcome).toMatchObject({ status: "optimal", objective: least });
    }),
    { seed: 20261125, numRuns: 200 },
  );
});

function cheapest(arcs: ArcGraph["arcs"], node: number): number {
  if (node === 6) return 0;
  return Math.min(
    Infinity,
    ...arcs.filter(({ from }) => from === node).map(({ to, cost }) => cost + cheapest(arcs, to)),
  );
}
