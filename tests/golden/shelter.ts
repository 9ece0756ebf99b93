import type { Layout, Panel, PlacedPiece } from "../../core/model/plan.ts";

/**
 * A tram-stop shelter's end pane in millimetres, with what the puppet booth does not have: names that a spreadsheet or
 * an XML reader could trip over, two panels over one border, turned pieces, a loose piece turned a quarter. Small enough
 * to check by eye. Exports read no totals, so those stay at 0.
 */
export const shelterJob = {
  format: "lapwright-job",
  version: 1,
  name: '<Tram & "stop">\n\u0007',
  units: "mm",
  elevations: [
    {
      id: "pane",
      film: "glass",
      outline: [
        [0, 0],
        [1200, 0],
        [1200, 1000],
        [0, 1000],
      ],
      sections: [
        { id: "upper", box: [0, 400, 1200, 1000], direction: "vertical" },
        { id: "lower", box: [0, 0, 1200, 400], direction: "horizontal" },
      ],
    },
  ],
  pieces: [
    {
      id: "@sum",
      role: "decal",
      film: "glass",
      outline: [
        [0, 0],
        [200, 0],
        [200, 100],
      ],
      turn: "quarter",
      elevation: "pane",
      at: [100, 600],
    },
  ],
  films: [{ id: "glass", name: '=HYPERLINK("x")\t1', rollWidths: [1372], edgeMargin: 10, lay: "any" }],
  stock: [{ id: "-7", film: "glass", lot: "+1; 2", width: 1372, length: 9000 }],
  rules: { bleed: 10, overlap: 10, colourEdgeOverlap: 5, trimOverlap: 50, cutGap: 25, leader: 300, trailer: 150 },
};

const mm = 40_000;
const panel = (
  id: string,
  direction: Panel["direction"],
  [x0, y0, x1, y1]: [number, number, number, number],
): Panel => ({
  id,
  elevation: "pane",
  section: id.includes("upper") ? "upper" : "lower",
  role: "panel",
  film: "glass",
  direction,
  window: { x0: x0 * mm, y0: y0 * mm, x1: x1 * mm, y1: y1 * mm },
  across: (direction === "vertical" ? x1 - x0 : y1 - y0) * mm,
  along: (direction === "vertical" ? y1 - y0 : x1 - x0) * mm,
  slack: null,
});
const placed = (
  id: string,
  x: number,
  y: number,
  across: number,
  along: number,
  turn: PlacedPiece["turn"],
): PlacedPiece => ({
  id,
  copy: 1,
  x: x * mm,
  y: y * mm,
  across: across * mm,
  along: along * mm,
  turn,
});
const nothing = { film: 0, laminate: 0, ink: 0, seams: 0, panels: 0, total: 0 };

export const shelterLayout: Layout = {
  id: "by hand",
  rollWidth: 1372 * mm,
  nesting: "crosscut",
  panels: [
    panel("pane/upper/1", "vertical", [-10, 395, 605, 1010]),
    panel("pane/upper/2", "vertical", [595, 392.5, 1210, 1010]),
    panel("pane/lower/1", "horizontal", [-10, -10, 1210, 405]),
  ],
  seams: [
    {
      id: "pane/upper:1",
      elevation: "pane",
      section: "upper",
      axis: "x",
      at: 600 * mm,
      from: 400 * mm,
      to: 1000 * mm,
      kind: "open",
      overlap: 10 * mm,
      finishedOverlap: 10 * mm,
      between: ["pane/upper/1", "pane/upper/2"],
      top: "pane/upper/1",
      border: false,
    },
    {
      id: "pane/lower|upper",
      elevation: "pane",
      section: null,
      axis: "y",
      at: 400 * mm,
      from: 0,
      to: 1200 * mm,
      kind: "open",
      overlap: 10 * mm,
      finishedOverlap: 10 * mm,
      between: ["lower", "upper"],
      top: "upper",
      border: true,
    },
  ],
  rolls: [
    {
      id: "1",
      stock: "-7",
      film: "glass",
      lot: "+1; 2",
      width: 1372 * mm,
      used: 2312.5 * mm,
      cuts: [
        {
          start: 300 * mm,
          length: 1220 * mm,
          pieces: [
            placed("pane/lower/1", 10, 0, 415, 1220, 180),
            placed("pane/upper/1", 450, 0, 615, 615, 0),
            placed("@sum", 450, 640, 100, 200, 90),
          ],
        },
        { start: 1545 * mm, length: 617.5 * mm, pieces: [placed("pane/upper/2", 10, 0, 615, 617.5, 0)] },
      ],
    },
  ],
  printOrder: ["1:1", "1:2"],
  applyOrder: [
    { panel: "pane/lower/1", why: "lies under both upper panels" },
    { panel: "pane/upper/2", why: "lies under pane/upper/1" },
    { panel: "pane/upper/1", why: "last" },
  ],
  totals: {
    filmLength: 2312.5 * mm,
    filmArea: 0,
    neededArea: 0,
    wastePercent: 0,
    panelCount: 3,
    openSeams: 2,
    bodyLineSeams: 0,
    colourEdgeSeams: 0,
    breakSeams: 0,
    visibleSeamLength: 1800 * mm,
    cost: nothing,
  },
  wasteBy: { edgeMargin: 0, leaderTrailer: 0, overlap: 0, bleed: 0, openings: 0, gapsAndVoids: 0 },
  bound: { cost: 0, filmArea: 0, gapPercent: 0, proven: false, by: "" },
  warnings: [],
};
