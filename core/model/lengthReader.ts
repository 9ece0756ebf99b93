import type { Box } from "../geometry/box.ts";
import { type Ticks, ticksFrom, ticksTo, type Unit } from "../units/ticks.ts";
import { type Place, type ProblemLog, problemLog } from "./problemLog.ts";

/** Reads lengths of a job into ticks, reporting those that no job can hold. */
export interface LengthReader {
  readonly log: ProblemLog;
  readonly unit: Unit;
  /** Any length or coordinate. Out of range: reported, and 0 is returned so that the reading can go on. */
  readonly length: (place: Place, value: number) => Ticks;
  /** A size that must be more than nothing once it is in ticks. */
  readonly size: (place: Place, value: number) => Ticks;
  /** As `size`, with null for none. */
  readonly optionalSize: (place: Place, value: number | null) => Ticks | null;
  /** A box with width and height; null once a problem is reported. `flat` allows a point or a line. */
  readonly box: (place: Place, value: readonly [number, number, number, number], flat?: boolean) => Box | null;
  /** Ticks in words: "12.5 in". */
  readonly say: (ticks: Ticks) => string;
}

/** Coordinates stay under this many inches. */
const farthestInches = 1_000_000;

export function lengthReader(unit: Unit): LengthReader {
  const log = problemLog();
  const farthest = ticksFrom(farthestInches, "in");
  const length = (place: Place, value: number): Ticks => {
    const ticks = ticksFrom(value, unit);
    if (Math.abs(ticks) < farthest) return ticks;
    log.problem(
      place,
      value,
      "This length is beyond 1,000,000 in, the farthest that can be planned.",
      "Give it in the job's unit, nearer to the origin.",
    );
    return 0;
  };
  const size = (place: Place, value: number): Ticks => {
    const problemsBefore = log.problems.length;
    const ticks = length(place, value);
    if (ticks > 0 || log.problems.length > problemsBefore) return Math.max(1, ticks);
    log.problem(place, value, "This size is nothing once rounded to 25 nm.", "Give a size that can be cut.");
    return 1;
  };
  const box: LengthReader["box"] = (place, value, flat = false) => {
    const problemsBefore = log.problems.length;
    const [x0, y0, x1, y1] = value.map((side) => length(place, side)) as [Ticks, Ticks, Ticks, Ticks];
    if (log.problems.length > problemsBefore) return null;
    if (x0 > x1 || y0 > y1) {
      const sides = x0 > x1 ? "its left side lies right of its right side" : "its bottom lies above its top";
      log.problem(place, value, `The box is reversed: ${sides}.`, "Give it as [left, bottom, right, top].");
      return null;
    }
    if (!flat && (x0 === x1 || y0 === y1)) {
      log.problem(
        place,
        value,
        `The box is empty: it has no ${x0 === x1 ? "width" : "height"}.`,
        "Give it as [left, bottom, right, top] with width and height, or remove it.",
      );
      return null;
    }
    return { x0, y0, x1, y1 };
  };
  return {
    log,
    unit,
    length,
    size,
    optionalSize: (place, value) => (value === null ? null : size(place, value)),
    box,
    say: (ticks) => `${Number(ticksTo(ticks, unit).toFixed(4))} ${unit}`,
  };
}
