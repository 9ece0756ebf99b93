import type { Ticks } from "../units/ticks.ts";
import { linearOf, writeLab } from "./colour.ts";
import type { Picture } from "./picture.ts";
import { pixelOf, type Registration } from "./registration.ts";

/** Squares side by side on an elevation: rows from the bottom, each from the left. */
export interface Lattice {
  /** Lower left corner of the first square; neither it nor the step need be whole. */
  readonly x0: Ticks;
  readonly y0: Ticks;
  readonly step: Ticks;
  readonly columns: number;
  readonly rows: number;
}

/**
 * The picture's colour in each square, averaged by area in linear light. A square smaller than a pixel takes the average
 * of one pixel's size round its middle, which is interpolation between pixels.
 *
 * @returns L*, a*, b* of each square, three numbers a square; NaN where its middle lies outside the picture
 *
 * Time O(squares + pixels that they cover), memory 24 bytes a square. A turned picture (5 degrees at most) is averaged over
 * the upright box round each turned square, up to 9 % wider than the square.
 */
export function sampleColours(picture: Picture, registration: Registration, lattice: Lattice): Float64Array {
  const { step, columns, rows } = lattice;
  const colours = new Float64Array(3 * columns * rows).fill(Number.NaN);
  const origin = pixelOf(registration, { x: lattice.x0 + step / 2, y: lattice.y0 + step / 2 });
  const one = pixelOf(registration, { x: lattice.x0 + 1.5 * step, y: lattice.y0 + step / 2 });
  const up = pixelOf(registration, { x: lattice.x0 + step / 2, y: lattice.y0 + 1.5 * step });
  const across = { x: one.x - origin.x, y: one.y - origin.y };
  const upward = { x: up.x - origin.x, y: up.y - origin.y };
  const halfWidth = Math.max(1, Math.abs(across.x) + Math.abs(upward.x)) / 2;
  const halfHeight = Math.max(1, Math.abs(across.y) + Math.abs(upward.y)) / 2;
  const sum: [number, number, number] = [0, 0, 0];
  for (let row = 0; row < rows; row++) {
    for (let column = 0; column < columns; column++) {
      const x = origin.x + column * across.x + row * upward.x;
      const y = origin.y + column * across.y + row * upward.y;
      if (x < 0 || x > picture.width || y < 0 || y > picture.height) continue;
      averageOver(picture, x - halfWidth, y - halfHeight, x + halfWidth, y + halfHeight, sum);
      writeLab(sum[0], sum[1], sum[2], colours, 3 * (row * columns + column));
    }
  }
  return colours;
}

/** Linear light averaged over a box of the picture, each pixel by the part of it that the box covers, over white film. */
function averageOver(
  { width, height, data }: Picture,
  left: number,
  top: number,
  right: number,
  bottom: number,
  into: [number, number, number],
): void {
  const [x0, x1] = [Math.max(0, left), Math.min(width, right)];
  const [y0, y1] = [Math.max(0, top), Math.min(height, bottom)];
  let [red, green, blue, weight] = [0, 0, 0, 0];
  for (let y = Math.floor(y0); y < y1; y++) {
    const high = Math.min(y + 1, y1) - Math.max(y, y0);
    for (let x = Math.floor(x0); x < x1; x++) {
      const part = high * (Math.min(x + 1, x1) - Math.max(x, x0));
      const at = 4 * (y * width + x);
      const cover = (part * (data[at + 3] as number)) / 255;
      const bare = part - cover;
      red += bare + cover * (linearOf[data[at] as number] as number);
      green += bare + cover * (linearOf[data[at + 1] as number] as number);
      blue += bare + cover * (linearOf[data[at + 2] as number] as number);
      weight += part;
    }
  }
  into[0] = red / weight;
  into[1] = green / weight;
  into[2] = blue / weight;
}
