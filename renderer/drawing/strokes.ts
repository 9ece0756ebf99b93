import type { SeamKind } from "./model.ts";

/** One of the lines that together tell a seam's kind: dash pattern in pixels, null for a whole line. */
export interface Stroke {
  readonly width: number;
  readonly dash: string | null;
  /** Pixels beside the seam's own line. */
  readonly offset: number;
}

/** The kind is told by the stroke before any colour: the seams that nobody will see recede, the open one stands out. */
export const strokesByKind: Readonly<Record<SeamKind, readonly Stroke[]>> = {
  break: [{ width: 1, dash: "8 3 1.5 3", offset: 0 }],
  bodyLine: [{ width: 1.25, dash: "16 5", offset: 0 }],
  colourEdge: [
    { width: 1, dash: null, offset: -2 },
    { width: 1, dash: null, offset: 2 },
  ],
  open: [{ width: 2.75, dash: null, offset: 0 }],
};

export const kindWords: Readonly<Record<SeamKind, string>> = {
  break: "in a break",
  bodyLine: "on a body line",
  colourEdge: "on a colour edge",
  open: "open",
};

/** A straight line on the screen. */
export interface Line {
  readonly x1: number;
  readonly y1: number;
  readonly x2: number;
  readonly y2: number;
}

/** The line moved sideways: to the right of an upright one, below a level one. */
export const beside = (line: Line, offset: number): Line =>
  line.x1 === line.x2
    ? { ...line, x1: line.x1 + offset, x2: line.x2 + offset }
    : { ...line, y1: line.y1 + offset, y2: line.y2 + offset };

export type TopSide = "left" | "right" | "up" | "down";

/**
 * The mark of the lap: small teeth on the side of the panel that lies on top, about `spacing` pixels apart, at least one
 * and evenly spread; as one path. A line too short for a tooth has none.
 */
export function lapTeeth(line: Line, side: TopSide, spacing = 44, size = 5): string {
  const upright = line.x1 === line.x2;
  const start = upright ? Math.min(line.y1, line.y2) : Math.min(line.x1, line.x2);
  const length = upright ? Math.abs(line.y2 - line.y1) : Math.abs(line.x2 - line.x1);
  if (length < 2 * size) return "";
  const count = Math.max(1, Math.round(length / spacing));
  const out = (side === "left" || side === "up" ? -1 : 1) * (size + 1);
  const teeth: string[] = [];
  for (let tooth = 0; tooth < count; tooth++) {
    const at = Math.round((start + (length * (tooth + 0.5)) / count) * 100) / 100;
    teeth.push(
      upright
        ? `M${line.x1} ${at - size / 2}l${out} ${size / 2}l${-out} ${size / 2}Z`
        : `M${at - size / 2} ${line.y1}l${size / 2} ${out}l${size / 2} ${-out}Z`,
    );
  }
  return teeth.join("");
}
