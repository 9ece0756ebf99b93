import type { Axis, Box } from "../geometry/box.ts";
import type { Region } from "../geometry/region.ts";
import type { Elevation, Instance } from "../model/instance.ts";
import type { Panel, Seam, Slack } from "../model/plan.ts";
import { rangeOn } from "./ranges.ts";
import { leastShare, meetingsOf } from "./sharing.ts";

/**
 * How far each panel and fill alone may be shifted at the vehicle or wall before film falls short or a seam stops lapping.
 *
 * @param panels of this elevation, or of all; `seams` likewise
 * @param region what is needed of this elevation
 * @returns one slack for each panel of this elevation, in their order, ticks. Shifted by any of the four, or less, every
 *   needed point stays under some window, and at each seam and border the panel shares the rules' colour edge overlap with
 *   each panel that it shares film with (nothing is asked where both are of butted film). Never negative, and at most the
 *   panel's own size.
 *
 * Exact where edges are level or upright. Where they slope, what a panel alone covers is rounded outward to a tick, so the
 * slack told may be up to a tick too small and is never too large. Time O(panels squared), and for each panel its own
 * part of the region once for each rectangle that its neighbours leave of it.
 */
export function panelSlack(
  instance: Instance,
  { id }: Elevation,
  panels: readonly Panel[],
  seams: readonly Seam[],
  region: Region,
): Slack[] {
  const own = panels.filter(({ elevation }) => elevation === id);
  const meetings = meetingsOf(
    own,
    seams.filter(({ elevation }) => elevation === id),
    region,
  );
  const share = leastShare(instance);
  return own.map((panel) => {
    const { window } = panel;
    const [wide, high] = [window.x1 - window.x0, window.y1 - window.y0];
    const limits = { left: [wide], right: [wide], down: [high], up: [high] };
    const alone = extentOfAll(coveredByNoOther(panel, own), region);
    if (alone !== null) {
      limits.left.push(window.x1 - alone.x1);
      limits.right.push(alone.x0 - window.x0);
      limits.down.push(window.y1 - alone.y1);
      limits.up.push(alone.y0 - window.y0);
    }
    const towards = { x: ["left", "right"], y: ["down", "up"] } as const;
    for (const { seam, low, high: upper } of meetings) {
      if (low !== panel && upper !== panel) continue;
      const other = low === panel ? upper : low;
      const [back, forth] = towards[seam.axis];
      const away = shiftsKeeping(seam.axis, window, other.window, share(panel, other));
      limits[back].push(away.back);
      limits[forth].push(away.forth);
    }
    const least = (values: readonly number[]) => Math.max(0, Math.min(...values));
    return { left: least(limits.left), right: least(limits.right), down: least(limits.down), up: least(limits.up) };
  });
}

/** How far a window may go either way along an axis and still share this width with another. */
function shiftsKeeping(axis: Axis, window: Box, other: Box, width: number): { back: number; forth: number } {
  const [own, fixed] = [rangeOn(axis, window), rangeOn(axis, other)];
  return { back: own.to - width - fixed.from, forth: fixed.to - width - own.from };
}

/** A panel's window less all other windows of its elevation, as rectangles that share no inside. */
function coveredByNoOther(panel: Panel, panels: readonly Panel[]): Box[] {
  let left: Box[] = [panel.window];
  for (const { window } of panels.filter((other) => other !== panel)) left = left.flatMap((box) => minus(box, window));
  return left;
}

/** What a box leaves of another: at most four rectangles, those below and above as wide as the first. */
function minus(box: Box, cut: Box): Box[] {
  if (cut.x0 >= box.x1 || cut.x1 <= box.x0 || cut.y0 >= box.y1 || cut.y1 <= box.y0) return [box];
  const [y0, y1] = [Math.max(box.y0, cut.y0), Math.min(box.y1, cut.y1)];
  return [
    { ...box, y1: y0 },
    { ...box, y0: y1 },
    { x0: box.x0, x1: cut.x0, y0, y1 },
    { x0: cut.x1, x1: box.x1, y0, y1 },
  ].filter((part) => part.x0 < part.x1 && part.y0 < part.y1);
}

/** The smallest box of whole ticks round what is needed inside these boxes; null where nothing is. */
function extentOfAll(boxes: readonly Box[], region: Region): Box | null {
  const extents = boxes.map((box) => region.extent(box)).filter((extent) => extent !== null);
  if (extents.length === 0) return null;
  return {
    x0: Math.min(...extents.map(({ x0 }) => x0)),
    y0: Math.min(...extents.map(({ y0 }) => y0)),
    x1: Math.max(...extents.map(({ x1 }) => x1)),
    y1: Math.max(...extents.map(({ y1 }) => y1)),
  };
}
