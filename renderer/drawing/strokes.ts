import type { SeamKind } from "./model.ts";
import type { Rectangle } from "./rectangle.ts";

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

const toothSize = 5;
const toothSpacing = 44;

/** Where the teeth sit along a line: evenly spread, about 44 pixels apart, at least one; none on a line too short. */
export function teethAlong(line: Line): number[] {
  const upright = line.x1 === line.x2;
  const start = upright ? Math.min(line.y1, line.y2) : Math.min(line.x1, line.x2);
  const length = upright ? Math.abs(line.y2 - line.y1) : Math.abs(line.x2 - line.x1);
  if (length < 2 * toothSize) return [];
  const count = Math.max(1, Math.round(length / toothSpacing));
  return Array.from(
    { length: count },
    (_, tooth) => Math.round((start + (length * (tooth + 0.5)) / count) * 100) / 100,
  );
}

const outward = (side: TopSide): number => (side === "left" || side === "up" ? -1 : 1) * (toothSize + 1);

/** The mark of the lap: small teeth on the side of the panel that lies on top, as one path. */
export function lapTeeth(line: Line, side: TopSide): string {
  const out = outward(side);
  const half = toothSize / 2;
  return teethAlong(line)
    .map((at) =>
      line.x1 === line.x2
        ? `M${line.x1} ${at - half}l${out} ${half}l${-out} ${half}Z`
        : `M${at - half} ${line.y1}l${half} ${out}l${half} ${-out}Z`,
    )
    .join("");
}

/** What the teeth cover, for lettering to keep clear of. */
export function teethBoxes(line: Line, side: TopSide): Rectangle[] {
  const out = outward(side);
  const half = toothSize / 2 + 1;
  return teethAlong(line).map((at) =>
    line.x1 === line.x2
      ? { x: Math.min(line.x1, line.x1 + out), y: at - half, width: Math.abs(out), height: 2 * half }
      : { x: at - half, y: Math.min(line.y1, line.y1 + out), width: 2 * half, height: Math.abs(out) },
  );
}
