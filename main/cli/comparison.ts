import { formatLength, type Instance, type Layout, type Plan, type Unit } from "../../core/index.ts";
import { type Column, textTable } from "./textTable.ts";

/** Areas are read in square feet or square metres, whichever goes with the job's unit. */
const areaUnit: Readonly<Record<Unit, { readonly name: string; readonly holds: number }>> = {
  in: { name: "sq ft", holds: 144 },
  mm: { name: "sq m", holds: 1_000_000 },
};

function directionsOf({ panels }: Layout): string {
  const directions = [...new Set(panels.map(({ direction }) => direction))].sort().reverse();
  return directions.length === 0 ? "none" : directions.join(", ");
}

function markOf(plan: Plan, { id }: Layout): string {
  if (id === plan.chosen) return "chosen";
  return plan.frontier.includes(id) ? "frontier" : "";
}

/** Every layout of the plan in a row, in the plan's order, with what speaks for and against it. */
export function comparison(instance: Instance, plan: Plan): string {
  const { unit } = plan;
  const { name, holds } = areaUnit[unit];
  const number = (title: string, cell: (layout: Layout) => string): Column<Layout> => ({ title, cell, right: true });
  const columns: Column<Layout>[] = [
    { title: "layout", cell: ({ id }) => id },
    number("roll width", ({ rollWidth }) => (rollWidth === null ? "mixed" : formatLength(rollWidth, unit))),
    { title: "directions", cell: directionsOf },
    number("panels", ({ totals }) => `${totals.panelCount}`),
    number("open", ({ totals }) => `${totals.openSeams}`),
    number("body line", ({ totals }) => `${totals.bodyLineSeams}`),
    number("colour edge", ({ totals }) => `${totals.colourEdgeSeams}`),
    number("break", ({ totals }) => `${totals.breakSeams}`),
    number("film length", ({ totals }) => formatLength(totals.filmLength, unit)),
    number(`film ${name}`, ({ totals }) => (totals.filmArea / holds).toFixed(1)),
    number("waste %", ({ totals }) => totals.wastePercent.toFixed(1)),
    number(`cost ${instance.rules.currency}`, ({ totals }) => totals.cost.total.toFixed(2)),
    number("gap %", ({ bound }) => (bound.proven ? "proven" : bound.gapPercent.toFixed(1))),
    { title: "", cell: (layout) => markOf(plan, layout) },
  ];
  return textTable(columns, plan.layouts);
}
