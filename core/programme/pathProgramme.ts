import type { Programme } from "./programme.ts";

/** Nodes 0 to nodeCount - 1; a path leads from the first to the last. Arcs in any order, several between two nodes allowed. */
export interface ArcGraph {
  readonly nodeCount: number;
  readonly arcs: readonly { readonly from: number; readonly to: number; readonly cost: number }[];
}

/**
 * The cheapest path through a graph as a 0/1 programme in flow form: a variable for each arc, one unit of flow from the
 * first node to the last.
 *
 * In a graph without cycles every basic solution is whole (each column of the matrix holds one +1 and one -1: it is
 * totally unimodular; Hoffman and Kruskal 1956), so an engine need not branch, and no row need keep an arc at most 1.
 */
export function pathProgramme({ nodeCount, arcs }: ArcGraph): Programme {
  const terms = Array.from({ length: nodeCount }, () => [] as { variable: number; coefficient: number }[]);
  for (const [variable, { from, to }] of arcs.entries()) {
    (terms[from] as (typeof terms)[number]).push({ variable, coefficient: 1 });
    (terms[to] as (typeof terms)[number]).push({ variable, coefficient: -1 });
  }
  const netFlow = (node: number) => (node === 0 ? 1 : 0) - (node === nodeCount - 1 ? 1 : 0);
  return {
    variables: arcs.map(({ cost }) => ({ cost, whole: true })),
    rows: terms.map((row, node) => ({ terms: row, least: netFlow(node), most: netFlow(node) })),
  };
}
