import type { Elevation } from "../model/instance.ts";
import type { Panel } from "../model/plan.ts";
import type { Problem } from "../model/problem.ts";
import type { Lap } from "./laps.ts";

/** Steps in order, or the ids of panels of which each lies under the next and the last under the first. */
export type Sequence<Step> = { readonly steps: readonly Step[] } | { readonly circle: readonly string[] };

/**
 * Puts the panels of one elevation in order, of two that lap the one under first.
 *
 * @param binding the laps that bind the order; the same pair may lap at several seams
 * @param straight the panel that goes first among those free to go; null for none
 * @returns every panel once; or a circle of laps, which laps by the rules never make: sections are disjoint boxes and each
 *   lap points the same diagonal way across a border, an order without circles for disjoint convex shapes (Guibas and Yao
 *   1980, Proceedings of the 12th ACM Symposium on Theory of Computing, 154-160); within a section they point one way
 *   along it; and fills lie under all sections
 *
 * Of those free to go next: the straight panel, then lowest first, then rearmost (seen against `travel`), then as listed.
 * Bottom to top and rear to front is common practice, no source; so is beginning with what must be straight. Time
 * O(panels squared + panels x laps).
 */
export function lapOrder(
  { travel }: Elevation,
  panels: readonly Panel[],
  binding: readonly Lap[],
  straight: Panel | null,
): Sequence<Panel> {
  const waitsFor = new Map(panels.map((panel) => [panel, 0]));
  for (const { over } of binding) waitsFor.set(over, (waitsFor.get(over) as number) + 1);
  const steps: Panel[] = [];
  const before = (a: Panel, b: Panel): boolean => {
    if (a === straight || b === straight) return a === straight;
    return comesBefore(a, b, travel);
  };
  while (waitsFor.size > 0) {
    const free = [...waitsFor].filter(([, count]) => count === 0).map(([panel]) => panel);
    if (free.length === 0) return { circle: circleAmong(new Set(waitsFor.keys()), binding) };
    const next = free.reduce((best, panel) => (before(panel, best) ? panel : best));
    waitsFor.delete(next);
    steps.push(next);
    for (const { under, over } of binding) if (under === next) waitsFor.set(over, (waitsFor.get(over) as number) - 1);
  }
  return { steps };
}

function comesBefore(a: Panel, b: Panel, travel: Elevation["travel"]): boolean {
  const [p, q] = [a.window, b.window];
  // With the front below, the rear is the upper end, and film is laid from there.
  if (travel === "down" ? p.y1 !== q.y1 : p.y0 !== q.y0) return travel === "down" ? p.y1 > q.y1 : p.y0 < q.y0;
  if (travel === "right") return p.x0 < q.x0;
  return p.x0 > q.x0;
}

/** One circle among panels each of which lies over another of them: back from one to what lies under it until one repeats. */
function circleAmong(left: ReadonlySet<Panel>, laps: readonly Lap[]): string[] {
  const walk: Panel[] = [];
  let [here] = left;
  while (here !== undefined && !walk.includes(here)) {
    walk.push(here);
    const over = here;
    here = laps.find((lap) => lap.over === over && left.has(lap.under))?.under;
  }
  return (here === undefined ? walk : walk.slice(walk.indexOf(here))).reverse().map(({ id }) => id);
}

/**
 * The panel that must be straight: whose window holds most of the elevation's `straight` zone, the first of equals; null
 * without such a zone or where no window meets it.
 */
export function straightPanel({ straight, keepClear }: Elevation, panels: readonly Panel[]): Panel | null {
  const zone = keepClear.find(({ id }) => id === straight);
  if (zone === undefined) return null;
  const { x0, y0, x1, y1 } = zone.box;
  const held = ({ window }: Panel): number =>
    Math.max(0, Math.min(x1, window.x1) - Math.max(x0, window.x0)) *
    Math.max(0, Math.min(y1, window.y1) - Math.max(y0, window.y0));
  const most = panels.reduce<Panel | null>(
    (best, panel) => (best === null || held(panel) > held(best) ? panel : best),
    null,
  );
  return most !== null && held(most) > 0 ? most : null;
}

/** What a circle of laps means for the job: no order exists in which its panels could go on. */
export function circleProblem(elevations: readonly Elevation[], circle: readonly string[]): Problem {
  const index = elevations.findIndex(({ id }) => circle[0]?.startsWith(`${id}/`));
  return {
    path: `elevations[${index}].sections`,
    value: circle,
    why: `The panels ${circle.join(", ")} each lie under the next and the last under the first, so none of them can go on first.`,
    mend: "Divide the elevation into other sections, or let these panels meet at breaks, where both films are trimmed.",
  };
}
