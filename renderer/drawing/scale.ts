import { figure, TICKS_PER, type Ticks, type Unit } from "./lengths.ts";

/** A scale bar: its length, the parts it is divided into, and what is written at its ends. */
export interface Scale {
  readonly length: Ticks;
  readonly pixels: number;
  readonly parts: number;
  readonly label: string;
}

/** Lengths that a scale bar may have, with a division a person can halve in the head: inches, then whole feet. */
const inches: readonly (readonly [number, number])[] = [
  [0.5, 2],
  [1, 2],
  [2, 2],
  [4, 4],
  [6, 6],
  [12, 4],
  [24, 4],
  [48, 4],
  [60, 5],
  [120, 5],
  [240, 4],
  [480, 4],
  [1200, 5],
  [2400, 4],
  [6000, 5],
];
const millimetres: readonly (readonly [number, number])[] = [1, 10, 100, 1000, 10_000, 100_000].flatMap((ten) => [
  [ten, 2] as const,
  [2 * ten, 4] as const,
  [5 * ten, 5] as const,
]);

/** The longest round length that takes at most `room` pixels. */
export function scaleFor(pixelsPerUnit: number, unit: Unit, room = 140): Scale {
  const steps = unit === "in" ? inches : millimetres;
  const fitting = steps.filter(([length]) => length * pixelsPerUnit <= room);
  const [length, parts] = fitting.at(-1) ?? steps[0] ?? [1, 2];
  const ticks = length * TICKS_PER[unit];
  const feet = unit === "in" && length >= 24 ? ` (${length / 12} ft)` : "";
  const metres = unit === "mm" && length >= 1000 ? ` (${length / 1000} m)` : "";
  return {
    length: ticks,
    pixels: length * pixelsPerUnit,
    parts,
    label: `${figure(ticks, unit)} ${unit}${feet}${metres}`,
  };
}
