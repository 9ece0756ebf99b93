import type { Side } from "../geometry/box.ts";
import type { Instance } from "../model/instance.ts";
import type { Layout } from "../model/plan.ts";
import type { Ticks, Unit } from "../units/ticks.ts";
import { type Cell, csvText, plainNumber, oneLine as text } from "./csv.ts";
import { type Neighbour, neighboursOf } from "./neighbours.ts";
import { artworkTurn, atRollLeft, printedFirst } from "./placedArtwork.ts";

const sides: readonly Side[] = ["left", "right", "bottom", "top"];

/**
 * The list of cut lengths of a layout as CSV (RFC 4180: commas, CRLF, a header line), one row for each piece on a roll,
 * in the order of loads, cuts and pieces.
 *
 * Counters count along the roll from the start of the load, its leader included. Lengths are plain numbers in the job's
 * unit, named in the header. Columns that only panels have are empty for loose pieces. Texts are quoted, control
 * characters in them become spaces, and one that a spreadsheet would run as a formula begins with an apostrophe.
 *
 * @returns the same text for the same layout
 */
export function cutListCsv(instance: Instance, layout: Layout): string {
  const { unit } = instance;
  const panels = new Map(layout.panels.map((panel) => [panel.id, panel]));
  const loose = new Map(instance.pieces.map((piece) => [piece.id, piece]));
  const filmNames = new Map(instance.films.map((film) => [film.id, film.name]));
  const neighbours = neighboursOf(layout);
  const printPosition = new Map(layout.printOrder.map((cut, index) => [cut, index + 1]));
  const length = (ticks: Ticks): number => plainNumber(ticks, unit);

  const data: Cell[][] = [];
  for (const load of layout.rolls) {
    load.cuts.forEach((cut, cutIndex) => {
      const key = `${load.id}:${cutIndex + 1}`;
      for (const piece of cut.pieces) {
        const panel = panels.get(piece.id) ?? null;
        const turn = artworkTurn(piece, panel);
        const window = panel?.window;
        data.push([
          text(load.id),
          text(load.stock),
          text(load.lot),
          text(filmNames.get(load.film) ?? load.film),
          length(load.width),
          cutIndex + 1,
          printPosition.get(key) ?? null,
          length(cut.start),
          length(cut.start + cut.length),
          length(cut.length),
          text(piece.id),
          piece.copy,
          text(panel?.elevation ?? loose.get(piece.id)?.elevation ?? null),
          text(panel?.section ?? null),
          panel?.role ?? loose.get(piece.id)?.role ?? null,
          length(piece.across),
          length(piece.along),
          length(piece.x),
          length(piece.y),
          piece.turn,
          printedFirst[turn],
          atRollLeft[turn],
          ...(window === undefined
            ? [null, null, null, null]
            : [window.x0, window.y0, window.x1, window.y1].map((side) => length(side))),
          ...sides.flatMap((side) => sideCells(neighbours.get(piece.id) ?? [], side, panel !== null, length)),
        ]);
      }
    });
  }
  return csvText(header(unit), data);
}

function header(unit: Unit): string[] {
  return [
    "load",
    "stock roll (empty: new roll)",
    "lot",
    "film",
    `roll width (${unit})`,
    "cut",
    "printed as number",
    `counter start (${unit})`,
    `counter stop (${unit})`,
    `cut length (${unit})`,
    "piece",
    "copy",
    "elevation",
    "section",
    "role",
    `across (${unit})`,
    `along (${unit})`,
    `from roll left edge (${unit})`,
    `from start of cut (${unit})`,
    "turn (degrees counter-clockwise)",
    "artwork edge printed first",
    "artwork edge at roll left",
    ...["left", "bottom", "right", "top"].map((side) => `window ${side} (${unit})`),
    ...sides.flatMap((side) => [`overlap ${side} (${unit})`, `lap ${side}`]),
  ];
}

/**
 * Overlap at one side and how it laps: "over left/upper/2" when this panel lies on that one, "under …" when it lies
 * beneath. Several neighbours are parted by semicolons, and so are their overlaps where they differ.
 */
function sideCells(
  neighbours: readonly Neighbour[],
  side: Side,
  isPanel: boolean,
  length: (ticks: Ticks) => number,
): Cell[] {
  const met = neighbours.filter((neighbour) => neighbour.side === side);
  if (met.length === 0) return [isPanel ? 0 : null, null];
  const overlaps = met.map(({ overlap }) => length(overlap));
  const [first] = overlaps;
  const same = first !== undefined && overlaps.every((overlap) => overlap === first);
  return [
    same ? first : overlaps.join("; "),
    text(met.map(({ over, panel }) => `${over ? "under" : "over"} ${panel}`).join("; ")),
  ];
}
