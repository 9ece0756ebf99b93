import { expect, test } from "vitest";
import { firstPlacing, lay, type Placing } from "../../../renderer/artwork/placing.ts";

const inch = 1_016_000;
const box = { x0: 0, y0: 0, x1: 100 * inch, y1: 40 * inch };
const size = { width: 1000, height: 400 };
const first = firstPlacing(size, box);
const says = (placing: Placing, picture = size, unit: "in" | "mm" = "in"): string => {
  const laid = lay(placing, picture, box, unit);
  return "why" in laid ? laid.why : laid.says;
};

test("over the whole elevation: fineness, and the misfit in percent", () => {
  expect(says(first)).toBe("10 pixels an inch. Its sides are as the elevation's.");
  // 100 / 1000 = 0.1 and 40 / 500 = 0.08: a quarter more; sqrt(0.1 · 0.08) in a pixel.
  expect(says(first, { width: 1000, height: 500 })).toBe(
    "11.2 pixels an inch. Its sides differ from the elevation's by 25 %, so it is stretched by as much.",
  );
  // 10 an inch are 3.937 a centimetre.
  expect(says(first, size, "mm")).toContain("3.9 pixels a centimetre");
});

test("the corners it begins with lay it as over the whole, by places and by distance", () => {
  const whole = lay(first, size, box, "in");
  for (const way of ["places", "distance"] as const) {
    const laid = lay({ ...first, way }, size, box, "in");
    if (!("registration" in laid) || !("registration" in whole)) throw new Error("The picture is not laid.");
    for (const key of ["origin", "right", "down"] as const) {
      expect(laid.registration[key].x).toBeCloseTo(whole.registration[key].x, 0);
      expect(laid.registration[key].y).toBeCloseTo(whole.registration[key].y, 0);
    }
  }
});

test("what can't be laid says why, and what to look at", () => {
  const places = { ...first, way: "places" as const };
  expect(says({ ...places, b: { ...places.b, pixel: { x: 4, y: 396 } } })).toMatch(/too close together.* 8 pixels/);
  const mixed = says({ ...places, a: places.b, b: { ...places.a, place: { x: 200 * inch, y: 80 * inch } } });
  expect(mixed).toMatch(/turn the picture by 180°; up to 5° are put right\. Check that the two are not mixed up/);
  const askew = says({ ...places, b: { ...places.b, place: { x: 100 * inch, y: 42 * inch } } });
  // atan(42/100) - atan(40/100) = 22.78° - 21.80°
  expect(askew).toMatch(/Turned by 1°\.$/);
});
