import { type Dimension, type DimensionWish, dimension } from "./dimensions.ts";
import { windowTicks } from "./elevationShapes.ts";
import { panelKey } from "./ids.ts";
import { textSize } from "./labels.ts";
import { lengthText, ticksFrom, type Unit } from "./lengths.ts";
import type { Box, Elevation, PlanPanel } from "./model.ts";
import type { Rectangle } from "./rectangle.ts";
import { figureWidth } from "./textWidth.ts";

/** Pixels from one row of dimensions to the next. */
const row = 22;
const scaleStrip = 34;

export type Margins = { readonly left: number; readonly right: number; readonly top: number; readonly bottom: number };

type ChainSide = "left" | "right" | "bottom" | "top";
export interface Chain {
  readonly side: ChainSide;
  readonly panels: readonly PlanPanel[];
}

/**
 * Panel widths stand along the side of the elevation that their section touches, upright panels' below rather than above,
 * level ones' right rather than left; in order along the side. A width that is too short for its number is left out.
 */
export function dimensionChains(
  elevation: Elevation,
  panels: readonly PlanPanel[],
  unit: Unit,
  scale: number,
): Chain[] {
  const bySide = new Map<ChainSide, PlanPanel[]>();
  for (const panel of panels) {
    const side = sideOf(windowTicks(panel, unit), panel.direction, elevation.box);
    if (side) bySide.set(side, [...(bySide.get(side) ?? []), panel]);
  }
  const legible = (panel: PlanPanel): boolean => {
    const size = ticksFrom(panel.across, unit);
    return size * scale >= figureWidth(lengthText(size, unit), textSize) + 30;
  };
  /** The overall dimension says the same already. */
  const isWhole = (panel: PlanPanel): boolean => {
    const { x0, y0, x1, y1 } = windowTicks(panel, unit);
    const { box } = elevation;
    return panel.direction === "vertical" ? x0 === box.x0 && x1 === box.x1 : y0 === box.y0 && y1 === box.y1;
  };
  return [...bySide]
    .map(([side, group]) => [side, group.filter((panel) => legible(panel) && !isWhole(panel))] as const)
    .filter(([, group]) => group.length > 0)
    .map(([side, group]) => {
      const along = side === "left" || side === "right" ? 1 : 0;
      return { side, panels: group.sort((a, b) => a.window[along] - b.window[along]) };
    });
}

function sideOf(window: Box, direction: PlanPanel["direction"], box: Box): ChainSide | null {
  if (direction === "vertical") return window.y0 <= box.y0 ? "bottom" : window.y1 >= box.y1 ? "top" : null;
  return window.x1 >= box.x1 ? "right" : window.x0 <= box.x0 ? "left" : null;
}

/** Windows overlap, so neighbours' widths stand in two rows. */
const rowsOf = (chain: Chain | undefined): number => (chain ? Math.min(2, chain.panels.length) : 0);

/** Pixels round the outline that bleed, dimensions, the arrow to the front and the scale bar take. */
export function marginsOf(
  elevation: Elevation,
  panels: readonly PlanPanel[],
  unit: Unit,
  scale: number,
  chains: readonly Chain[],
): Margins {
  const { box } = elevation;
  const boxes = panels.map((panel) => windowTicks(panel, unit));
  const past = (values: readonly number[]): number => Math.max(0, ...values) * scale;
  const rows = (side: ChainSide): number => rowsOf(chains.find((chain) => chain.side === side)) * row;
  return {
    left: past(boxes.map((one) => box.x0 - one.x0)) + rows("left") + row + 12,
    right: past(boxes.map((one) => one.x1 - box.x1)) + rows("right") + 14,
    top: past(boxes.map((one) => one.y1 - box.y1)) + rows("top") + (elevation.travel === "none" ? 0 : 24) + 10,
    bottom: past(boxes.map((one) => box.y0 - one.y0)) + rows("bottom") + row + scaleStrip + 8,
  };
}

/** Panel widths in their chains, then the overall width and height beyond them. */
export function dimensionsOf(
  elevation: Elevation,
  panels: readonly PlanPanel[],
  chains: readonly Chain[],
  unit: Unit,
  outline: Rectangle,
  windows: ReadonlyMap<string, Rectangle>,
): Dimension[] {
  const all = [outline, ...panels.map((panel) => windows.get(panel.id) as Rectangle)];
  const reach = {
    left: Math.min(...all.map((one) => one.x)),
    right: Math.max(...all.map((one) => one.x + one.width)),
    top: Math.min(...all.map((one) => one.y)),
    bottom: Math.max(...all.map((one) => one.y + one.height)),
  };
  const wishes: DimensionWish[] = [];
  for (const chain of chains) {
    chain.panels.forEach((panel, index) => {
      const box = windows.get(panel.id) as Rectangle;
      const away = row * (0.75 + (index % 2));
      const level = chain.side === "bottom" || chain.side === "top";
      const near = chain.side === "left" || chain.side === "top" ? -1 : 1;
      wishes.push({
        key: panelKey(panel.id),
        text: lengthText(ticksFrom(panel.across, unit), unit),
        axis: level ? "x" : "y",
        from: level ? box.x : box.y,
        to: level ? box.x + box.width : box.y + box.height,
        at: reach[chain.side] + near * away,
        edge: reach[chain.side],
      });
    });
  }
  const rowsAt = (side: ChainSide): number => rowsOf(chains.find((chain) => chain.side === side)) * row;
  const { box } = elevation;
  wishes.push(
    {
      key: "overall:width",
      text: lengthText(box.x1 - box.x0, unit),
      axis: "x",
      from: outline.x,
      to: outline.x + outline.width,
      at: reach.bottom + rowsAt("bottom") + row * 0.8,
      edge: outline.y + outline.height,
      outside: true,
    },
    {
      key: "overall:height",
      text: lengthText(box.y1 - box.y0, unit),
      axis: "y",
      from: outline.y,
      to: outline.y + outline.height,
      at: reach.left - rowsAt("left") - row * 0.8,
      edge: outline.x,
      outside: true,
    },
  );
  return wishes.flatMap((wish) => dimension(wish) ?? []);
}
