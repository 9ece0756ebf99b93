import { expect, test } from "vitest";
import { linearOf, writeLab } from "../../../core/artwork/colour.ts";

function labOf(red: number, green: number, blue: number): number[] {
  const lab = new Float64Array(3);
  writeLab(linearOf[red] as number, linearOf[green] as number, linearOf[blue] as number, lab, 0);
  return [...lab];
}

test("bytes become linear light: the ends, and the two pieces meet", () => {
  expect(linearOf[0]).toBe(0);
  expect(linearOf[255]).toBe(1);
  // 10 is the last byte of the straight piece (10 / 255 = 0.0392 ≤ 0.04045), 11 the first of the curve.
  expect(linearOf[10]).toBeCloseTo(10 / 255 / 12.92, 12);
  expect(linearOf[11]).toBeCloseTo(((11 / 255 + 0.055) / 1.055) ** 2.4, 12);
});

test("greys have no hue, white is 100 light and black 0", () => {
  for (const grey of [0, 1, 60, 128, 255]) {
    const [, a, b] = labOf(grey, grey, grey);
    expect(a).toBeCloseTo(0, 10);
    expect(b).toBeCloseTo(0, 10);
  }
  expect(labOf(0, 0, 0)[0]).toBeCloseTo(0, 10);
  expect(labOf(255, 255, 255)[0]).toBeCloseTo(100, 10);
});

test("the primaries of sRGB", () => {
  // From memory: figures widely printed for sRGB under D65; the matrix here has four decimals, hence the tolerance.
  const known = [
    [255, 0, 0, 53.24, 80.09, 67.2],
    [0, 255, 0, 87.73, -86.18, 83.18],
    [0, 0, 255, 32.3, 79.19, -107.86],
  ] as const;
  for (const [red, green, blue, ...lab] of known) {
    labOf(red, green, blue).forEach((value, i) => void expect(Math.abs(value - (lab[i] as number))).toBeLessThan(0.05));
  }
});
