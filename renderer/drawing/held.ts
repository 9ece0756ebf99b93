import type { EdgePath, FoundShape, StretchShape } from "./elevationShapes.ts";
import { type Frame, screenBox, screenX, screenY } from "./frame.ts";
import { lengthText, type Ticks, ticksFrom, type Unit } from "./lengths.ts";
import type { Elevation, Hold, PlanLayout, PlanPanel, PlanSeam } from "./model.ts";
import type { Line } from "./strokes.ts";

/** What was settled beforehand or found by the search, in the shapes of an elevation's drawing. */

/** True when a hold keeps this seam at its place. */
export function isHeld(seam: PlanSeam, holds: readonly Hold[], unit: Unit): boolean {
  const at = ticksFrom(seam.at, unit);
  return holds.some(
    (hold) =>
      hold.kind === "seam" &&
      hold.axis === seam.axis &&
      hold.at === at &&
      (hold.section === null || hold.section === seam.section),
  );
}

/** True when a hold settles how wide this panel is: its place lies between the panel's two edges. */
export function isWidthHeld(panel: PlanPanel, holds: readonly Hold[], unit: Unit): boolean {
  const axis = panel.direction === "vertical" ? "x" : "y";
  const [x0, y0, x1, y1] = panel.window.map((side) => ticksFrom(side, unit)) as [Ticks, Ticks, Ticks, Ticks];
  const [low, high] = axis === "x" ? [x0, x1] : [y0, y1];
  return holds.some(
    (hold) =>
      hold.kind === "width" &&
      hold.axis === axis &&
      low <= hold.at &&
      hold.at < high &&
      (hold.section === null || hold.section === panel.section),
  );
}

/** Size of the mark of a held seam, from its middle to a point, in pixels. */
export const heldReach = 6;

/** A lozenge on each end of a held seam: a shape that no stroke of a kind has. */
export function heldMarks(line: Line): string {
  const lozenge = (x: number, y: number): string =>
    `M${x} ${y - heldReach}l${heldReach} ${heldReach}l${-heldReach} ${heldReach}l${-heldReach} ${-heldReach}Z`;
  return lozenge(line.x1, line.y1) + lozenge(line.x2, line.y2);
}

const foot = 6;

/** Stretches without seams: a bracket along the bottom or the left edge, its ends turned inward. */
export function freeStretches(elevation: Elevation, holds: readonly Hold[], frame: Frame, unit: Unit): StretchShape[] {
  return holds.flatMap((hold): StretchShape[] => {
    if (hold.kind !== "noSeam") return [];
    const box = elevation.sections.find(({ id }) => id === hold.section)?.box ?? elevation.box;
    const says = `No ${hold.axis === "x" ? "upright" : "level"} seam from ${lengthText(hold.from, unit)} to ${lengthText(hold.to, unit)}, held`;
    if (hold.axis === "x") {
      const [left, right, y] = [screenX(frame, hold.from), screenX(frame, hold.to), screenY(frame, box.y0) - 3];
      return [{ key: hold.id, says, path: `M${left} ${y - foot}V${y}H${right}V${y - foot}` }];
    }
    const [low, high, x] = [screenY(frame, hold.from), screenY(frame, hold.to), screenX(frame, box.x0) + 3];
    return [{ key: hold.id, says, path: `M${x + foot} ${low}H${x}V${high}H${x + foot}` }];
  });
}

/** Longest arm of a corner bracket, in pixels. */
const arm = 14;

/** The sections that a layout found on an elevation, by brackets in their corners. */
export function foundShapes(elevation: Elevation, layout: PlanLayout | null, frame: Frame, unit: Unit): FoundShape[] {
  const found = layout?.sections?.filter((section) => section.elevation === elevation.id) ?? [];
  return found.map(({ id, box: [x0, y0, x1, y1], direction, why }) => {
    const box = screenBox(frame, {
      x0: ticksFrom(x0, unit),
      y0: ticksFrom(y0, unit),
      x1: ticksFrom(x1, unit),
      y1: ticksFrom(y1, unit),
    });
    const across = Math.min(arm, box.width / 3);
    const up = Math.min(arm, box.height / 3);
    const [left, top, right, bottom] = [box.x + 3, box.y + 3, box.x + box.width - 3, box.y + box.height - 3];
    const brackets =
      `M${left} ${top + up}V${top}H${left + across}` +
      `M${right - across} ${top}H${right}V${top + up}` +
      `M${right} ${bottom - up}V${bottom}H${right - across}` +
      `M${left + across} ${bottom}H${left}V${bottom - up}`;
    return { key: id, brackets, says: `Section ${id}, found, panels run ${direction}: ${why}` };
  });
}

/** Colour edges that are sloped or stepped, as they really run. */
export function edgePaths(elevation: Elevation, frame: Frame, unit: Unit): EdgePath[] {
  return elevation.colourEdges.flatMap(({ id, path, at }): EdgePath[] =>
    path === null
      ? []
      : [
          {
            key: id,
            path: path
              .map(({ x, y }, step) => `${step === 0 ? "M" : "L"}${screenX(frame, x)} ${screenY(frame, y)}`)
              .join(""),
            says: `Colour edge ${id} as it runs; its seam keeps to ${lengthText(at, unit)}`,
          },
        ],
  );
}
