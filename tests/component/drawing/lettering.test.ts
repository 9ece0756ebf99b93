import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { ticksFrom } from "../../../core/units/ticks.ts";
import { dimension } from "../../../renderer/drawing/dimensions.ts";
import { elevationScene } from "../../../renderer/drawing/elevationScene.ts";
import { formSize, type LabelWish, placeLabels } from "../../../renderer/drawing/labels.ts";
import { holds, meet, type Rectangle } from "../../../renderer/drawing/rectangle.ts";
import { figureWidth, fitted, textWidth } from "../../../renderer/drawing/textWidth.ts";
import { trailerLayout, trailerSide } from "./trailer.ts";

const name = (text: string) => ({ lines: [{ text, style: "name" as const }], turned: false });

function expectApart(boxes: readonly Rectangle[]): void {
  boxes.forEach((a, index) => {
    for (const b of boxes.slice(index + 1)) expect(meet(a, b), `${JSON.stringify(a)} ${JSON.stringify(b)}`).toBe(false);
  });
}

describe("placing labels", () => {
  const size = fc.integer({ min: 0, max: 300 });
  const room = fc.record({ x: size, y: size, width: size, height: size });
  const wish = fc.record({
    room,
    texts: fc.array(fc.string({ minLength: 1, maxLength: 80 }), { minLength: 1, maxLength: 3 }),
    turned: fc.boolean(),
  });

  test("no two labels overlap, none meets an obstacle, each lies in its room", () => {
    fc.assert(
      fc.property(fc.array(wish, { maxLength: 40 }), fc.array(room, { maxLength: 10 }), (made, taken) => {
        const wishes = made.map(
          (one, index): LabelWish => ({
            key: String(index),
            room: one.room,
            forms: one.texts.map((text) => ({ ...name(text), turned: one.turned })),
          }),
        );
        const placed = placeLabels(wishes, taken);
        expectApart(placed.map(({ box }) => box));
        for (const { key, box } of placed) {
          expect(taken.some((other) => meet(other, box))).toBe(false);
          expect(holds(wishes[Number(key)]?.room as Rectangle, box)).toBe(true);
        }
      }),
      { seed: 20260101, numRuns: 200 },
    );
  });

  test("a label gives way form by form, then altogether", () => {
    const forms = [name("Bakery trailer, kerb side"), name("side"), name("1")];
    const first = formSize(forms[0] as (typeof forms)[0]);
    const at = (width: number) =>
      placeLabels([{ key: "a", room: { x: 0, y: 0, width, height: 20 }, forms }], [])[0]?.form.lines[0]?.text;
    expect(at(first.width)).toBe("Bakery trailer, kerb side");
    expect(at(first.width - 1)).toBe("side");
    expect(at(12)).toBe("1");
    expect(at(5)).toBeUndefined();
  });

  test("what comes first is set first", () => {
    const room = { x: 0, y: 0, width: 30, height: 12 };
    const placed = placeLabels(
      [
        { key: "a", room, forms: [name("one")] },
        { key: "b", room, forms: [name("two")] },
      ],
      [],
    );
    expect(placed.map(({ key }) => key)).toEqual(["a"]);
  });
});

