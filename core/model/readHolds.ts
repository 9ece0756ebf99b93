import type { ElevationEntry, HoldEntry } from "../../shared/jobFile.ts";
import { checkIds } from "./checkIds.ts";
import type { Hold, Section } from "./instance.ts";
import type { LengthReader } from "./lengthReader.ts";
import type { Place } from "./problemLog.ts";

/** What the user has settled for one elevation; a hold of a section that is not there is a problem. */
export function readHolds(
  read: LengthReader,
  entry: ElevationEntry,
  place: Place,
  sections: readonly Section[],
): Hold[] {
  const entries = entry.holds ?? [];
  checkIds(
    read,
    [...place, "holds"],
    entries.map(({ id }) => id),
  );
  return entries.map((hold, index) => {
    const here = [...place, "holds", index];
    if (hold.section !== null && !sections.some(({ id }) => id === hold.section)) {
      read.log.problem(
        [...here, "section"],
        hold.section,
        `Hold "${hold.id}" is for section "${hold.section}", which elevation "${entry.id}" does not have.`,
        "Name one of its sections, or none for all of them.",
      );
    }
    return readHold(read, hold, here);
  });
}

function readHold(read: LengthReader, hold: HoldEntry, place: Place): Hold {
  const { id, section } = hold;
  switch (hold.kind) {
    case "seam":
      return { id, section, kind: "seam", axis: hold.axis, at: read.length([...place, "at"], hold.at) };
    case "noSeam": {
      const [from, to] = [read.length([...place, "from"], hold.from), read.length([...place, "to"], hold.to)];
      if (from > to) {
        read.log.problem(
          [...place, "from"],
          hold.from,
          `The stretch runs backwards: from ${read.say(from)} is beyond to ${read.say(to)}.`,
          "Change from and to about.",
        );
      }
      return { id, section, kind: "noSeam", axis: hold.axis, from, to };
    }
    case "width": {
      const at = read.length([...place, "at"], hold.at);
      return { id, section, kind: "width", axis: hold.axis, at, width: read.size([...place, "width"], hold.width) };
    }
    case "direction":
      return { id, section, kind: "direction", direction: hold.direction };
  }
}
