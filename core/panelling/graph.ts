import { apartFrom, type SplitNodes } from "./splitNodes.ts";
import { forEachPanel, panelPrice, type SplitPrice } from "./splitSection.ts";

/** Nodes 0 to nodeCount - 1; every arc leads from a lesser to a greater node; a path leads from the first to the last. */
export interface PanelGraph {
  readonly nodeCount: number;
  readonly arcs: readonly { readonly from: number; readonly to: number; readonly cost: number }[];
}

/**
 * The splits of a section as the paths of a graph: an arc for each panel that may stand, priced by one sum of money or
 * area, so that other methods can be held against the same problem.
 *
 * @param penalty added for each pair of a seam and an avoided zone
 */
export function panelGraph(input: SplitNodes, price: SplitPrice, penalty = 0): PanelGraph {
  const arcs: { from: number; to: number; cost: number }[] = [];
  forEachPanel(input, (from, to, across, along) => {
    const seam = input.nodes[to]?.seam;
    const apart = input.wished === null ? 0 : (price.apart ?? 0) * apartFrom(input.wished, from, to);
    const cost = panelPrice(price, across, along, seam?.visibleLength ?? 0) + penalty * (seam?.penalties ?? 0);
    arcs.push({ from, to, cost: cost + apart });
  });
  return { nodeCount: input.nodes.length, arcs };
}

/**
 * The cheapest path from the first to the last node of a graph whose arcs all lead forward.
 *
 * @returns its nodes and cost; null when no path exists
 * @throws RangeError naming the arc, if one leads backward or nowhere
 *
 * Time O(n + arcs). Ties: the path whose last differing node is the lesser. Arcs may cost less than nothing.
 * Source: Bellman (1958), On a routing problem, Quarterly of Applied Mathematics 16(1), 87–90, in topological order.
 */
export function shortestPath({ nodeCount, arcs }: PanelGraph): { nodes: number[]; cost: number } | null {
  const into: { from: number; cost: number }[][] = Array.from({ length: nodeCount }, () => []);
  for (const { from, to, cost } of arcs) {
    if (from < 0 || from >= to || to >= nodeCount)
      throw new RangeError(`arc from ${from} to ${to} of ${nodeCount} nodes`);
    (into[to] as (typeof into)[number]).push({ from, cost });
  }
  const best = new Float64Array(nodeCount).fill(Infinity);
  const before = new Int32Array(nodeCount).fill(-1);
  best[0] = 0;
  for (let to = 1; to < nodeCount; to++) {
    for (const { from, cost } of into[to] as (typeof into)[number]) {
      const through = (best[from] as number) + cost;
      const better = through < (best[to] as number) || (through === best[to] && from < (before[to] as number));
      if (!better) continue;
      best[to] = through;
      before[to] = from;
    }
  }
  const cost = best[nodeCount - 1];
  if (cost === undefined || cost === Infinity) return null;
  const nodes: number[] = [];
  for (let at = nodeCount - 1; at !== -1; at = before[at] as number) nodes.push(at);
  return { nodes: nodes.reverse(), cost };
}