describe("lettering of an elevation", () => {
  test.each([1, 2, 5, 12, 40])("nothing overlaps at %d pixels an inch", (pixels) => {
    const scene = elevationScene(trailerSide, trailerLayout, "in", pixels);
    expectApart([...scene.labels, ...scene.labelsOver].map(({ box }) => box));
    expectApart(scene.dimensions.map(({ box }) => box));
    for (const { box } of scene.labels) {
      expect(scene.seams.some((seam) => seam.bands.some((band) => meet(band, box)))).toBe(false);
    }
  });

  test("sixty panels with a name of 80 characters", () => {
    const panels = Array.from({ length: 60 }, (_, index) => ({
      ...(trailerLayout.panels[0] as (typeof trailerLayout.panels)[0]),
      id: `side/${"w".repeat(80)}/${index + 1}`,
      window: [(index * 100) / 60, -1, ((index + 1) * 100) / 60, 41] as [number, number, number, number],
    }));
    const scene = elevationScene(trailerSide, { ...trailerLayout, panels, seams: [] }, "in", 10);
    expectApart([...scene.labels, ...scene.labelsOver].map(({ box }) => box));
    expect(scene.panels).toHaveLength(60);
    expect(
      scene.labels.some(({ form }) => form.lines.some(({ text }) => text === "60")),
      "the last panel shows its number",
    ).toBe(true);
  });

  test("a zone too small for its label has it whole beside it, in two lines where it is tall enough", () => {
    const box = (x0: number, y0: number, x1: number, y1: number) => ({
      x0: ticksFrom(x0, "in"),
      y0: ticksFrom(y0, "in"),
      x1: ticksFrom(x1, "in"),
      y1: ticksFrom(y1, "in"),
    });
    const linesOf = (zone: { x0: number; y0: number; x1: number; y1: number }): readonly string[] | undefined => {
      const [word] = trailerSide.keepClear;
      if (word === undefined) throw new Error("The trailer has no lettering.");
      const side = { ...trailerSide, keepClear: [{ ...word, label: "Name of the baker", box: zone }] };
      const scene = elevationScene(side, null, "in", 8);
      return [...scene.labels, ...scene.labelsOver]
        .find(({ key }) => key.startsWith("zone:"))
        ?.form.lines.map(({ text }) => text);
    };
    expect(linesOf(box(4, 20, 8, 21))).toEqual(["Name of the baker"]);
    expect(linesOf(box(4, 20, 16, 32))).toEqual(["Name of", "the baker"]);
    expect(linesOf(box(4, 20, 28, 32))).toEqual(["Name of the baker"]);
  });

  test("text does not grow with the scale", () => {
    const box = (pixels: number) =>
      elevationScene(trailerSide, trailerLayout, "in", pixels).labels.find(({ key }) => key === "panel:side/whole/3")
        ?.box;
    expect(box(20)?.width).toBeCloseTo(box(40)?.width ?? 0);
    expect(box(20)?.height).toBe(box(40)?.height);
  });
});

describe("dimensions", () => {
  const wish = { key: "w", text: "52 1/2 in", axis: "x" as const, from: 100, to: 300, at: 50, edge: 30 };

  test("the number stands in a gap of the line", () => {
    const made = dimension(wish);
    const [left, right] = made?.lines ?? [];
    expect(made?.at).toEqual({ x: 200, y: 50 });
    expect(left?.x1).toBe(100);
    expect(right?.x2).toBe(300);
    expect(left?.x2).toBeLessThan(made?.box.x ?? 0);
    expect(right?.x1).toBeGreaterThan((made?.box.x ?? 0) + (made?.box.width ?? 0));
    expect(made?.extensions.map(({ x1 }) => x1)).toEqual([100, 300]);
  });

  test("without room the number yields, or stands outside where it may", () => {
    expect(dimension({ ...wish, to: 140 })).toBeNull();
    expect(dimension({ ...wish, to: 140, outside: true })?.at.x).toBeGreaterThan(140);
  });
});

describe("widths of text", () => {
  test("a fraction is set narrower than its letters", () => {
    expect(figureWidth("52 1/2 in", 12)).toBeLessThan(textWidth("52 1/2 in", 12));
    expect(figureWidth("52 in", 12)).toBe(textWidth("52 in", 12));
  });

  test("a long name is shortened to what fits", () => {
    const text = fitted("County mobile library, side with the wheelchair lift", 12, 120);
    expect(text).toMatch(/^County.*…$/);
    expect(textWidth(text, 12)).toBeLessThanOrEqual(120);
    expect(fitted("Library", 12, 8)).toBe("");
  });
});
