import type { Strip, StripNesting } from "./strip.ts";

/**
 * Holds a nesting against its strip by plain comparison of every pair of pieces, whoever made the nesting.
 *
 * @returns one sentence for each thing that is wrong: a piece of no known size or shape, outside the strip or not on a
 * whole number, two that overlap, sizes laid too often or too seldom, a length that is not where the last piece ends, a
 * bound above the length. None when all is well.
 */
export function stripFaults({ width, sizes }: Strip, { length, bound, places }: StripNesting): string[] {
  const faults: string[] = [];
  const laid = sizes.map(() => 0);
  let end = 0;
  for (const [p, { size, shape, x, y }] of places.entries()) {
    const named = `piece ${p} of size ${size}`;
    laid[size] = (laid[size] ?? 0) + 1;
    const allowed = sizes[size]?.shapes ?? [];
    const known = allowed.some(
      ({ across, along, turn }) => across === shape.across && along === shape.along && turn === shape.turn,
    );
    if (!known) faults.push(`${named} lies as ${shape.across} by ${shape.along}, turned by ${shape.turn}`);
    if (!(Number.isInteger(x) && Number.isInteger(y))) faults.push(`${named} lies at ${x}, ${y}`);
    if (!(x >= 0 && y >= 0 && x + shape.across <= width)) {
      faults.push(`${named} at ${x}, ${y} reaches to ${x + shape.across} in a strip ${width} wide`);
    }
    end = Math.max(end, y + shape.along);
  }
  for (let p = 0; p < places.length; p++) {
    const a = places[p] as StripNesting["places"][number];
    for (let q = p + 1; q < places.length; q++) {
      const b = places[q] as StripNesting["places"][number];
      const apart =
        a.x + a.shape.across <= b.x ||
        b.x + b.shape.across <= a.x ||
        a.y + a.shape.along <= b.y ||
        b.y + b.shape.along <= a.y;
      if (!apart) faults.push(`pieces ${p} and ${q}, at ${a.x}, ${a.y} and ${b.x}, ${b.y}, overlap`);
    }
  }
  for (const [size, { count }] of sizes.entries()) {
    if (laid[size] !== count) faults.push(`size ${size} is laid ${laid[size]} times, wanted are ${count}`);
  }
  if (laid.length !== sizes.length) faults.push(`a size beyond the ${sizes.length} is laid`);
  if (end !== length) faults.push(`the last piece ends at ${end}, the length is ${length}`);
  if (!(bound <= length)) faults.push(`the bound ${bound} is above the length ${length}`);
  return faults;
}
