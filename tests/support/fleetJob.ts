import { seededRandom } from "../../core/index.ts";

/** Every kind of decal on each trailer but for those after this many, which one trailer in ten carries. */
const ON_EVERY_TRAILER = 40;

/**
 * A job file of a fleet of bakery trailers, all alike: two sides and a rear in panels, and decals in many different sizes,
 * most on every trailer, some on one in ten.
 *
 * @param copies trailers, at least 1; 200 of them with 60 kinds of decal are about 10,000 pieces
 * @param kinds of decal, each of a size of its own
 * @returns what `readJob` takes; inches, sizes in eighths, the same for the same arguments
 */
export function fleetJob({ copies = 200, kinds = 60, seed = 1 } = {}) {
  const random = seededRandom(seed);
  const between = (least: number, most: number) => Math.round((least + (most - least) * random() ** 2) * 8) / 8;
  const rectangle = (across: number, along: number) => [
    [0, 0],
    [across, 0],
    [across, along],
    [0, along],
  ];
  const side = {
    id: "left",
    name: "Left side",
    count: copies,
    subject: "bakery trailer",
    film: "cast",
    travel: "left",
    outline: rectangle(168, 84),
    openings: [
      {
        id: "hatch",
        outline: [
          [40, 36],
          [112, 36],
          [112, 72],
          [40, 72],
        ],
      },
    ],
    sections: [{ id: "whole", box: [0, 0, 168, 84], direction: "vertical" }],
  };
  const rear = {
    id: "rear",
    name: "Rear",
    count: copies,
    subject: "bakery trailer",
    film: "cast",
    outline: rectangle(80, 84),
    sections: [{ id: "whole", box: [0, 0, 80, 84], direction: "vertical" }],
  };
  return {
    format: "lapwright-job",
    version: 1,
    name: `Bakery trailers, ${copies} with ${kinds} kinds of decal`,
    units: "in",
    elevations: [
      side,
      { id: "right", name: "Right side", count: copies, subject: "bakery trailer", mirrorOf: "left" },
      rear,
    ],
    pieces: Array.from({ length: kinds }, (_, kind) => ({
      id: `decal ${kind + 1}`,
      role: "decal",
      count: kind < ON_EVERY_TRAILER ? copies : Math.max(1, Math.floor(copies / 10)),
      film: "decal",
      outline: rectangle(between(3, 46), between(4, 80)),
      turn: kind % 3 === 0 ? "quarter" : "fixed",
    })),
    films: ["cast", "decal"].map((id) => ({
      id,
      name: id === "cast" ? "Cast print film" : "Film for decals",
      rollWidths: [54],
      edgeMargin: 0.5,
      rollLength: 1800,
      pricePerArea: 0.01,
      lay: "any",
    })),
    rules: {
      bleed: 2,
      overlap: 1,
      colourEdgeOverlap: 0.25,
      trimOverlap: 2,
      cutGap: 0.5,
      leader: 12,
      trailer: 6,
      seamPricePerLength: 0.05,
      avoidPenalty: 5,
      panelPrice: 5,
      currency: "USD",
    },
  };
}
