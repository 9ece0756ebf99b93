import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { Elevation, Instance } from "../../../core/model/instance.ts";
import type { Panel } from "../../../core/model/plan.ts";
import { lowerBound } from "../../../core/nesting/lowerBounds.ts";
import { layOnRolls } from "../../../core/rolls/layOnRolls.ts";
import { area, elevation, film, job, loose, panel, rules, run } from "../rolls/jobs.ts";

const MM = 40_000;

/** A rectangle of whole millimetres as an elevation in one section. */
function rectangle(id: string, wide: number, high: number, over: Partial<Elevation> = {}, count = 1): Elevation {
  const box = { x0: 0, y0: 0, x1: wide * MM, y1: high * MM };
  return elevation(id, count, {
    outline: [
      { x: 0, y: 0 },
      { x: box.x1, y: 0 },
      { x: box.x1, y: box.y1 },
      { x: 0, y: box.y1 },
    ],
    box,
    sections: [{ id: "whole", box, direction: "vertical", maxAcross: null, heads: "same" as const }],
    ...over,
  });
}

const inMm = (over: Partial<Instance> = {}): Instance =>
  job({
    films: [film({ rollWidths: [50 * MM], pricePerArea: 2, inkPricePerArea: 1 })],
    rules: {
      ...rules,
      cutGap: MM,
      leader: 10 * MM,
      trailer: 5 * MM,
      overlap: 2 * MM,
      panelPrice: 3,
      seamPricePerLength: 0.5,
    },
    ...over,
  });

const ask = (
  instance: Instance,
  seams: number,
  rollWidth: number | null = 50 * MM,
  nesting: "crosscut" | "free" = "crosscut",
) => lowerBound(instance, { rollWidth, nesting, seams });

