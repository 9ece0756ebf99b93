import type { Picture } from "../../../core/artwork/picture.ts";

export type Colour = readonly [red: number, green: number, blue: number, alpha?: number];
export const black: Colour = [0, 0, 0];
export const white: Colour = [255, 255, 255];

/** A picture painted pixel by pixel, y counted from its top. */
export function painted(width: number, height: number, colourAt: (x: number, y: number) => Colour): Picture {
  const data = new Uint8ClampedArray(4 * width * height);
  for (let y = 0; y < height; y++) {
    for (let x = 0; x < width; x++) {
      const [red, green, blue, alpha = 255] = colourAt(x, y);
      data.set([red, green, blue, alpha], 4 * (y * width + x));
    }
  }
  return { width, height, data };
}

/** Numbers 0 to 2^31 - 1, the same each time: a linear congruential generator with the constants of ISO C's example. */
export function numbersFrom(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (Math.imul(state, 1103515245) + 12345) >>> 0;
    return state >>> 1;
  };
}

/** Grey noise in blocks of so many pixels, the same for the same seed. */
export function noise(seed: number, block: number, columns: number): (x: number, y: number) => Colour {
  const next = numbersFrom(seed);
  const known: number[] = [];
  return (x, y) => {
    const at = Math.floor(y / block) * columns + Math.floor(x / block);
    while (known.length <= at) known.push((next() >> 8) % 256);
    const grey = known[at] as number;
    return [grey, grey, grey];
  };
}

/** A block of invented lettering: upright and level strokes, 4 pixels thick, 10 apart. */
export const letters = (x: number, y: number): Colour => (x % 10 < 4 || y % 14 < 4 ? black : white);
