import type { Side } from "../geometry/box.ts";
import type { DatumRow } from "../model/datumRow.ts";
import type { Instance } from "../model/instance.ts";
import type { Ticks } from "../units/ticks.ts";
import { type Cell, csvText, oneLine, plainNumber } from "./csv.ts";

const sides: readonly Side[] = ["left", "right", "bottom", "top"];
const breakWords = { gap: "gap", moulding: "moulding", bodyLine: "body line" } as const;

/**
 * A datum sheet as CSV (RFC 4180: commas, CRLF, a header line), one row for each row of the sheet, in its order.
 *
 * Lengths are plain numbers in the job's unit, named in the header, rounded as the sheet has them. Texts are quoted,
 * control characters in them become spaces, and one that a spreadsheet would run as a formula begins with an apostrophe.
 *
 * @returns the same text for the same rows
 */
export function datumSheetCsv({ unit, elevations }: Instance, rows: readonly DatumRow[]): string {
  const names = new Map(elevations.map(({ id, name }) => [id, name]));
  const length = (ticks: Ticks | null): number | null => (ticks === null ? null : plainNumber(ticks, unit));
  const named = (elevation: string): string | null => oneLine(names.get(elevation) ?? elevation);
  const data = rows.map((row): Cell[] => {
    const { nearestBreak: nearest, otherSide: other } = row;
    return [
      named(row.elevation),
      row.kind,
      oneLine(row.id),
      oneLine(row.label),
      ...sides.map((side) => length(row.fromEdges[side])),
      length(row.atHeight),
      length(row.atPlace),
      ...(nearest === null
        ? [null, null, null, null]
        : [breakWords[nearest.type], oneLine(nearest.id), nearest.side, length(nearest.distance)]),
      ...(other === null
        ? [null, null, null, null, null, null, null]
        : [
            named(other.elevation),
            oneLine(other.id),
            ...sides.map((side) => length(other.fromEdges[side])),
            length(other.difference),
          ]),
    ];
  });
  return csvText(header(unit), data);
}

function header(unit: Instance["unit"]): string[] {
  const mark = unit === "in" ? "1/16 in" : "1 mm";
  return [
    "elevation",
    `kind (lengths to the nearest ${mark})`,
    "id",
    "label",
    ...sides.map((side) => `from ${side} edge (${unit})`),
    `left and right measured at height (${unit})`,
    `bottom and top measured at (${unit})`,
    "nearest break",
    "break",
    "lies on side",
    `distance from break (${unit})`,
    "other side",
    "id there",
    ...sides.map((side) => `there, as seen here, from ${side} edge (${unit})`),
    `greatest difference (${unit})`,
  ];
}
