import type { Side } from "../geometry/box.ts";
import type { Layout, Panel, Seam } from "../model/plan.ts";
import type { Ticks } from "../units/ticks.ts";

/** A panel that another meets at one of its sides. */
export interface Neighbour {
  readonly side: Side;
  readonly panel: string;
  /** Width that the two windows share across the seam. */
  readonly overlap: Ticks;
  /** Whether the neighbour lies over the panel; else it lies under it. */
  readonly over: boolean;
}

/**
 * Whom each panel and fill of a layout meets at its seams and borders.
 *
 * @returns by panel id, neighbours in the layout's order of seams, then of panels; panels without any have no entry
 *
 * At a border every two panels whose windows share film over its length meet. Time O(seams x panels of the elevation).
 */
export function neighboursOf(layout: Layout): Map<string, Neighbour[]> {
  const found = new Map<string, Neighbour[]>();
  const byId = new Map(layout.panels.map((panel) => [panel.id, panel]));
  const bySection = new Map<string, Panel[]>();
  for (const panel of layout.panels) {
    const key = sectionKey(panel.elevation, panel.section);
    bySection.set(key, [...(bySection.get(key) ?? []), panel]);
  }
  const add = (id: string, neighbour: Neighbour): void => {
    const list = found.get(id);
    if (list === undefined) found.set(id, [neighbour]);
    else list.push(neighbour);
  };
  const meet = (seam: Seam, low: Panel, high: Panel, highOver: boolean): void => {
    const [lowSide, highSide] = seam.axis === "x" ? (["right", "left"] as const) : (["top", "bottom"] as const);
    const overlap = sharedAcross(seam, low, high);
    add(low.id, { side: lowSide, panel: high.id, overlap, over: highOver });
    add(high.id, { side: highSide, panel: low.id, overlap, over: !highOver });
  };
  for (const seam of layout.seams) {
    const [lowId, highId] = seam.between;
    if (!seam.border) {
      const [low, high] = [byId.get(lowId), byId.get(highId)];
      if (low !== undefined && high !== undefined) meet(seam, low, high, seam.top === highId);
      continue;
    }
    for (const low of bySection.get(sectionKey(seam.elevation, lowId)) ?? []) {
      for (const high of bySection.get(sectionKey(seam.elevation, highId)) ?? []) {
        if (sharedAcross(seam, low, high) > 0 && sharedAlong(seam, low, high) > 0)
          meet(seam, low, high, seam.top === highId);
      }
    }
  }
  return found;
}

const sectionKey = (elevation: string, section: string): string => `${elevation}/${section}`;

const sharedAcross = ({ axis }: Seam, low: Panel, high: Panel): Ticks =>
  axis === "x" ? low.window.x1 - high.window.x0 : low.window.y1 - high.window.y0;

/** Length of the seam that both windows carry. */
function sharedAlong({ axis, from, to }: Seam, low: Panel, high: Panel): Ticks {
  const [a, b] = [low.window, high.window];
  return axis === "x"
    ? Math.min(a.y1, b.y1, to) - Math.max(a.y0, b.y0, from)
    : Math.min(a.x1, b.x1, to) - Math.max(a.x0, b.x0, from);
}
