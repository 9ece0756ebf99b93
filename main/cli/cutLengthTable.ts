import { type Cut, formatLength, type Layout, type Load, type PlacedPiece, type Unit } from "../../core/index.ts";
import { textTable, wrapped } from "./textTable.ts";

/** Widest that the list of a cut's pieces gets before it goes on in the next line, characters. */
const piecesWidth = 72;

interface Row {
  readonly load: Load;
  readonly cut: Cut;
  readonly number: number;
}

/** Copies of a cut's pieces: "rear/whole/1 copy 2". */
const pieceWord = ({ id, copy }: PlacedPiece): string => `${id.replaceAll(" ", "\u00a0")}\u00a0copy\u00a0${copy}`;

/** What a load is taken from: its stock entry with its lot, or a new roll. */
const sourceOf = ({ stock, lot }: Load): string => {
  if (stock === null) return "new roll";
  return lot === null ? stock : `${stock} lot ${lot}`;
};

/** The cut lengths of a layout, load by load: where the counter stands at the start and the end of each, and what is on it. */
export function cutLengthTable({ rolls }: Layout, unit: Unit): string {
  const rows = rolls.flatMap((load): Row[] => load.cuts.map((cut, index) => ({ load, cut, number: index + 1 })));
  const length = (ticks: number): string => formatLength(ticks, unit);
  const table = textTable(
    [
      { title: "load", cell: ({ load }) => load.id },
      { title: "from", cell: ({ load }) => sourceOf(load) },
      { title: "film", cell: ({ load }) => load.film },
      { title: "roll width", cell: ({ load }) => length(load.width), right: true },
      { title: "cut", cell: ({ number }) => `${number}`, right: true },
      { title: "counter start", cell: ({ cut }) => length(cut.start), right: true },
      { title: "counter stop", cell: ({ cut }) => length(cut.start + cut.length), right: true },
      { title: "cut length", cell: ({ cut }) => length(cut.length), right: true },
      { title: "pieces", cell: ({ cut }) => wrapped(pieceList(cut), piecesWidth) },
    ],
    rows,
  );
  return table.replaceAll("\u00a0", " ");
}

/** Pieces with a comma behind all but the last. */
function pieceList({ pieces }: Cut): string[] {
  return pieces.map((piece, index) => pieceWord(piece) + (index < pieces.length - 1 ? "," : ""));
}
