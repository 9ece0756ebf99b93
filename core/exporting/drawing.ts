import { escapeXml, textWidth } from "./svgText.ts";

/** A rectangle on the sheet: x to the right, y down. */
export interface Rectangle {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

/** A sheet being drawn. All lengths in the sheet's own unit. */
export interface Drawing {
  /** A number as it stands in the SVG. */
  readonly n: (value: number) => string;
  readonly add: (...elements: string[]) => void;
  /** Text kept clear of all other text; false, and nothing drawn, when it would touch some. */
  readonly text: (text: string, x: number, y: number, options?: TextOptions) => boolean;
  readonly rectangle: (at: Rectangle, attributes: string) => void;
  readonly line: (x0: number, y0: number, x1: number, y1: number, attributes: string) => void;
  /** A dimension line along x or y with the first of these texts that fits in its gap, or none. */
  readonly dimension: (line: Dimension, ...texts: string[]) => void;
  readonly elements: readonly string[];
}

export interface TextOptions {
  readonly size?: number;
  readonly anchor?: "start" | "middle" | "end";
  /** Reads upward, turned a quarter counter-clockwise about its place. */
  readonly upward?: boolean;
  readonly bold?: boolean;
}

export interface Dimension {
  readonly axis: "x" | "y";
  readonly from: number;
  readonly to: number;
  /** Where the line lies on the other axis. */
  readonly at: number;
  /** Where the thing measured lies on the other axis; extension lines come from there. */
  readonly object: number;
}

/**
 * Starts an empty drawing.
 *
 * @param textSize height of the plain text; arrows and gaps follow it
 * @param decimals kept of each coordinate
 */
export function drawing(textSize: number, decimals: number): Drawing {
  const elements: string[] = [];
  const taken = rectangleIndex(40 * textSize);
  const n = (value: number): string => String(Number(value.toFixed(decimals)) + 0);
  const add = (...more: string[]): void => void elements.push(...more);

  const text: Drawing["text"] = (
    words,
    x,
    y,
    { size = textSize, anchor = "start", upward = false, bold = false } = {},
  ) => {
    if (words === "") return false;
    const length = textWidth(words) * size;
    const before = anchor === "start" ? 0 : anchor === "middle" ? length / 2 : length;
    const place = upward
      ? { x: x - size * 0.8, y: y - (length - before), width: size, height: length }
      : { x: x - before, y: y - size * 0.8, width: length, height: size };
    if (!taken.claim(place)) return false;
    const turn = upward ? ` transform="rotate(-90 ${n(x)} ${n(y)})"` : "";
    const weight = bold ? ' font-weight="600"' : "";
    const anchored = anchor === "start" ? "" : ` text-anchor="${anchor}"`;
    const sized = size === textSize ? "" : ` font-size="${n(size)}"`;
    add(`<text x="${n(x)}" y="${n(y)}"${sized}${anchored}${weight}${turn}>${escapeXml(words)}</text>`);
    return true;
  };

  const rectangle: Drawing["rectangle"] = ({ x, y, width, height }, attributes) =>
    add(`<rect x="${n(x)}" y="${n(y)}" width="${n(width)}" height="${n(height)}" ${attributes}/>`);
  const line: Drawing["line"] = (x0, y0, x1, y1, attributes) =>
    add(`<line x1="${n(x0)}" y1="${n(y0)}" x2="${n(x1)}" y2="${n(y1)}"${attributes === "" ? "" : ` ${attributes}`}/>`);

  const dimension: Drawing["dimension"] = ({ axis, from, to, at, object }, ...texts) => {
    const [arrow, thin] = [textSize * 0.8, 'class="dimension"'];
    const draw = (a0: number, b0: number, a1: number, b1: number): void =>
      axis === "x" ? line(a0, b0, a1, b1, thin) : line(b0, a0, b1, a1, thin);
    const past = at + Math.sign(at - object) * textSize * 0.4;
    const clear = object + Math.sign(at - object) * textSize * 0.3;
    draw(from, clear, from, past);
    draw(to, clear, to, past);
    const middle = (from + to) / 2;
    const halfGap = (words: string): number => (textWidth(words) * textSize) / 2 + textSize * 0.3;
    const written = texts.find(
      (words) =>
        to - from >= 2 * (halfGap(words) + arrow) &&
        (axis === "x"
          ? text(words, middle, at + textSize * 0.3, { anchor: "middle" })
          : text(words, at + textSize * 0.3, middle, { anchor: "middle", upward: true })),
    );
    if (written !== undefined) {
      const half = halfGap(written);
      draw(from, at, middle - half, at);
      draw(middle + half, at, to, at);
    } else draw(from, at, to, at);
    if (to - from < 2 * arrow) return;
    for (const [tip, inward] of [
      [from, arrow],
      [to, -arrow],
    ] as const) {
      const points: [number, number][] = [
        [tip, at],
        [tip + inward, at - arrow / 4],
        [tip + inward, at + arrow / 4],
      ];
      add(
        `<path d="M${points.map(([a, b]) => (axis === "x" ? `${n(a)} ${n(b)}` : `${n(b)} ${n(a)}`)).join("L")}Z" class="arrow"/>`,
      );
    }
  };

  return { n, add, text, rectangle, line, dimension, elements };
}

/** Rectangles already written on, found by the squares of a grid that they touch. */
function rectangleIndex(square: number): { claim: (place: Rectangle) => boolean } {
  const squares = new Map<string, Rectangle[]>();
  const touched = ({ x, y, width, height }: Rectangle): string[] => {
    const keys: string[] = [];
    for (let i = Math.floor(x / square); i <= Math.floor((x + width) / square); i++)
      for (let j = Math.floor(y / square); j <= Math.floor((y + height) / square); j++) keys.push(`${i},${j}`);
    return keys;
  };
  const meet = (a: Rectangle, b: Rectangle): boolean =>
    a.x < b.x + b.width && b.x < a.x + a.width && a.y < b.y + b.height && b.y < a.y + a.height;
  return {
    claim: (place) => {
      const keys = touched(place);
      if (keys.some((key) => squares.get(key)?.some((other) => meet(place, other)))) return false;
      for (const key of keys) {
        const here = squares.get(key);
        if (here === undefined) squares.set(key, [place]);
        else here.push(place);
      }
      return true;
    },
  };
}
