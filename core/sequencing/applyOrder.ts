import type { Instance } from "../model/instance.ts";
import type { ApplyStep, Panel, Seam } from "../model/plan.ts";
import type { Unit } from "../units/ticks.ts";
import { lapOrder, type Sequence, straightPanel } from "./lapOrder.ts";
import { type Lap, lapsOf } from "./laps.ts";
import { lengthIn } from "./words.ts";

/**
 * In what order panels and fills are applied at the vehicle or wall: of two that overlap at a seam, the one under first,
 * at breaks too.
 *
 * @param panels of all elevations, each once
 * @param seams with `top` naming a panel inside a section, a section at a border
 * @returns every panel and fill once per elevation, elevations in the job's order, each with its reason; or a circle of
 *   laps, for which no order exists
 *
 * Of those free to be applied next, see `lapOrder`. Time O(panels squared + panels x laps) per elevation.
 */
export function applyOrder(instance: Instance, panels: readonly Panel[], seams: readonly Seam[]): Sequence<ApplyStep> {
  const steps: ApplyStep[] = [];
  for (const elevation of instance.elevations) {
    const own = panels.filter((panel) => panel.elevation === elevation.id);
    const laps = lapsOf(
      own,
      seams.filter((seam) => seam.elevation === elevation.id),
    );
    const ordered = lapOrder(elevation, own, laps, straightPanel(elevation, own));
    if ("circle" in ordered) return ordered;
    steps.push(...ordered.steps.map((panel) => ({ panel: panel.id, why: reason(panel, laps, instance.unit) })));
  }
  return { steps };
}

function reason(panel: Panel, laps: readonly Lap[], unit: Unit): string {
  const above = laps.filter(({ under }) => under === panel);
  const below = laps.filter(({ over }) => over === panel);
  const parts: string[] = [];
  if (above.length > 0) parts.push(`Lies under ${above.map((lap) => lapped(lap, lap.over, unit)).join(" and ")}`);
  if (below.length > 0) {
    const ids = [...new Set(below.map(({ under }) => under.id))];
    parts.push(`${parts.length > 0 ? "laps over" : "Laps over"} ${ids.join(", ")}`);
  }
  return parts.length > 0 ? parts.join("; ") : "Laps no other panel";
}

function lapped({ seam, shared }: Lap, over: Panel, unit: Unit): string {
  if (seam.kind !== "break") return `${over.id}, which laps over it by ${lengthIn(shared, unit)}`;
  return `${over.id}, which laps over it by ${lengthIn(shared, unit)} until both are trimmed in the gap at ${lengthIn(seam.at, unit)}`;
}
