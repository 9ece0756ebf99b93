import type { LengthReader } from "./lengthReader.ts";
import type { Place } from "./problemLog.ts";

/** Reports every id that stands in its list a second time. */
export function checkIds(read: LengthReader, place: Place, ids: readonly string[]): void {
  const seen = new Set<string>();
  ids.forEach((id, index) => {
    if (seen.has(id))
      read.log.problem(
        [...place, index, "id"],
        id,
        `The id "${id}" stands in this list twice.`,
        "Give each entry an id of its own.",
      );
    seen.add(id);
  });
}
