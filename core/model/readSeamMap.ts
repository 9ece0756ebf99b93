import type { SeamMapEntry } from "../../shared/jobFile.ts";
import { bytesFromBase64 } from "./base64.ts";
import type { SeamMap } from "./instance.ts";
import type { LengthReader } from "./lengthReader.ts";
import type { Place } from "./problemLog.ts";

/** The map of how much seams would be seen; null without one, or with one whose bytes do not fill its cells. */
export function readSeamMap(read: LengthReader, entry: SeamMapEntry | null, place: Place): SeamMap | null {
  if (entry === null) return null;
  const { origin, columns, rows } = entry;
  const problemsBefore = read.log.problems.length;
  const bytes = (key: "upright" | "level"): Uint8Array => {
    const found = bytesFromBase64(entry[key]);
    if (found.length !== columns * rows) {
      read.log.problem(
        [...place, key],
        `${found.length} bytes`,
        `The map has ${found.length} values for ${columns} columns and ${rows} rows.`,
        "Read the picture again.",
      );
    }
    return found;
  };
  const [upright, level] = [bytes("upright"), bytes("level")];
  const x0 = read.length([...place, "origin", 0], origin[0]);
  const y0 = read.length([...place, "origin", 1], origin[1]);
  const cell = read.size([...place, "cell"], entry.cell);
  return read.log.problems.length > problemsBefore ? null : { x0, y0, cell, columns, rows, upright, level };
}
