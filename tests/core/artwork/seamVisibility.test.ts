import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { Picture } from "../../../core/artwork/picture.ts";
import { fitToBox, placedByTwo } from "../../../core/artwork/registration.ts";
import { seamVisibility, seamVisibilityInParts } from "../../../core/artwork/seamVisibility.ts";
import type { SeamMap } from "../../../core/model/instance.ts";
import { black, type Colour, letters, noise, painted, white } from "./pictures.ts";

const inch = 1_016_000;
/** Eight pixels an inch: a step of the map is a pixel, so its arithmetic can be done by hand. */
const perInch = 8;

/** The map, in cells of an inch, of a picture of eight pixels an inch whose lower left corner lies at the origin. */
function mapOf(picture: Picture, cell = inch): SeamMap {
  const box = { x0: 0, y0: 0, x1: (picture.width / perInch) * inch, y1: (picture.height / perInch) * inch };
  return seamVisibility(picture, fitToBox(picture, box).registration, cell, box);
}

const columnSums = ({ columns, rows, upright }: SeamMap): number[] =>
  Array.from({ length: columns }, (_, column) =>
    Array.from({ length: rows }, (_, row) => upright[row * columns + column] as number).reduce((a, b) => a + b, 0),
  );
const rowSums = ({ columns, rows, level }: SeamMap): number[] =>
  Array.from({ length: rows }, (_, row) => level.slice(row * columns, (row + 1) * columns).reduce((a, b) => a + b, 0));
const leastAt = (values: readonly number[]): number => values.indexOf(Math.min(...values));

describe("single edges", () => {
  // 100 of L* less 2.3 that goes unseen, once in an inch: 255 · 97.7 / (97.7 + 100) = 126.02.
  const once = 126;

  test("an edge across the seam is broken by it, an edge along it hides it", () => {
    const levelEdge = mapOf(painted(40, 40, (_, y) => (y < 20 ? white : black)));
    expect([...levelEdge.level]).toEqual(new Array(25).fill(0));
    // The edge lies 20 pixels up: in the middle of the third row of cells.
    expect([...levelEdge.upright]).toEqual([0, 0, once, 0, 0].flatMap((value) => new Array(5).fill(value)));
    const uprightEdge = mapOf(painted(40, 40, (x) => (x < 20 ? white : black)));
    expect([...uprightEdge.upright]).toEqual(new Array(25).fill(0));
    expect([...uprightEdge.level]).toEqual(new Array(5).fill([0, 0, once, 0, 0]).flat());
  });

  test("an edge on the rim of two cells counts half in either", () => {
    // 255 · 48.85 / (48.85 + 100) = 83.69
    const { upright } = mapOf(painted(32, 32, (_, y) => (y < 16 ? white : black)));
    expect([0, 4, 8, 12].map((at) => upright[at])).toEqual([0, 84, 84, 0]);
  });

  test("colours alike in lightness still make an edge", () => {
    const [red, green]: Colour[] = [
      [222, 0, 0],
      [0, 122, 0],
    ];
    const { upright } = mapOf(painted(24, 24, (_, y) => (y < 12 ? (red as Colour) : (green as Colour))));
    expect(upright[4]).toBeGreaterThan(once);
  });

  test("a rise so slow that no step of it is noticed counts nothing", () => {
    const shaded = mapOf(painted(80, 400, (_, y) => new Array(3).fill(Math.round((y * 255) / 399)) as never as Colour));
    expect(Math.max(...shaded.upright, ...shaded.level)).toBe(0);
  });

  test("what is transparent is white film", () => {
    const clear = mapOf(painted(24, 24, (_, y) => (y < 12 ? [0, 0, 0, 0] : white)));
    expect(Math.max(...clear.upright)).toBe(0);
    expect(mapOf(painted(24, 24, (_, y) => (y < 12 ? [0, 0, 0, 0] : black))).upright[4]).toBe(once);
  });
});

test("a flat picture of any colour, however it lies, is nought everywhere", () => {
  const byte = fc.integer({ min: 0, max: 255 });
  fc.assert(
    fc.property(byte, byte, byte, fc.integer({ min: -80, max: 80 }), (red, green, blue, rise) => {
      const picture = painted(31, 23, () => [red, green, blue]);
      const found = placedByTwo(
        { pixel: { x: 1, y: 20 }, place: { x: 0, y: 0 } },
        { pixel: { x: 29, y: 20 }, place: { x: 10 * inch, y: Math.round((rise / 100) * inch) } },
      );
      if (!("registration" in found)) throw new Error(found.fault);
      const box = { x0: -inch, y0: -inch, x1: 12 * inch, y1: 9 * inch };
      const { upright, level } = seamVisibility(picture, found.registration, inch / 2, box);
      expect(Math.max(...upright, ...level)).toBe(0);
    }),
    { seed: 20261102, numRuns: 25 },
  );
});

