import fc from "fast-check";
import type { JobDocument } from "../../shared/jobFile.ts";

type Piece = NonNullable<JobDocument["pieces"]>[number];
type Film = NonNullable<JobDocument["films"]>[number];
type Scale = (inches: number) => number;

export const rawPiece = fc.record({
  role: fc.constantFrom("overlay" as const, "fill" as const, "inlay" as const, "decal" as const),
  film: fc.nat(2),
  shape: fc.constantFrom("rectangle", "triangle", "hexagon", "angle", "strip"),
  width: fc.integer({ min: 1, max: 20 }),
  height: fc.integer({ min: 1, max: 20 }),
  count: fc.integer({ min: 1, max: 4 }),
  turn: fc.constantFrom("fixed" as const, "half" as const, "quarter" as const),
  layer: fc.constantFrom(-1 as const, 1 as const),
  onFirst: fc.boolean(),
});
export type RawPiece = typeof rawPiece extends fc.Arbitrary<infer T> ? T : never;

/** Outlines in inches, drawn off the origin as often as on it. */
function outline({ shape, width: w, height: h }: RawPiece): [number, number][] {
  switch (shape) {
    case "triangle":
      return [
        [0, 0],
        [w, 0],
        [0, h],
      ];
    case "hexagon":
      return [
        [0, h / 2],
        [w / 4, 0],
        [(3 * w) / 4, 0],
        [w, h / 2],
        [(3 * w) / 4, h],
        [w / 4, h],
      ];
    case "angle":
      return [
        [1, 1],
        [1 + w, 1],
        [1 + w, 1 + h / 2],
        [1 + w / 2, 1 + h / 2],
        [1 + w / 2, 1 + h],
        [1, 1 + h],
      ];
    case "strip":
      return [
        [-2, 0],
        [4 * w - 2, 0],
        [4 * w - 2, 1],
        [-2, 1],
      ];
    default:
      return [
        [0, 0],
        [w, 0],
        [w, h],
        [0, h],
      ];
  }
}

/** One loose piece of a random job. */
export function piece(raw: RawPiece, index: number, films: readonly Film[], scale: Scale): Piece {
  const film = films[raw.film % films.length] as Film;
  return {
    id: `piece ${index}`,
    role: raw.role,
    label: `Piece ${index}`,
    count: raw.count,
    film: film.id,
    outline: outline(raw).map(([x, y]) => [scale(x), scale(y)]),
    turn: raw.turn,
    elevation: raw.onFirst ? "side 0" : null,
    at: raw.onFirst ? [scale(1), scale(2)] : null,
    layer: raw.layer,
  };
}
