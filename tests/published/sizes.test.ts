import { describe, expect, test } from "vitest";
import { ticksFrom, ticksTo } from "../../core/index.ts";
import type { JobDocument } from "../../shared/jobFile.ts";
import { dataFile } from "../support/dataFile.ts";
import { verifiedPlan } from "../support/planJob.ts";

/** Sizes printed in standards, as inputs. Citations stand beside the figures in tests/data/published-examples.json. */
interface Example {
  readonly id: string;
  readonly data: { readonly sizes: readonly (readonly [name: string, ...sides: number[]])[] };
  readonly answer?: { readonly examples: readonly (readonly [inch: number, millimetre: number])[] };
}
const { examples } = dataFile<{ examples: readonly Example[] }>("published-examples.json");
function example(id: string): Example {
  const found = examples.find((one) => one.id === id);
  if (!found) throw new Error(`no example ${id}`);
  return found;
}

const sizesOf = (id: string) => example(id).data.sizes.map(([name, ...sides]) => ({ name, sides }));

/** One rectangle to cover on 1524 mm film, 12 mm overlap, 25 mm bleed: the figures of worked job 8. */
function jobFor(name: string, width: number, height: number): JobDocument {
  return {
    format: "lapwright-job",
    version: 1,
    name,
    units: "mm",
    elevations: [
      {
        id: "side",
        film: "film",
        outline: [
          [0, 0],
          [width, 0],
          [width, height],
          [0, height],
        ],
      },
    ],
    films: [{ id: "film", rollWidths: [1524], edgeMargin: 12.5, pricePerArea: 0.0000118 }],
    rules: {
      bleed: 25,
      overlap: 12,
      colourEdgeOverlap: 0,
      trimOverlap: 12,
      cutGap: 25,
      leader: 300,
      trailer: 0,
      panelPrice: 4,
    },
  };
}

/** Least panels when a length S is shared by panels P wide that overlap by o: 1 if S fits, else ceil((S - o) / (P - o)). */
const fewestPanels = (across: number): number => (across <= 1499 ? 1 : Math.ceil((across - 12) / (1499 - 12)));

describe("1 in = 25.4 mm exactly (NIST Special Publication 811, appendix B)", () => {
  test.each(example("inch-millimetre").answer?.examples ?? [])("%d in = %d mm, in whole ticks", (inch, millimetre) => {
    expect(ticksFrom(inch, "in")).toBe(ticksFrom(millimetre, "mm"));
    expect(ticksTo(ticksFrom(inch, "in"), "mm")).toBe(millimetre);
    expect(ticksTo(ticksFrom(millimetre, "mm"), "in")).toBe(inch);
  });
});

describe("container sides of ISO 668", () => {
  test.each(sizesOf("iso-668-containers"))("$name", ({ name, sides: [length = 0, width = 0, height = 0] }) => {
    for (const [across, up] of [
      [length, height],
      [width, height],
    ] as const) {
      const { layouts } = verifiedPlan(jobFor(name, across, up));
      const fewest = Math.min(fewestPanels(across + 50), fewestPanels(up + 50));
      expect(Math.min(...layouts.map(({ totals }) => totals.panelCount))).toBe(fewest);
      for (const { totals } of layouts) expect(totals.neededArea).toBeCloseTo(across * up, 3);
    }
  });
});

describe("sheets of ISO 216", () => {
  test.each(sizesOf("iso-216-sheets"))("$name fits one panel", ({ name, sides: [width = 0, height = 0] }) => {
    const { layouts } = verifiedPlan(jobFor(name, width, height));
    for (const { totals } of layouts) {
      expect(totals.panelCount).toBe(1);
      expect(totals.neededArea).toBeCloseTo(width * height, 3);
    }
  });

  test("each sheet is half the one before, to the millimetre that the standard rounds down", () => {
    const sizes = example("iso-216-sheets").data.sizes;
    for (const [index, [, width = 0, height = 0]] of sizes.entries()) {
      const next = sizes[index + 1];
      if (next) expect([next[1], next[2]]).toEqual([Math.floor(height / 2), width]);
    }
  });
});
