import { readFileSync } from "node:fs";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  editableLength,
  formatArea,
  formatLength,
  formatMoney,
  formatNumber,
  lengthParts,
} from "../../../core/units/formatLength.ts";
import { parseLength } from "../../../core/units/parseLength.ts";
import { ticksFrom, ticksTo, type Unit } from "../../../core/units/ticks.ts";

const inch = 1_016_000;
const mm = 40_000;

describe("published: inch and millimetre", () => {
  const published = JSON.parse(readFileSync(new URL("../../data/inch-millimetre.json", import.meta.url), "utf8"));
  test("1 in = 25.4 mm, 1 ft = 304.8 mm, 1 yd = 0.9144 m, to the tick", () => {
    expect(parseLength("1 in", "mm")).toEqual(parseLength(`${published.inchInMillimetres}`, "mm"));
    expect(parseLength("1 ft", "mm")).toEqual(parseLength(`${published.footInMillimetres}`, "mm"));
    expect(parseLength("1 yd", "mm")).toEqual(parseLength(`${published.yardInMetres} m`, "mm"));
  });
  test.each(published.examples as [number, number][])("%d in = %d mm", (inches, millimetres) => {
    expect(ticksFrom(inches, "in")).toBe(ticksFrom(millimetres, "mm"));
    expect(ticksTo(ticksFrom(inches, "in"), "mm")).toBe(millimetres);
    expect(parseLength(`${inches}`, "in")).toEqual(parseLength(`${millimetres} mm`, "in"));
  });
});

describe("what people type", () => {
  const read: [string, Unit, number][] = [
    ["53", "in", 53 * inch],
    ["53", "mm", 53 * mm],
    ["53.5", "in", 53.5 * inch],
    [" 53,5 ", "in", 53.5 * inch],
    ["0,125", "in", inch / 8],
    ["53,25", "in", 53.25 * inch],
    [".5", "in", inch / 2],
    [",5", "in", inch / 2],
    ["53 1/2", "in", 53.5 * inch],
    ["53-1/2", "in", 53.5 * inch],
    ["53 - 1/2", "in", 53.5 * inch],
    ["53 1 / 2", "in", 53.5 * inch],
    ["1/2", "in", inch / 2],
    ["1/64", "in", 15_875],
    ["3/2", "in", 1.5 * inch],
    ["53½", "in", 53.5 * inch],
    ["53 ½", "in", 53.5 * inch],
    ["¾", "in", 0.75 * inch],
    ["⅞ in", "in", 0.875 * inch],
    ["53 1⁄2", "in", 53.5 * inch],
    ["4'5\"", "in", 53 * inch],
    ["4' 5\"", "in", 53 * inch],
    ["4'5", "in", 53 * inch],
    ["4'-5 1/2\"", "in", 53.5 * inch],
    ["4' 5 1/2\"", "in", 53.5 * inch],
    ["4′ 5″", "in", 53 * inch],
    ["4’5”", "in", 53 * inch],
    ["4'5''", "in", 53 * inch],
    ["4'", "in", 48 * inch],
    ["4 1/2 ft", "in", 54 * inch],
    ['53"', "mm", 53 * inch],
    ["4 ft 5 in", "in", 53 * inch],
    ["4ft5in", "in", 53 * inch],
    ["4 Feet 5 Inches", "mm", 53 * inch],
    ["5 in.", "mm", 5 * inch],
    ["2 yd 1 ft 3 in", "in", 87 * inch],
    ["1346 mm", "in", 1346 * mm],
    ["1346mm", "in", 1346 * mm],
    ["134.6 cm", "in", 1346 * mm],
    ["134,6 cm", "in", 1346 * mm],
    ["1.35 m", "in", 1350 * mm],
    ["1,35 m", "in", 1350 * mm],
    ["1 m 35 cm", "in", 1350 * mm],
    ["1 metre", "in", 1000 * mm],
    ["≈53.5 in", "in", 53.5 * inch],
    ["0", "in", 0],
    ["-0", "in", 0],
    ["53\u00a01/2", "in", 53.5 * inch],
    ["0.0000001", "in", 0],
  ];
  test.each(read)("%j in a job in %s", (text, unit, ticks) => {
    expect(parseLength(text, unit)).toEqual({ ok: true, ticks });
  });

  const refused = [
    ["", "Type a length"],
    ["   ", "Type a length"],
    ["-", "Type a length"],
    ["abc", "is not a length"],
    ["NaN", "is not a length"],
    ["Infinity", "is not a length"],
    ["1e5", "is not a unit"],
    ["5 miles", "is not a unit"],
    ["53 1/0", "0 below its line"],
    ["1,200", "comma"],
    ["1,234.5", "comma"],
    ["1.2.3", "unit"],
    ["5 5", "unit"],
    ["1 m 35", "unit"],
    ["5 in 4 ft", "larger unit first"],
    ["1 m 4 in", "larger unit first"],
    ["4 ft 4 ft", "larger unit first"],
    ["53/", "is not a length"],
    ["--5", "is not a length"],
    ["-5", "below zero"],
    ["1000000 in", "1,000,000 in"],
    ["9".repeat(400), "1,000,000 in"],
    ["5 constructor", "is not a unit"],
  ];
  test.each(refused)("%j is refused: %s", (text, part) => {
    const parsed = parseLength(text ?? "", "in", {});
    expect(parsed.ok ? `ticks ${parsed.ticks}` : parsed.why).toContain(part);
  });

  test("below zero where that makes sense", () => {
    expect(parseLength("-1/2", "in", { negative: true })).toEqual({ ok: true, ticks: -inch / 2 });
    expect(parseLength("−4' 6\"", "in", { negative: true })).toEqual({ ok: true, ticks: -54 * inch });
  });

  test("any text gives a whole number of ticks or a problem", () => {
    const marks = fc.constantFrom(..."0123456789 ./,-'\"½′″ftinmcyd≈+e\t".split(""));
    fc.assert(
      fc.property(fc.string({ unit: marks, maxLength: 14 }), (text) => {
        const parsed = parseLength(text, "mm", { negative: true });
        if (parsed.ok) expect(Number.isSafeInteger(parsed.ticks)).toBe(true);
        else expect(parsed.why.length).toBeGreaterThan(10);
      }),
      { seed: 20260101, numRuns: 2000 },
    );
  });
});

