import type { Box } from "../geometry/box.ts";
import type { Elevation, Instance, Travel } from "../model/instance.ts";
import type { ApplyStep, Panel, Seam } from "../model/plan.ts";
import { type Ticks, ticksTo, type Unit } from "../units/ticks.ts";

/** `under` is applied before `over`, because of a seam. */
interface Lap {
  readonly under: Panel;
  readonly over: Panel;
  readonly seam: Seam;
  /** Width that the two windows share across the seam's line. */
  readonly shared: Ticks;
}

/**
 * In what order panels and fills are applied at the vehicle or wall: of two that overlap at a seam, the one under first.
 *
 * @param panels of all elevations, each once
 * @param seams with `top` naming a panel inside a section, a section at a border
 * @returns every panel and fill once per elevation, elevations in the job's order, each with its reason
 * @throws Error naming the panels if the laps form a circle, which laps by the rules never do: sections are disjoint boxes
 *   and each lap points the same diagonal way across a border, an order without circles for disjoint convex shapes (Guibas
 *   and Yao 1980, Proceedings of the 12th ACM Symposium on Theory of Computing, 154-160); within a section they point one
 *   way along it; and fills lie under all sections
 *
 * Of those free to be applied next: lowest first, then rearmost (seen against `travel`), then as listed. Bottom to top and
 * rear to front is common practice, no source. Time O(panels squared) per elevation.
 */
export function applyOrder(instance: Instance, panels: readonly Panel[], seams: readonly Seam[]): readonly ApplyStep[] {
  return instance.elevations.flatMap((elevation) => {
    const own = panels.filter((panel) => panel.elevation === elevation.id);
    const laps = seams.filter((seam) => seam.elevation === elevation.id).flatMap((seam) => lapsAt(seam, own));
    return inOrder(elevation, own, laps).map((panel) => ({
      panel: panel.id,
      why: reason(panel, laps, instance.unit),
    }));
  });
}

function lapsAt(seam: Seam, panels: readonly Panel[]): Lap[] {
  const [first, second] = seam.between;
  const named = (id: string) =>
    panels.filter((panel) => (seam.section === null ? panel.section === id : panel.id === id));
  const lowerId = seam.top === first ? second : first;
  return named(lowerId).flatMap((under) =>
    named(seam.top)
      .filter((over) => overlap(under.window, over.window))
      .map((over) => ({ under, over, seam, shared: sharedAcross(under.window, over.window, seam) })),
  );
}

const overlap = (a: Box, b: Box): boolean => a.x0 < b.x1 && b.x0 < a.x1 && a.y0 < b.y1 && b.y0 < a.y1;

const sharedAcross = (a: Box, b: Box, { axis }: Seam): Ticks =>
  axis === "x" ? Math.min(a.x1, b.x1) - Math.max(a.x0, b.x0) : Math.min(a.y1, b.y1) - Math.max(a.y0, b.y0);

function inOrder({ id, travel }: Elevation, panels: readonly Panel[], laps: readonly Lap[]): Panel[] {
  const waitsFor = new Map(panels.map((panel) => [panel, 0]));
  for (const { over } of laps) waitsFor.set(over, (waitsFor.get(over) as number) + 1);
  const ordered: Panel[] = [];
  while (waitsFor.size > 0) {
    const free = [...waitsFor].filter(([, count]) => count === 0).map(([panel]) => panel);
    if (free.length === 0) {
      const left = [...waitsFor.keys()].map((panel) => panel.id);
      throw new Error(`Elevation ${id}: panels lap over one another in a circle: ${left.join(", ")}`);
    }
    const next = free.reduce((best, panel) => (comesBefore(panel, best, travel) ? panel : best));
    waitsFor.delete(next);
    ordered.push(next);
    for (const { under, over } of laps) if (under === next) waitsFor.set(over, (waitsFor.get(over) as number) - 1);
  }
  return ordered;
}

function comesBefore(a: Panel, b: Panel, travel: Travel): boolean {
  const [p, q] = [a.window, b.window];
  // With the front below, the rear is the upper end, and film is laid from there.
  if (travel === "down" ? p.y1 !== q.y1 : p.y0 !== q.y0) return travel === "down" ? p.y1 > q.y1 : p.y0 < q.y0;
  if (travel === "right") return p.x0 < q.x0;
  return p.x0 > q.x0;
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

/** Inches to the nearest sixteenth where that is exact, as on a tape measure; else at most three decimals. */
function lengthIn(length: Ticks, unit: Unit): string {
  const value = ticksTo(length, unit);
  const sixteenths = value * 16;
  if (unit !== "in" || !Number.isInteger(sixteenths) || Number.isInteger(value)) {
    return `${Number(value.toFixed(3))} ${unit}`;
  }
  const sign = value < 0 ? "-" : "";
  const [whole, rest] = [Math.floor(Math.abs(sixteenths) / 16), Math.abs(sixteenths) % 16];
  const divisor = rest % 8 === 0 ? 8 : rest % 4 === 0 ? 4 : rest % 2 === 0 ? 2 : 1;
  return `${sign}${whole > 0 ? `${whole} ` : ""}${rest / divisor}/${16 / divisor} ${unit}`;
}
