import type { JobJson } from "../../shared/host.ts";

/**
 * An empty job to begin with: one film in the two common widths and everyday rules. Starting values are common practice,
 * no source; every one of them can be edited on the sheet.
 */
export function newJob(unit: "in" | "mm"): JobJson {
  const metric = unit === "mm";
  const length = (inches: number, millimetres: number): number => (metric ? millimetres : inches);
  return {
    format: "lapwright-job",
    version: 1,
    name: "New job",
    units: unit,
    elevations: [],
    pieces: [],
    films: [
      {
        id: "film",
        name: "Printed film",
        rollWidths: metric ? [1372, 1524] : [54, 60],
        edgeMargin: length(0.5, 12),
        rollLength: length(1800, 45_720),
        pricePerArea: 0,
        laminatePricePerArea: 0,
        inkPricePerArea: 0,
        lay: "one-way",
      },
    ],
    stock: [],
    rules: {
      bleed: length(2, 50),
      overlap: length(0.5, 12),
      colourEdgeOverlap: length(0.25, 6),
      trimOverlap: length(4, 100),
      cutGap: length(1, 25),
      leader: length(12, 300),
      trailer: length(6, 150),
      maxOpenSeams: null,
      seamPricePerLength: 0,
      avoidPenalty: 0,
      panelPrice: 0,
      currency: "USD",
    },
  };
}

/** A rectangle as an outline, its low corner at the origin. */
export function rectangle(across: number, up: number): [number, number][] {
  return [
    [0, 0],
    [across, 0],
    [across, up],
    [0, up],
  ];
}

/** The first of `base`, `base 2`, `base 3`, ... that is not taken, made fit to be an id. */
export function freeId(base: string, taken: readonly string[]): string {
  const plain =
    base
      .replace(/[/:|]+/g, " ")
      .replace(/\s+/g, " ")
      .trim() || "item";
  let id = plain;
  for (let next = 2; taken.includes(id); next++) id = `${plain} ${next}`;
  return id;
}
