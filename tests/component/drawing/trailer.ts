import type { Elevation, Film, StockEntry } from "../../../core/model/instance.ts";
import { ticksFrom } from "../../../core/units/ticks.ts";
import { type PlanLayout, PlanLayout as PlanLayoutSchema } from "../../../shared/planFile.ts";

/** The side of an invented bakery trailer, 100 in by 40 in, and a hand-made layout of it: three panels on one roll. */
const inches = (value: number): number => ticksFrom(value, "in");
const box = (x0: number, y0: number, x1: number, y1: number) => ({
  x0: inches(x0),
  y0: inches(y0),
  x1: inches(x1),
  y1: inches(y1),
});
const corners = (x0: number, y0: number, x1: number, y1: number) =>
  [
    [x0, y0],
    [x1, y0],
    [x1, y1],
    [x0, y1],
  ].map(([x = 0, y = 0]) => ({ x: inches(x), y: inches(y) }));

export const trailerSide: Elevation = {
  id: "side",
  name: "Bakery trailer, kerb side",
  count: 2,
  subject: null,
  film: "cast",
  travel: "left",
  mirrorOf: null,
  mirror: "exact",
  findSections: false,
  heads: "same",
  ground: 0,
  straight: null,
  seamMap: null,
  holds: [],
  outline: corners(0, 0, 100, 40),
  box: box(0, 0, 100, 40),
  openings: [{ id: "hatch", outline: corners(55, 15, 75, 30) }],
  sections: [{ id: "whole", box: box(0, 0, 100, 40), direction: "either", maxAcross: null, heads: "same" as const }],
  keepClear: [{ id: "word", label: "Loaf and Rye", box: box(4, 20, 28, 32), rule: "never", reason: "lettering" }],
  breaks: [
    { id: "door", axis: "x", at: inches(33), from: 0, to: inches(40), type: "gap", width: 0, mustSplit: false },
    { id: "rail", axis: "y", at: inches(8), from: 0, to: inches(100), type: "bodyLine", width: 0, mustSplit: false },
  ],
  colourEdges: [],
  obstacles: [{ id: "lamp", kind: "lamp", box: box(92, 4, 96, 8), rule: "avoid", clearance: 0 }],
  fill: [],
  bleed: { left: inches(1), right: inches(1), bottom: inches(1), top: inches(1), openings: inches(1) },
};

const panel = (number: number, x0: number, x1: number) => ({
  id: `side/whole/${number}`,
  elevation: "side",
  section: "whole",
  role: "panel",
  film: "cast",
  direction: "vertical",
  window: [x0, -1, x1, 41],
  across: x1 - x0,
  along: 42,
});

const seam = (number: number, at: number, kind: string, overlap: number) => ({
  id: `whole:${number}`,
  elevation: "side",
  section: "whole",
  axis: "x",
  at,
  from: 0,
  to: 40,
  kind,
  overlap,
  finishedOverlap: kind === "break" ? 0 : overlap,
  between: [`side/whole/${number}`, `side/whole/${number + 1}`],
  top: `side/whole/${number}`,
});

const piece = (number: number, copy: number, across: number) => ({
  id: `side/whole/${number}`,
  copy,
  x: 1,
  y: 0,
  across,
  along: 42,
  turn: copy === 2 ? 180 : 0,
});

/** Windows -1..35, 31..66.5 (4 in shared at the door) and 65.5..101 (1 in shared). */
export const trailerLayout: PlanLayout = PlanLayoutSchema.parse({
  id: "narrow",
  rollWidth: 40,
  nesting: "crosscut",
  panels: [panel(1, -1, 35), panel(2, 31, 66.5), panel(3, 65.5, 101)],
  seams: [seam(1, 33, "break", 4), seam(2, 66, "open", 1)],
  rolls: [
    {
      id: "1",
      stock: "R-17",
      film: "cast",
      lot: "A44",
      width: 40,
      used: 150,
      cuts: [
        { start: 12, length: 42, pieces: [piece(1, 1, 36)] },
        { start: 55, length: 42, pieces: [piece(2, 1, 35.5)] },
        { start: 98, length: 42, pieces: [piece(3, 1, 35.5)] },
      ],
    },
    {
      id: "2",
      stock: "R-17",
      film: "cast",
      lot: "A44",
      width: 40,
      used: 64,
      cuts: [{ start: 12, length: 42, pieces: [piece(1, 2, 36)] }],
    },
  ],
  printOrder: ["1:1", "1:2", "1:3", "2:1"],
  applyOrder: [],
  totals: {
    filmLength: 214,
    filmArea: 8560,
    neededArea: 7400,
    wastePercent: 31.5,
    panelCount: 6,
    openSeams: 2,
    bodyLineSeams: 0,
    colourEdgeSeams: 0,
    breakSeams: 2,
    visibleSeamLength: 80,
    cost: { film: 100, laminate: 0, ink: 0, seams: 0, panels: 0, total: 412.5 },
  },
  wasteBy: { edgeMargin: 5, leaderTrailer: 6, overlap: 4, bleed: 6, openings: 4, gapsAndVoids: 6.5 },
  bound: { cost: 400, filmArea: 8000, gapPercent: 3, proven: false },
});

export const cast: Film = {
  id: "cast",
  name: "White cast",
  rollWidths: [inches(40)],
  edgeMargin: inches(1),
  rollLength: inches(1800),
  maxRun: null,
  newRolls: 0,
  laminateWidth: null,
  lengthFactor: 1,
  pricePerArea: 0,
  laminatePricePerArea: 0,
  inkPricePerArea: 0,
  lay: "two-way",
  joint: "lapped" as const,
};

export const rollSeventeen: StockEntry = {
  id: "R-17",
  film: "cast",
  lot: "A44",
  kind: "roll",
  width: inches(40),
  length: inches(600),
};

/** The layout with other measures, for comparisons. */
export const measured = (id: string, seams: number, cost: number, waste: number, gaps: number): PlanLayout => ({
  ...trailerLayout,
  id,
  totals: {
    ...trailerLayout.totals,
    openSeams: seams,
    wastePercent: waste,
    cost: { ...trailerLayout.totals.cost, total: cost },
  },
  wasteBy: { ...trailerLayout.wasteBy, gapsAndVoids: gaps },
});
