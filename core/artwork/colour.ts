/** Colours as they are seen: sRGB to linear light and on to CIE L*a*b*, in which equal distances look about equal. */

/** Linear light, 0 to 1, of each byte of an sRGB channel: IEC 61966-2-1:1999, section 5.2. */
export const linearOf: Float64Array = Float64Array.from({ length: 256 }, (_, byte) => {
  const value = byte / 255;
  return value <= 0.04045 ? value / 12.92 : ((value + 0.055) / 1.055) ** 2.4;
});

/**
 * The smallest difference of two colours, in units of L*a*b*, that is just noticed: 2.3, Mahy, Van Eycken and Oosterlinck
 * (1994), Color Research and Application 19(2), 105–121.
 */
export const JUST_NOTICED = 2.3;

/** X and Z of white, as the matrix below makes them of (1, 1, 1), so that every grey has a* = b* = 0. Its Y is 1. */
const WHITE_X = 0.4124 + 0.3576 + 0.1805;
const WHITE_Z = 0.0193 + 0.1192 + 0.9505;

/** CIE 15:2004, section 8.2.1.1: a cube root with a straight piece near black. */
const bent = (ratio: number): number =>
  ratio > (6 / 29) ** 3 ? Math.cbrt(ratio) : ratio / (3 * (6 / 29) ** 2) + 4 / 29;

/**
 * Writes L*, a*, b* of a colour in linear light (each channel 0 to 1) at `at` of `into`. By way of X, Y, Z under D65, with
 * the matrix of IEC 61966-2-1:1999, section 5.2.
 */
export function writeLab(red: number, green: number, blue: number, into: Float64Array, at: number): void {
  const fx = bent((0.4124 * red + 0.3576 * green + 0.1805 * blue) / WHITE_X);
  const fy = bent(0.2126 * red + 0.7152 * green + 0.0722 * blue);
  const fz = bent((0.0193 * red + 0.1192 * green + 0.9505 * blue) / WHITE_Z);
  into[at] = 116 * fy - 16;
  into[at + 1] = 500 * (fx - fy);
  into[at + 2] = 200 * (fy - fz);
}