describe("how lengths are shown", () => {
  const shown: [number, Unit, string][] = [
    [53.5 * inch, "in", "53 1/2 in"],
    [inch / 2, "in", "1/2 in"],
    [53 * inch, "in", "53 in"],
    [0, "in", "0 in"],
    [(53 + 5 / 16) * inch, "in", "53 5/16 in"],
    [(53 + 1 / 64) * inch, "in", "53 1/64 in"],
    [53.1 * inch, "in", "53.1 in"],
    [53.123 * inch, "in", "53.123 in"],
    [53 * inch + 1, "in", "≈53 in"],
    [-1, "in", "≈0 in"],
    [-1.5 * inch, "in", "-1 1/2 in"],
    [1346 * mm, "mm", "1346 mm"],
    [1346.4 * mm, "mm", "1346.4 mm"],
    [1346.44 * mm, "mm", "≈1346.4 mm"],
    [inch, "mm", "25.4 mm"],
    [inch / 64, "mm", "≈0.4 mm"],
    [9.96 * mm, "mm", "≈10 mm"],
  ];
  test.each(shown)("%d ticks in %s: %s", (ticks, unit, text) => {
    expect(formatLength(Math.round(ticks), unit)).toBe(text);
  });

  test("feet and inches on request", () => {
    const feet = (inches: number) => formatLength(inches * inch, "in", { feet: true });
    expect([11.5, 12, 53.5, 54.25, 48.5, -53].map(feet)).toEqual([
      "11 1/2 in",
      "1 ft",
      "4 ft 5 1/2 in",
      "4 ft 6 1/4 in",
      "4 ft 1/2 in",
      "-4 ft 5 in",
    ]);
    expect(formatLength(1346 * mm, "mm", { feet: true })).toBe("1346 mm");
  });

  test("taken apart for true fractions", () => {
    expect(lengthParts(53.375 * inch, "in")).toEqual({
      negative: false,
      feet: null,
      whole: 53,
      numerator: 3,
      denominator: 8,
      decimals: "",
      unit: "in",
      rounded: false,
    });
    expect(lengthParts(53.005 * inch, "in")).toMatchObject({
      whole: 53,
      numerator: 0,
      denominator: 1,
      decimals: "005",
    });
  });

  const length = fc.oneof(
    fc.integer({ min: -400_000_000, max: 400_000_000 }),
    fc.integer({ min: -20_000, max: 20_000 }).map((n) => n * 15_875),
    fc.integer({ min: -500_000, max: 500_000 }).map((n) => n * 1_016),
  );
  test("what is shown as exact, and what is edited, is read back to the tick", () => {
    fc.assert(
      fc.property(length, fc.constantFrom<Unit>("in", "mm"), fc.boolean(), (ticks, unit, feet) => {
        const text = formatLength(ticks, unit, { feet });
        if (!text.startsWith("≈")) expect(parseLength(text, unit, { negative: true })).toEqual({ ok: true, ticks });
        expect(parseLength(editableLength(ticks, unit), unit, { negative: true })).toEqual({ ok: true, ticks });
        // Shown to 0.001 in or 0.1 mm, so never off by more than half of that: 508 or 2000 ticks.
        const parsed = parseLength(text, unit, { negative: true });
        expect(parsed.ok && Math.abs(parsed.ticks - ticks)).toBeLessThanOrEqual(unit === "in" ? 508 : 2000);
      }),
      { seed: 20260101, numRuns: 1000 },
    );
  });
});

test("areas, money and numbers", () => {
  expect(formatArea(26_244, "in")).toBe("182.3 ft²"); // 26,244 / 144 = 182.25
  expect(formatArea(3_128_436, "mm")).toBe("3.13 m²");
  expect(formatMoney(1234.5, "USD")).toBe("$1,234.50");
  expect(formatMoney(-3, "EUR")).toBe("-€3.00");
  expect(formatMoney(-0.001, "CAD")).toBe("CAD 0.00");
  expect(formatMoney(1, "")).toBe("1.00");
  expect(formatNumber(1_234_567.891, 1)).toBe("1,234,567.9");
  expect(formatNumber(-0.04, 1)).toBe("0.0");
});
