import { ticksFrom, type Unit } from "./lengths.ts";
import type { Box, PlanPanel, SeamKind } from "./model.ts";
import type { Rectangle } from "./rectangle.ts";
import type { Line, TopSide } from "./strokes.ts";

/** The parts of an elevation's drawing, in pixels. */
export interface PanelShape {
  readonly key: string;
  readonly role: "panel" | "fill";
  readonly box: Rectangle;
  readonly says: string;
}

export interface SeamShape {
  readonly key: string;
  readonly kind: SeamKind;
  readonly border: boolean;
  readonly line: Line;
  readonly top: TopSide;
  /** Settled beforehand, so no choice of the search. */
  readonly held: boolean;
  /** What both films cover, one rectangle per pair of facing windows. */
  readonly bands: readonly Rectangle[];
  readonly says: string;
}

export interface ZoneShape {
  readonly key: string;
  readonly kind: "keepClear" | "obstacle";
  readonly rule: "never" | "avoid";
  readonly label: string;
  readonly box: Rectangle;
  readonly says: string;
}

/** Something that may guide a seam but carries none. */
export interface FaintLine {
  readonly key: string;
  readonly kind: "gap" | "moulding" | "bodyLine" | "colourEdge";
  readonly line: Line;
  readonly says: string;
}

/** The line that a colour edge really takes, beside the straight one its seam keeps to. */
export interface EdgePath {
  readonly key: string;
  readonly path: string;
  readonly says: string;
}

/** A section that the layout found, by the corners of its box. */
export interface FoundShape {
  readonly key: string;
  /** Four brackets, one in each corner, as one path. */
  readonly brackets: string;
  readonly says: string;
}

/** A stretch kept free of seams, drawn along the edge of the elevation where such a seam would end. */
export interface StretchShape {
  readonly key: string;
  readonly path: string;
  readonly says: string;
}

/** Which way the roll runs on a panel: from its tail to its head. */
export interface Arrow {
  readonly key: string;
  readonly tail: { readonly x: number; readonly y: number };
  readonly head: { readonly x: number; readonly y: number };
}

export interface Front {
  readonly way: "left" | "right" | "up" | "down";
  readonly box: Rectangle;
}

/** A panel's window in ticks. */
export function windowTicks(panel: PlanPanel, unit: Unit): Box {
  const [x0, y0, x1, y1] = panel.window;
  return { x0: ticksFrom(x0, unit), y0: ticksFrom(y0, unit), x1: ticksFrom(x1, unit), y1: ticksFrom(y1, unit) };
}
