import { type Layout, seamCount } from "../model/plan.ts";
import { byCost } from "./frontier.ts";

/** What one would be best at among its like. */
const strengths: readonly ((layout: Layout) => number)[] = [
  ({ totals }) => totals.cost.total,
  ({ totals }) => seamCount(totals),
  ({ totals }) => totals.openSeams,
  ({ totals }) => totals.wastePercent,
];

/**
 * Leaves the layouts that somebody would want to weigh: the frontier, and of each roll width and way of running the panels
 * the cheapest, those with fewest visible and with fewest open seams, and the one with least waste.
 *
 * @param frontier ids of the layouts that stay whatever else
 * @returns the rest in the order given
 */
export function worthComparing(layouts: readonly Layout[], frontier: readonly string[]): Layout[] {
  const kept = new Set(layouts.filter(({ id }) => frontier.includes(id)));
  const kinds = new Map<string, Layout[]>();
  for (const layout of layouts) {
    const kind = `${layout.rollWidth} ${waysOf(layout)}`;
    kinds.set(kind, [...(kinds.get(kind) ?? []), layout]);
  }
  for (const alike of kinds.values()) {
    for (const strength of strengths) {
      kept.add(alike.reduce((a, b) => ((strength(b) - strength(a) || byCost(b, a)) < 0 ? b : a)));
    }
  }
  return layouts.filter((layout) => kept.has(layout));
}

/** The directions of its panels; fills run as they fit and tell nothing. */
const waysOf = ({ panels }: Layout): string =>
  [...new Set(panels.filter(({ role }) => role === "panel").map(({ direction }) => direction))].sort().join(" ");
