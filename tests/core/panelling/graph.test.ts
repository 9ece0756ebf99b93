import { expect, test } from "vitest";
import { shortestPath } from "../../../core/panelling/graph.ts";

test("the cheapest path of a small graph", () => {
  // 0-1-3 costs 2 + 6 = 8, 0-2-3 costs 4 + 3 = 7, 0-1-2-3 costs 2 + 1 + 3 = 6.
  const arcs = [
    { from: 0, to: 1, cost: 2 },
    { from: 0, to: 2, cost: 4 },
    { from: 1, to: 2, cost: 1 },
    { from: 1, to: 3, cost: 6 },
    { from: 2, to: 3, cost: 3 },
  ];
  expect(shortestPath({ nodeCount: 4, arcs })).toEqual({ nodes: [0, 1, 2, 3], cost: 6 });
});

test("none is told apart from one that costs nothing", () => {
  expect(shortestPath({ nodeCount: 3, arcs: [{ from: 0, to: 1, cost: 0 }] })).toBeNull();
  expect(shortestPath({ nodeCount: 1, arcs: [] })).toEqual({ nodes: [0], cost: 0 });
});

test("an arc that leads backward is refused by name", () => {
  expect(() => shortestPath({ nodeCount: 3, arcs: [{ from: 2, to: 1, cost: 0 }] })).toThrow("arc from 2 to 1");
});
