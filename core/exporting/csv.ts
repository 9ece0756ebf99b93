/// <reference path="./papaparse.d.ts" />
import Papa from "papaparse";
import { type Ticks, ticksTo, type Unit } from "../units/ticks.ts";

export type Cell = string | number | null;

/** What a spreadsheet may run: these marks and their full-width forms, also behind white space. */
const formulaStart = /^\s*[=+\-@＝＋－＠\t\r\n]/;

/**
 * A table as CSV (RFC 4180: commas, CRLF, a header line). Texts are quoted, and one that a spreadsheet would run as a
 * formula begins with an apostrophe; numbers are plain, null is empty.
 *
 * @param fields the header; `data` as many cells a row
 */
export const csvText = (fields: readonly string[], data: readonly (readonly Cell[])[]): string =>
  `${Papa.unparse(
    { fields, data },
    { newline: "\r\n", quotes: (value) => typeof value === "string", escapeFormulae: formulaStart },
  )}\r\n`;

/** A length short enough to read and fine enough to name its tick: 0.0000001 in or mm is less than half of one. */
export const plainNumber = (ticks: Ticks, unit: Unit): number => Number(ticksTo(ticks, unit).toFixed(7));

/** Text on one line. */
export function oneLine(value: string | null): string | null {
  // biome-ignore lint/suspicious/noControlCharactersInRegex: names from a job may hold anything
  return value === null ? null : value.replace(/[\u0000-\u001f\u007f-\u009f\u2028\u2029]+/g, " ");
}
