import { nestInStrip, type StripNesting, seededRandom, stripFaults } from "../../../core/index.ts";
import type { NamedInstance } from "../instanceAtDoor.ts";
import type { Answer, PublishedKind, Readable } from "./publishedKind.ts";
import { stripInstance } from "./stripInstance.ts";

/**
 * Rectangles in a strip of one width, as short as can be; what an instance is that names no kind. The seed starts the
 * search, 1 where none is named; it runs in one thread, so threads change nothing. A step is one filling of the strip.
 */
export const stripKind: PublishedKind = { kinds: ["rectangular strip", "strip-packing"], read };

function read(named: NamedInstance): Readable {
  const found = stripInstance(named);
  if ("problems" in found) return found;
  const { strip, scale } = found.instance;
  return {
    solve: ({ stop, seed }) => {
      const nesting = nestInStrip(strip, { random: seededRandom(seed ?? 1), stop });
      const faults = stripFaults(strip, nesting);
      if (faults.length > 0) throw new Error(`the nesting of ${named.name} does not hold: ${faults.join("; ")}`);
      return answerOf(nesting, scale);
    },
  };
}

/** Copies of an item are numbered from 1 in the order in which they lie, from the start of the strip. */
function answerOf({ length, bound, places }: StripNesting, scale: number): Answer {
  const copies = new Map<number, number>();
  const placements = places.map(({ size: item, shape, x, y }) => {
    const copy = (copies.get(item) ?? 0) + 1;
    copies.set(item, copy);
    const [w, h] = [shape.across / scale, shape.along / scale];
    return { item, copy, x: x / scale, y: y / scale, w, h, turn: shape.turn };
  });
  return {
    objective: length / scale,
    lowerBound: bound / scale,
    provenOptimal: bound >= length,
    found: { placements },
  };
}
