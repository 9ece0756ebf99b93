import { describe, expect, test } from "vitest";
import type { Covering } from "../../../core/model/covering.ts";
import type { Break, Elevation } from "../../../core/model/instance.ts";
import { coverParted } from "../../../core/panelling/coverParted.ts";
import { findPartings, leastAcross, MOST_LINES } from "../../../core/panelling/foundSections.ts";
import { applyOrder } from "../../../core/sequencing/applyOrder.ts";
import { elevationOf, inch, instanceOf, limitsOf, quietRun, rectangle } from "./builders.ts";

/** A line at `at` over from..to, inches. */
const line = (
  id: string,
  axis: "x" | "y",
  at: number,
  from: number,
  to: number,
  type: Break["type"] = "gap",
): Break => ({
  id,
  axis,
  at: inch(at),
  from: inch(from),
  to: inch(to),
  type,
  width: 0,
  mustSplit: false,
});

/**
 * A van side of 144 x 106 in: a moulding at 48 in, and over it door gaps at 48 and 96 in. On 53 in printable film the
 * lower part takes one level panel (48 + 1 bleed + 2 past the moulding = 51 in), the upper one three upright ones that
 * meet in the gaps (the widest 48 + 2 + 2 = 52 in).
 */
const van = (given: Partial<Elevation> = {}): Elevation =>
  elevationOf(rectangle(0, 0, 144, 106), 1, {
    breaks: [
      line("belt", "y", 48, 0, 144, "moulding"),
      line("door-a", "x", 48, 48, 106),
      line("door-b", "x", 96, 48, 106),
    ],
    findSections: true,
    ...given,
  });

const inches = (elevation: Elevation) => {
  const { partings } = findPartings(instanceOf([elevation]), elevation, [], limitsOf(54));
  return partings.map(({ sections }) =>
    sections.map(({ box: { x0, y0, x1, y1 }, direction }) => [...[x0, y0, x1, y1].map((v) => v / inch(1)), direction]),
  );
};

const covered = (elevation: Elevation, mirrors: readonly Elevation[] = []): readonly Covering[] => {
  const result = coverParted(instanceOf([elevation, ...mirrors]), elevation, mirrors, limitsOf(54), quietRun);
  if ("reasons" in result) throw new Error(JSON.stringify(result.reasons));
  return result.coverings;
};

describe("partings found", () => {
  test("along the moulding, each part its own way", () => {
    expect(inches(van())).toContainEqual([
      [0, 0, 144, 48, "horizontal"],
      [0, 48, 144, 106, "vertical"],
    ]);
  });

  test("that show no open seam where none of the given sections can", () => {
    const best = Math.min(...covered(van()).map(({ measures }) => measures.openSeamsPerCopy));
    const given = covered(van({ findSections: false })).map(({ measures }) => measures.openSeamsPerCopy);
    expect([best, Math.min(...given)]).toEqual([0, 1]);
  });

  test("with a sentence that says why", () => {
    const parted = covered(van()).find(({ measures }) => measures.openSeamsPerCopy === 0);
    expect(parted?.sections?.[0]?.why).toBe("Parted along moulding 'belt': 3 seams in gaps or mouldings, no open seam");
  });

  test("are none where nothing can hide a seam", () => {
    expect(inches(van({ breaks: [] }))).toEqual([]);
  });

  test("are none where the elevation does not allow them, or something is settled for one of its sections", () => {
    const holds = [{ id: "h", section: "whole", kind: "direction" as const, direction: "vertical" as const }];
    for (const given of [{ findSections: false }, { holds }]) {
      expect(covered(van(given)).every(({ sections }) => sections === undefined)).toBe(true);
    }
    const mirror = { ...van({ holds }), id: "right", mirrorOf: "left" };
    expect(covered(van(), [mirror]).every(({ sections }) => sections === undefined)).toBe(true);
  });

  test("are reflected for elevations that mirror", () => {
    const source = van();
    const mirror = { ...van(), id: "right", mirrorOf: "left" };
    const breaks = mirror.breaks.map((item) => (item.axis === "x" ? { ...item, at: inch(144) - item.at } : item));
    const parted = covered(source, [{ ...mirror, breaks }]).find(
      ({ sections }) => sections?.some(({ box }) => box.x0 > 0) ?? false,
    );
    for (const section of parted?.sections?.filter(({ elevation }) => elevation === "left") ?? []) {
      const { x0, x1, y0, y1 } = section.box;
      const reflected = parted?.sections?.find(({ elevation, id }) => elevation === "right" && id === section.id);
      expect(reflected?.box).toEqual({ x0: inch(144) - x1, x1: inch(144) - x0, y0, y1 });
    }
  });

  test("follow at most twelve lines an axis, the ones that hide most, and say so", () => {
    // Fourteen gaps; the fifth and the ninth are the shortest.
    const breaks = Array.from({ length: MOST_LINES + 2 }, (_, i) =>
      line(`gap-${i}`, "x", 10 * (i + 1), 0, i === 4 || i === 8 ? 50 : 106),
    );
    const elevation = van({ breaks });
    const found = findPartings(instanceOf([elevation]), elevation, [], limitsOf(54));
    expect(found.linesLeftOut).toEqual({ x: 14, y: null });
    const places = found.partings.flatMap(({ sections }) => sections.flatMap(({ box }) => [box.x0, box.x1]));
    expect(places).not.toContain(inch(50));
    expect(places).not.toContain(inch(90));
  });

  test("keep the narrowest panel width of the sections that they overlap", () => {
    const box = { x0: 0, y0: 0, x1: 10, y1: 10 };
    const section = (x0: number, x1: number, maxAcross: number | null) => ({
      id: `${x0}`,
      box: { ...box, x0, x1 },
      direction: "either" as const,
      maxAcross,
      heads: "same" as const,
    });
    const given = [section(0, 4, 7), section(4, 8, null), section(8, 10, 3)];
    expect(leastAcross(given, { ...box, x1: 8 })).toBe(7);
    expect(leastAcross(given, box)).toBe(3);
    expect(leastAcross(given, { ...box, x0: 4, x1: 8 })).toBe(null);
  });

  test("of three parts that meet in a T lap without a circle", () => {
    for (const travel of ["none", "left", "right", "up", "down"] as const) {
      for (const { panels, seams } of covered(van({ travel }))) {
        const order = applyOrder(instanceOf([van({ travel })]), panels, seams);
        expect("steps" in order && order.steps).toHaveLength(panels.length);
      }
    }
  });
});