describe("tight by hand", () => {
  test("one panel as wide as the roll", () => {
    // Film 50 x (10 + 80 + 5) = 4750 at 2, print 50 x 80 = 4000 at 1, one panel at 3.
    const bound = ask(inMm({ elevations: [rectangle("a", 50, 80)] }), 0);
    expect(bound.filmArea).toBeCloseTo(4750, 6);
    expect(bound.cost).toBeCloseTo(9500 + 4000 + 3, 6);
  });

  test("two panels and their seam, for every copy", () => {
    // 90 across: two panels with an overlap of 2, 92 x 80. Six cuts of 80 for three copies: 10 + 6 x 81 - 1 + 5 = 500.
    const bound = ask(inMm({ elevations: [rectangle("a", 90, 80, {}, 3)] }), 3);
    expect(bound.filmArea).toBeCloseTo(50 * 500, 6);
    // Two ticks are let go for the rounding of sloped ends.
    expect(bound.cost).toBeCloseTo(2 * 25_000 + 3 * (92 * 80 + 2 * 3 + 0.5 * 80), 3);
  });

  test("a seam counts as little as any place it might lie at; what artwork shows only adds", () => {
    const weighed = (zones: readonly (readonly [number, number, number])[], over: Partial<Elevation> = {}) => {
      const heightZones = zones.map(([from, to, weight]) => ({ from: from * MM, to: to * MM, weight }));
      const plain = inMm();
      const side = rectangle("a", 90, 80, over);
      return ask({ ...plain, elevations: [side], rules: { ...plain.rules, heightZones } }, 1).cost;
    };
    // As above on one copy, 10 + 2 x 81 - 1 + 5 = 176 long, with a seam of 80 at half the price of its weight.
    const cost = (weight: number) => 2 * 50 * 176 + 92 * 80 + 2 * 3 + 0.5 * 80 * weight;
    expect(weighed([[0, 80, 3]])).toBeCloseTo(cost(3), 3);
    expect(weighed([[0, 80, 0.25]])).toBeCloseTo(cost(0.25), 3);
    expect(weighed([[0, 79, 3]])).toBeCloseTo(cost(1), 3);
    expect(weighed([[70, 75, 0.25]])).toBeCloseTo(cost(0.25), 3);
    // Under the ground, or over the elevation, a zone weighs nothing here.
    expect(weighed([[-20, 0, 0.25]])).toBeCloseTo(cost(1), 3);
    expect(weighed([[80, 90, 0.25]])).toBeCloseTo(cost(1), 3);
    const values = Uint8Array.of(255);
    const seamMap = { x0: 0, y0: 0, cell: 100 * MM, columns: 1, rows: 1, upright: values, level: values };
    expect(weighed([], { seamMap })).toBeCloseTo(cost(1), 3);
  });

  test("film that meets edge to edge needs no overlap", () => {
    // 90 across on 50: two panels that share nothing, 90 x 80 in print, where lapped ones are 92 x 80.
    const films = [film({ rollWidths: [50 * MM], pricePerArea: 2, inkPricePerArea: 1, joint: "butted" })];
    const bound = ask(inMm({ elevations: [rectangle("a", 90, 80)], films }), 1);
    expect(bound.cost).toBeCloseTo(2 * 50 * 176 + 90 * 80 + 2 * 3 + 0.5 * 80, 3);
    // 100 across is twice the roll: two panels do, lapped it would be three.
    const wide = ask(inMm({ elevations: [rectangle("a", 100, 80)], films }), 1);
    expect(wide.cost).toBeCloseTo(2 * 50 * 176 + 100 * 80 + 2 * 3 + 0.5 * 80, 3);
  });

  test("bleed counts on all sides", () => {
    // 46 + 2 x 2 = 50 across, 76 + 2 x 2 = 80 along.
    const bleed = { left: 2 * MM, right: 2 * MM, bottom: 2 * MM, top: 2 * MM, openings: 0 };
    const bound = ask(inMm({ elevations: [rectangle("a", 46, 76, { bleed })] }), 0);
    expect(bound.filmArea).toBeCloseTo(4750, 6);
  });

  test("a roll's length makes two loads, each with its ends", () => {
    // Two cuts of 80 need 176 with ends; a roll of 170 holds one.
    const short = film({ rollWidths: [50 * MM], rollLength: 170 * MM });
    const bound = ask(inMm({ elevations: [rectangle("a", 90, 80)], films: [short] }), 1);
    expect(bound.filmArea).toBeCloseTo(50 * 2 * 95, 6);
  });

  test("a direction that is longer than a load is left out", () => {
    // Lengthwise one panel 40 x 300 would do in 315; upright it takes seven of 40. A roll of 300 forbids lengthwise.
    const either = rectangle("a", 300, 40, {
      sections: [
        {
          id: "whole",
          box: { x0: 0, y0: 0, x1: 300 * MM, y1: 40 * MM },
          direction: "either",
          maxAcross: null,
          heads: "same" as const,
        },
      ],
    });
    const long = film({ rollWidths: [50 * MM] });
    expect(ask(inMm({ elevations: [either], films: [long] }), 9).filmArea).toBeCloseTo(50 * (10 + 7 * 41 - 1 + 5), 6);
    expect(ask(inMm({ elevations: [either], films: [long] }), 0).filmArea).toBeCloseTo(50 * 315, 6);
    const short = film({ rollWidths: [50 * MM], rollLength: 310 * MM });
    expect(ask(inMm({ elevations: [either], films: [short] }), 9).filmArea).toBeCloseTo(50 * (10 + 7 * 41 - 1 + 5), 6);
  });

  test("a loose piece alone costs its load", () => {
    const instance = inMm({ pieces: [loose("badge", 20 * MM, 30 * MM)] });
    expect(ask(instance, 0, null).filmArea).toBeCloseTo(50 * 45, 6);
  });

  test("nothing to make costs nothing", () => {
    expect(ask(inMm(), 0, null)).toMatchObject({ cost: 0, filmArea: 0 });
  });

  test("a fill can't be reckoned dearer than leaving it out, nor as if it were free print", () => {
    // 50 x 100 with up to 20 at the bottom in a film at a tenth of the price.
    const cheap = film({ id: "matt", rollWidths: [50 * MM], pricePerArea: 0.2, inkPricePerArea: 1 });
    const plain = inMm({ elevations: [rectangle("a", 50, 100)] });
    const filled = inMm({
      elevations: [rectangle("a", 50, 100, { fill: [{ edge: "bottom", maxDepth: 20 * MM, film: "matt" }] })],
      films: [...plain.films, cheap],
    });
    const [without, withFill] = [ask(plain, 0), ask(filled, 9)];
    expect(withFill.cost).toBeLessThan(without.cost);
    // Used whole: 80 of cast in 95, 20 of matt in 35, overlap aside.
    expect(withFill.cost).toBeLessThanOrEqual(2 * 50 * 95 + 0.2 * 50 * 35 + 50 * 100 + 6);
    expect(withFill.cost).toBeGreaterThan(2 * 50 * 80 + 50 * 100);
  });
});

