import fc from "fast-check";
import { expect, test } from "vitest";
import {
  fitToBox,
  pixelOf,
  pixelSize,
  placedByDistance,
  placedByTwo,
  placeOf,
  type Registration,
} from "../../../core/artwork/registration.ts";

const inch = 1_016_000;

test("a picture made for the elevation fills its box, upright, with no misfit", () => {
  const box = { x0: 10 * inch, y0: 0, x1: 210 * inch, y1: 50 * inch };
  const { registration, misfit } = fitToBox({ width: 400, height: 100 }, box);
  expect(misfit).toBe(0);
  expect(placeOf(registration, { x: 0, y: 100 })).toEqual({ x: 10 * inch, y: 0 });
  expect(placeOf(registration, { x: 400, y: 0 })).toEqual({ x: 210 * inch, y: 50 * inch });
  expect(pixelSize(registration)).toBe(inch / 2);
});

test("the misfit tells how much the two scales differ", () => {
  // 200 in / 400 pixels = 0.5, 50 in / 80 pixels = 0.625: a quarter more.
  const box = { x0: 0, y0: 0, x1: 200 * inch, y1: 50 * inch };
  expect(fitToBox({ width: 400, height: 80 }, box).misfit).toBeCloseTo(25, 10);
});

const registered = (found: ReturnType<typeof placedByTwo>): Registration => {
  if (!("registration" in found)) throw new Error(found.fault);
  return found.registration;
};

test("two known places give scale, place and turn, and both are met", () => {
  const turned = (degrees: number, x: number, y: number) => {
    const angle = (degrees * Math.PI) / 180;
    return {
      x: 1000 + 3 * (x * Math.cos(angle) + y * Math.sin(angle)),
      y: 9000 + 3 * (x * Math.sin(angle) - y * Math.cos(angle)),
    };
  };
  fc.assert(
    fc.property(fc.double({ min: -5, max: 5, noNaN: true }), fc.nat(500), fc.nat(500), (degrees, x, y) => {
      const first = { pixel: { x: 20, y: 30 }, place: turned(degrees, 20, 30) };
      const second = { pixel: { x: 120 + x, y: 30 + y }, place: turned(degrees, 120 + x, 30 + y) };
      const found = placedByTwo(first, second);
      expect(found.turn).toBeCloseTo(degrees, 6);
      const there = placeOf(registered(found), { x: 300, y: 200 });
      const should = turned(degrees, 300, 200);
      expect(there.x).toBeCloseTo(should.x, 4);
      expect(there.y).toBeCloseTo(should.y, 4);
      const back = pixelOf(registered(found), there);
      expect(back.x).toBeCloseTo(300, 4);
      expect(back.y).toBeCloseTo(200, 4);
    }),
    { seed: 20261101 },
  );
});

test("a turn beyond five degrees is refused, two places mixed up among them", () => {
  const first = { pixel: { x: 0, y: 100 }, place: { x: 0, y: 0 } };
  const at = (y: number) => placedByTwo(first, { pixel: { x: 100, y: 100 }, place: { x: 1000, y } });
  expect(at(Math.round(1000 * Math.tan((4.9 * Math.PI) / 180)))).toHaveProperty("registration");
  expect(at(Math.round(1000 * Math.tan((5.1 * Math.PI) / 180)))).toHaveProperty("fault", "turned");
  const swapped = placedByTwo(
    { pixel: { x: 100, y: 100 }, place: { x: 0, y: 0 } },
    { pixel: { x: 0, y: 100 }, place: { x: 1000, y: 0 } },
  );
  expect(swapped).toEqual({ fault: "turned", turn: 180 });
});

test("places less than eight pixels apart are refused", () => {
  const first = { pixel: { x: 50, y: 50 }, place: { x: 0, y: 0 } };
  expect(placedByTwo(first, { pixel: { x: 57, y: 50 }, place: { x: 99, y: 0 } })).toHaveProperty("fault", "close");
  expect(placedByTwo(first, { pixel: { x: 58, y: 50 }, place: { x: 99, y: 0 } })).toHaveProperty("registration");
  expect(placedByTwo(first, { pixel: { x: 90, y: 50 }, place: { x: 0, y: 0 } })).toHaveProperty("fault", "close");
  expect(placedByDistance(first, { x: 57, y: 50 }, 10)).toHaveProperty("fault", "close");
  expect(placedByDistance(first, { x: 90, y: 50 }, 0)).toHaveProperty("fault", "close");
});

test("one place and a distance give the scale, without a turn", () => {
  // 30 across and 40 down are 50 pixels; 100 ticks over them are 2 a pixel.
  const found = placedByDistance({ pixel: { x: 10, y: 10 }, place: { x: 500, y: 700 } }, { x: 40, y: 50 }, 100);
  expect(placeOf(registered(found), { x: 40, y: 50 })).toEqual({ x: 560, y: 620 });
});
