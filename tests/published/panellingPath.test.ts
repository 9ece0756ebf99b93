import { describe, expect, test } from "vitest";
import { type PanelGraph, shortestPath } from "../../core/panelling/graph.ts";
import { dataFile } from "../support/dataFile.ts";

/**
 * Interval covers and a shortest path printed elsewhere, solved by the very function that finds the cheapest split of a
 * section: a panel is an interval, and a split is a path. Citations stand beside the figures in
 * tests/data/published-examples.json.
 */
interface CoverExample {
  readonly id: string;
  readonly data: {
    readonly cover: readonly [number, number];
    readonly intervals: readonly (readonly [from: number, to: number, cost?: number])[];
  };
  readonly answer: { readonly cost?: number; readonly count?: number; readonly chosen: readonly number[] };
}
interface PathExample {
  readonly id: string;
  readonly data: { readonly source: string; readonly arcs: readonly (readonly [string, string, number])[] };
  readonly answer: { readonly distance: Readonly<Record<string, number>> };
}
const { examples } = dataFile<{ examples: readonly { readonly id: string }[] }>("published-examples.json");
function example<T extends { readonly id: string }>(id: string): T {
  const found = examples.find((one) => one.id === id);
  if (!found) throw new Error(`no example ${id}`);
  return found as T;
}

/**
 * Covering whole cells first..last by intervals: node k stands for "the first k cells are covered". Intervals may overlap,
 * so each leads to its end from its own beginning and from every cell that it covers, at the same cost.
 */
function coverGraph({ cover: [first, last], intervals }: CoverExample["data"]): PanelGraph {
  const arcs = intervals.flatMap(([from, to, cost = 1]) =>
    Array.from({ length: to - from + 1 }, (_, covered) => ({ from: from - first + covered, to: to - first + 1, cost })),
  );
  return { nodeCount: last - first + 2, arcs };
}

describe("interval covers", () => {
  // USA Computing Olympiad, December 2005 Silver, "Cleaning Shifts": cost 5.
  test("the weighted one of five cells costs 5", () => {
    const { data, answer } = example<CoverExample>("interval-cover-weighted");
    const path = shortestPath(coverGraph(data));
    expect(path?.cost).toBe(5);
    expect(path?.cost).toBe(answer.cost);
    expect(path?.nodes).toHaveLength(answer.chosen.length + 1);
  });

  // USA Computing Olympiad, December 2004 Silver, "Cleaning Shifts": 2 intervals.
  test("the one of ten cells takes two intervals", () => {
    const { data, answer } = example<CoverExample>("interval-cover-count");
    const path = shortestPath(coverGraph(data));
    expect(path?.cost).toBe(2);
    expect(path?.cost).toBe(answer.count);
  });

  test("without the interval that reaches the end there is no cover", () => {
    const { data } = example<CoverExample>("interval-cover-count");
    expect(shortestPath(coverGraph({ ...data, intervals: data.intervals.slice(0, 2) }))).toBeNull();
  });
});

/**
 * A graph with cycles as one without: a copy of every node for each number of steps taken, with a free step that stays.
 * A cheapest path takes at most nodes - 1 steps, since no cycle here costs less than nothing.
 */
function layered({ source, arcs }: PathExample["data"], target: string): PanelGraph {
  const names = [source, ...new Set(arcs.map(([, to]) => to).filter((name) => name !== source))];
  const n = names.length;
  const node = (name: string, step: number): number => step * n + names.indexOf(name);
  const steps = Array.from({ length: n - 1 }, (_, step) => [
    ...arcs.map(([from, to, cost]) => ({ from: node(from, step), to: node(to, step + 1), cost })),
    ...names.map((name) => ({ from: node(name, step), to: node(name, step + 1), cost: 0 })),
  ]);
  const sink = n * n;
  return { nodeCount: sink + 1, arcs: [...steps.flat(), { from: node(target, n - 1), to: sink, cost: 0 }] };
}

describe("shortest paths", () => {
  // Cormen, Leiserson, Rivest and Stein (2009), Introduction to Algorithms, 3rd ed., Figure 24.6.
  const { data, answer } = example<PathExample>("shortest-path-5-nodes");
  test.each(Object.entries(answer.distance))("from s to %s costs %d", (target, distance) => {
    expect(shortestPath(layered(data, target))?.cost).toBe(distance);
  });
});
