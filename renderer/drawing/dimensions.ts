import { textSize } from "./labels.ts";
import type { Rectangle } from "./rectangle.ts";
import type { Line } from "./strokes.ts";
import { figureWidth } from "./textWidth.ts";

/** A dimension as a draughtsman draws it; every part in pixels. */
export interface Dimension {
  readonly key: string;
  readonly text: string;
  /** Reads upward along an upright dimension line. */
  readonly turned: boolean;
  readonly at: { readonly x: number; readonly y: number };
  readonly box: Rectangle;
  /** The dimension line, in two halves round the number, or its tails when the number lies outside. */
  readonly lines: readonly Line[];
  readonly extensions: readonly Line[];
  /** Arrow ends, one path. */
  readonly arrows: string;
}

export interface DimensionWish {
  readonly key: string;
  readonly text: string;
  /** "x": level dimension line at height `at`; "y": upright one at `at` from the left. */
  readonly axis: "x" | "y";
  readonly from: number;
  readonly to: number;
  readonly at: number;
  /** Where the extension lines start: the edge that is measured. */
  readonly edge: number;
  /** A short one may set its number beyond its far end. */
  readonly outside?: boolean;
}

const arrow = 7;
const air = 4;

/** The number stands in a gap of the line; null when it has no room there and may not lie outside. */
export function dimension(wish: DimensionWish): Dimension | null {
  const from = Math.min(wish.from, wish.to);
  const to = Math.max(wish.from, wish.to);
  const width = figureWidth(wish.text, textSize);
  const fits = to - from >= width + 2 * (arrow + air) + 6;
  if (!fits && !wish.outside) return null;
  const centre = fits ? (from + to) / 2 : to + 18 + width / 2;
  const pieces: readonly (readonly [number, number])[] = fits
    ? [
        [from, centre - width / 2 - air],
        [centre + width / 2 + air, to],
      ]
    : [
        [from - 16, from],
        [from, to],
        [to, to + 16],
      ];
  const flat = wish.axis === "x";
  const line = ([start, end]: readonly [number, number]): Line =>
    flat ? { x1: start, y1: wish.at, x2: end, y2: wish.at } : { x1: wish.at, y1: start, x2: wish.at, y2: end };
  const past = wish.at >= wish.edge ? 4 : -4;
  const start = wish.edge + past / 2;
  const extension = (end: number): Line =>
    flat ? { x1: end, y1: start, x2: end, y2: wish.at + past } : { x1: start, y1: end, x2: wish.at + past, y2: end };
  const head = (tip: number, way: 1 | -1): string =>
    flat ? `M${tip} ${wish.at}l${way * arrow} -2.4v4.8Z` : `M${wish.at} ${tip}l-2.4 ${way * arrow}h4.8Z`;
  return {
    key: wish.key,
    text: wish.text,
    turned: !flat,
    at: flat ? { x: centre, y: wish.at } : { x: wish.at, y: centre },
    box: flat
      ? { x: centre - width / 2, y: wish.at - 8, width, height: 16 }
      : { x: wish.at - 8, y: centre - width / 2, width: 16, height: width },
    lines: pieces.map(line),
    extensions: [extension(from), extension(to)],
    arrows: fits ? head(from, 1) + head(to, -1) : head(from, -1) + head(to, 1),
  };
}