describe("planted seams are found", () => {
  test("a flat corridor through noise", () => {
    // Noise in blocks of 3 pixels, flat from pixel 80 to 112: cells 10 to 13, whose middle two no difference reaches.
    const grain = noise(7, 3, 100);
    const sums = columnSums(mapOf(painted(192, 96, (x, y) => (x >= 80 && x < 112 ? [90, 90, 90] : grain(x, y)))));
    expect([11, 12]).toContain(leastAt(sums));
    expect(sums[11]).toBe(0);
    expect(Math.min(...sums.filter((_, column) => column < 9 || column > 14))).toBeGreaterThan(500);
  });

  test("the same corridor lying flat, for level seams", () => {
    const grain = noise(7, 3, 100);
    const sums = rowSums(mapOf(painted(96, 192, (x, y) => (y >= 80 && y < 112 ? [90, 90, 90] : grain(x, y)))));
    // 192 - 112 = 80 pixels up to 112.
    expect([11, 12]).toContain(leastAt(sums));
    expect(sums[11]).toBe(0);
  });

  test("the gap between two blocks of lettering", () => {
    // Letters over pixels 16 to 96 and 128 to 208; the gap is cells 12 to 15.
    const isLetter = (x: number, y: number) => y >= 24 && y < 72 && ((x >= 16 && x < 96) || (x >= 128 && x < 208));
    const sums = columnSums(mapOf(painted(224, 96, (x, y) => (isLetter(x, y) ? letters(x, y) : white))));
    const within = sums.slice(2, 26);
    expect([13, 14]).toContain(leastAt(within) + 2);
    expect(sums[13]).toBe(0);
    expect(Math.min(...sums.slice(3, 11), ...sums.slice(17, 25))).toBeGreaterThan(500);
  });

  test("lettering is seen more than stripes that cross the seam as often", () => {
    const stripes = mapOf(painted(80, 84, (_, y) => (y % 14 < 4 ? black : white)));
    const lettering = mapOf(painted(80, 84, letters));
    const middle = 5 * 10 + 5;
    expect(stripes.upright[middle]).toBeGreaterThan(0);
    expect(lettering.upright[middle] as number).toBeGreaterThan(1.2 * (stripes.upright[middle] as number));
  });

  test("along the stripes themselves nothing is seen, however dense they are", () => {
    const stripes = mapOf(painted(80, 80, (x) => (x % 5 < 2 ? black : white)));
    expect(Math.max(...stripes.upright)).toBe(0);
    // An edge every 2.5 pixels, so a cell has 2.5 of them at least: 255 · 244.25 / 344.25 = 180.9
    expect(Math.min(...stripes.level)).toBe(181);
  });
});

describe("however the picture is turned, moved or cut, the map goes with it", () => {
  const grain = noise(11, 2, 64);
  const [width, height] = [72, 40];
  const picture = painted(width, height, grain);
  const map = mapOf(picture);
  const [columns, rows] = [9, 5];

  // Sums of doubles in another order may differ in their last place, and a value half way between two bytes with them.
  const alike = (found: ArrayLike<number>, should: ArrayLike<number>): void => {
    expect(found.length).toBe(should.length);
    for (let i = 0; i < should.length; i++) {
      expect(Math.abs((found[i] as number) - (should[i] as number))).toBeLessThanOrEqual(1);
    }
  };
  const moved = (values: Uint8Array, to: (column: number, row: number) => number): number[] =>
    Array.from({ length: columns * rows }, (_, i) => values[to(i % columns, Math.floor(i / columns))] as number);

  test("mirrored left to right, and upside down", () => {
    const turned = mapOf(painted(width, height, (x, y) => grain(width - 1 - x, y)));
    for (const key of ["upright", "level"] as const) {
      alike(
        turned[key],
        moved(map[key], (column, row) => row * columns + columns - 1 - column),
      );
    }
    const over = mapOf(painted(width, height, (x, y) => grain(x, height - 1 - y)));
    for (const key of ["upright", "level"] as const) {
      alike(
        over[key],
        moved(map[key], (column, row) => (rows - 1 - row) * columns + column),
      );
    }
  });

  test("right and up changed for each other, upright seams become level ones", () => {
    const swapped = mapOf(painted(height, width, (x, y) => grain(width - 1 - y, height - 1 - x)));
    const across = (values: Uint8Array) => moved(values, (column, row) => column * rows + row);
    alike(across(swapped.level), map.upright);
    alike(across(swapped.upright), map.level);
  });

  test("moved by whole cells it moves by whole cells, and beyond the picture is nothing", () => {
    const { registration } = fitToBox(picture, { x0: 0, y0: 0, x1: columns * inch, y1: rows * inch });
    const wide = seamVisibility(picture, registration, inch, {
      x0: -3 * inch,
      y0: -2 * inch,
      x1: 14 * inch,
      y1: 9 * inch,
    });
    expect([wide.columns, wide.rows]).toEqual([17, 11]);
    for (const key of ["upright", "level"] as const) {
      alike(
        Array.from({ length: columns * rows }, (_, i) => {
          const [column, row] = [i % columns, Math.floor(i / columns)];
          return wide[key][(row + 2) * 17 + column + 3] as number;
        }),
        map[key],
      );
      expect(wide[key].slice(0, 17).every((value) => value === 0)).toBe(true);
    }
  });

  test("twice: the same bytes, whoever looks in between", () => {
    const tall = painted(40, 1600, grain);
    const box = { x0: 0, y0: 0, x1: 5 * inch, y1: 200 * inch };
    const parts = seamVisibilityInParts(tall, fitToBox(tall, box).registration, inch, box);
    const steps: number[] = [];
    let result = parts.next();
    while (!result.done) {
      steps.push(result.value.done);
      result = parts.next();
    }
    expect(steps.length).toBeGreaterThan(1);
    expect(steps.at(-1)).toBe(200);
    expect(result.value).toEqual(mapOf(tall));
    // The upper part of it alone.
    const half = seamVisibility(tall, fitToBox(tall, box).registration, inch, { ...box, y0: 90 * inch });
    alike(half.upright, result.value.upright.slice(5 * 90));
  });
});

test("a map of more than 4000 cells on a side is refused", () => {
  const picture = painted(8, 8, () => white);
  const box = { x0: 0, y0: 0, x1: 4001 * inch, y1: inch };
  const { registration } = fitToBox(picture, box);
  expect(() => seamVisibility(picture, registration, inch, box)).toThrow("4001 by 1 cells");
});
