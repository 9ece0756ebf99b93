import type { Violation } from "../../model/violation.ts";
import { breachOf, type LayoutCheck } from "../check.ts";
import { lapsOf } from "../laps.ts";

const breach = breachOf("fittingOrder");

/**
 * The steps at the vehicle name every panel and fill, and every loose piece that belongs to an elevation, once and as what
 * they are, each with a reason: inlays and what lies under the panels before them, overlays and decals on top of them
 * after, and of two panels that lap the one under first. Where both are trimmed at a break either may go first.
 */
export const fittingOrder: LayoutCheck = ({ job, layout, elevations, panels }) => {
  const found: Violation[] = [];
  const { fitting } = layout;
  if (fitting === undefined) return found;
  const loose = job.instance.pieces.filter(({ elevation }) => elevation !== null);
  const items = new Map<string, { readonly elevation: string | null; readonly role: string }>([
    ...[...panels].map(([id, { elevation, role }]) => [id, { elevation, role }] as const),
    ...loose.map(({ id, elevation, role }) => [id, { elevation, role }] as const),
  ]);
  const place = new Map<string, number>();
  for (const [index, { elevation, item, role, why }] of fitting.entries()) {
    const known = items.get(item);
    if (known === undefined) found.push(breach([item], "nothing of that name is fitted to an elevation"));
    else if (known.elevation !== elevation) {
      found.push(breach([item], `it belongs to ${known.elevation}, not to ${elevation}`));
    } else if (known.role !== role) found.push(breach([item], `it is said to be ${role}; it is ${known.role}`));
    if (place.has(item)) found.push(breach([item], "it is fitted more than once"));
    if (why.trim() === "") found.push(breach([item], "no reason is given for its place in the order"));
    place.set(item, index);
  }
  for (const id of items.keys()) if (!place.has(id)) found.push(breach([id], "it is never fitted"));

  const inOrder = (first: string, second: string, says: string): void => {
    const [a, b] = [place.get(first), place.get(second)];
    if (a !== undefined && b !== undefined && a > b) found.push(breach([first, second], says));
  };
  for (const { id, elevation, role, layer } of loose) {
    const own = layout.panels.filter((panel) => panel.elevation === elevation);
    const under = role === "inlay" || layer === -1;
    const over = !under && (role === "overlay" || role === "decal");
    for (const panel of own) {
      if (under && panel.role === "panel") inOrder(id, panel.id, `${id} lies under ${panel.id} and is fitted after it`);
      if (over) inOrder(panel.id, id, `${id} lies over ${panel.id} and is fitted before it`);
    }
  }
  for (const { seam, under, over } of elevations.flatMap(lapsOf)) {
    if (seam.kind !== "break") inOrder(under.id, over.id, `${under.id} lies under ${over.id} and is fitted after it`);
  }
  return found;
};
