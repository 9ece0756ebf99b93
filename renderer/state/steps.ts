import type { PlanLayout } from "../../shared/planFile.ts";

/** One step at the vehicle. */
export interface Step {
  /** Id of a panel, a fill or a loose piece. */
  readonly item: string;
  readonly role: "inlay" | "panel" | "fill" | "overlay" | "decal";
  readonly why: string;
}

/** The order in which an elevation is fitted: with its loose pieces where the plan tells them, else panels and fills alone. */
export function stepsOn(layout: PlanLayout, elevation: string): Step[] {
  const fitting = layout.fitting?.filter((step) => step.elevation === elevation) ?? [];
  if (fitting.length > 0) return fitting.map(({ item, role, why }) => ({ item, role, why }));
  const panels = new Map(layout.panels.map((panel) => [panel.id, panel]));
  return layout.applyOrder.flatMap(({ panel, why }) => {
    const found = panels.get(panel);
    return found?.elevation === elevation ? [{ item: panel, role: found.role, why }] : [];
  });
}