/** Splits a range at random places, every part no wider than `most`; neighbours share at least `overlap`. */
function windowsOf(
  from: number,
  to: number,
  most: number,
  overlap: number,
  cuts: readonly number[],
): [number, number][] {
  const seams: number[] = [];
  let at = from;
  for (const share of cuts) {
    const next = at + 1 + Math.floor(share * (most - overlap - 1));
    if (next >= to) break;
    seams.push(next);
    at = next;
  }
  while (to - at > most - overlap) {
    at += most - overlap;
    seams.push(at);
  }
  const edges = [from, ...seams, to];
  return edges
    .slice(1)
    .map((end, i): [number, number] => [
      (edges[i] as number) - (i === 0 ? 0 : overlap / 2),
      end + (i === edges.length - 2 ? 0 : overlap / 2),
    ]);
}

const drawn = fc.record({
  sides: fc.array(
    fc.record({
      wide: fc.integer({ min: 5, max: 160 }),
      high: fc.integer({ min: 5, max: 120 }),
      copies: fc.integer({ min: 1, max: 3 }),
      lengthwise: fc.boolean(),
      cuts: fc.array(fc.double({ min: 0, max: 1, noNaN: true }), { maxLength: 5 }),
    }),
    { minLength: 1, maxLength: 3 },
  ),
  pieces: fc.array(
    fc.tuple(fc.integer({ min: 1, max: 40 }), fc.integer({ min: 1, max: 40 }), fc.integer({ min: 1, max: 4 })),
    { maxLength: 3 },
  ),
  gap: fc.constantFrom(0, 1, 3, 40),
  leader: fc.constantFrom(0, 10),
  rollLength: fc.constantFrom(null, 200, 400),
  width: fc.constantFrom(30, 50),
  nesting: fc.constantFrom("crosscut" as const, "free" as const),
});

test("no plan put together at random goes under the bound", () => {
  let laid = 0;
  fc.assert(
    fc.property(drawn, ({ sides, pieces, gap, leader, rollLength, width, nesting }) => {
      const overlap = 2;
      const elevations = sides.map(({ wide, high, copies }, i) => {
        const box = { x0: 0, y0: 0, x1: wide * MM, y1: high * MM };
        return rectangle(
          `e${i}`,
          wide,
          high,
          { sections: [{ id: "whole", box, direction: "either", maxAcross: null, heads: "same" as const }] },
          copies,
        );
      });
      const instance = inMm({
        elevations,
        pieces: pieces.map(([w, h, count], i) => loose(`p${i}`, w * MM, h * MM, count)),
        films: [
          film({
            rollWidths: [30 * MM, 50 * MM],
            rollLength: rollLength === null ? null : rollLength * MM,
            pricePerArea: 2,
            inkPricePerArea: 1,
          }),
        ],
        rules: {
          ...rules,
          cutGap: gap * MM,
          leader: leader * MM,
          trailer: 5 * MM,
          overlap: overlap * MM,
          panelPrice: 3,
          seamPricePerLength: 0.5,
        },
      });
      let [seams, print, panelCount, seamLength] = [0, 0, 0, 0];
      const panels: Panel[] = sides.flatMap(({ wide, high, copies, lengthwise, cuts }, i) => {
        const [across, along] = lengthwise ? [high, wide] : [wide, high];
        const windows = windowsOf(0, across, width, overlap, cuts);
        seams += copies * (windows.length - 1);
        seamLength += copies * (windows.length - 1) * along;
        panelCount += copies * windows.length;
        return windows.map(([from, to], n) => {
          print += copies * (to - from) * along;
          return panel(`e${i}`, n + 1, (to - from) * MM, along * MM);
        });
      });
      const answer = layOnRolls(instance, panels, width * MM, { ...run(), work: 10 });
      if ("reasons" in answer) return;
      laid++;
      const filmArea = area(answer.rolls) / MM ** 2;
      for (const [w, h, count] of pieces) print += w * h * count;
      const cost = 2 * filmArea + print + 3 * panelCount + 0.5 * seamLength;
      const bound = ask(instance, seams, width * MM, nesting);
      expect(bound.filmArea).toBeLessThanOrEqual(filmArea * (1 + 1e-9));
      expect(bound.cost).toBeLessThanOrEqual(cost * (1 + 1e-9));
    }),
    { seed: 20260321, numRuns: 350 },
  );
  expect(laid).toBeGreaterThan(180);
});

test("fewer seams allowed never lower the bound", () => {
  fc.assert(
    fc.property(drawn, fc.nat(6), ({ sides, width }, seams) => {
      const instance = inMm({
        elevations: sides.map(({ wide, high, copies }, i) => rectangle(`e${i}`, wide, high, {}, copies)),
      });
      expect(ask(instance, seams, width * MM).cost).toBeGreaterThanOrEqual(
        ask(instance, seams + 1, width * MM).cost - 1e-6,
      );
    }),
    { seed: 20260322, numRuns: 60 },
  );
});
