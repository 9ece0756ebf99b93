import type { Strip, StripSize } from "../../../core/index.ts";
import type { Problem } from "../../../shared/problem.ts";
import type { NamedInstance } from "../instanceAtDoor.ts";
import { decimals, MOST_DECIMALS, scaleOf } from "./wholeNumbers.ts";

/** A published question of rectangles in a strip, in whole numbers. */
export interface StripInstance {
  readonly strip: Strip;
  /** The strip's lengths are the instance's times this power of ten. */
  readonly scale: number;
}

/** Whole lengths below this add up exactly in a double, as many as there may be. */
const LARGEST = 2 ** 36;
const MOST_PIECES = 20_000;
const MOST_ITEMS = 5_000;

interface ReadItem {
  readonly across: number;
  readonly along: number;
  readonly count: number;
}

/**
 * Reads `stripWidth`, `items: [[width across, height along, count], ...]` and `rotation?`.
 *
 * @returns the question scaled to whole lengths, or every problem found in it; `noPlan` when all that is wrong is that
 *   items are wider than the strip
 */
export function stripInstance({
  path,
  fields,
}: NamedInstance): { instance: StripInstance } | { problems: Problem[]; noPlan?: true } {
  const problems: Problem[] = [];
  const wrong = (at: string, value: unknown, why: string, mend: string): void => {
    problems.push({ path: `${path}${at}`, value: value ?? null, why, mend });
  };
  const positive = (at: string, value: unknown, what: string): number => {
    const fits = typeof value === "number" && value > 0 && value < LARGEST && decimals(value) <= MOST_DECIMALS;
    if (!fits) wrong(at, value, `This is no ${what}`, `Give a number above 0, with at most ${MOST_DECIMALS} decimals`);
    return fits ? value : 1;
  };
  const stripWidth = positive(".stripWidth", fields.stripWidth, "strip width");
  const rotation = fields.rotation ?? false;
  if (typeof rotation !== "boolean") wrong(".rotation", rotation, "This is neither true nor false", "Give one of them");
  const items = readItems(fields.items, positive, wrong);
  if (problems.length > 0) return { problems };

  const lengths = items.flatMap(({ across, along }) => [across, along]);
  const scale = scaleOf([stripWidth, ...lengths]);
  const width = Math.round(stripWidth * scale);
  if (Math.max(width, ...lengths.map((length) => length * scale)) >= LARGEST) {
    wrong("", null, "The largest length is too large beside the finest", "Round the lengths");
    return { problems };
  }
  const sizes = items.map(({ across, along, count }): StripSize => {
    const [wide, high] = [Math.round(across * scale), Math.round(along * scale)];
    const upright = { across: wide, along: high, turn: 0 } as const;
    const turned = { across: high, along: wide, turn: 90 } as const;
    const shapes = rotation === true && wide !== high ? [upright, turned] : [upright];
    return { shapes: shapes.filter((shape) => shape.across <= width), count };
  });
  for (const [i, { shapes, count }] of sizes.entries()) {
    if (shapes.length > 0 || count === 0) continue;
    const why = "This item is wider than the strip, so that no plan exists";
    wrong(`.items[${i}]`, (fields.items as unknown[])[i], why, "Give a wider strip or a narrower item");
  }
  if (problems.length > 0) return { problems, noPlan: true };
  return { instance: { strip: { width, sizes }, scale } };
}

function readItems(
  items: unknown,
  positive: (at: string, value: unknown, what: string) => number,
  wrong: (at: string, value: unknown, why: string, mend: string) => void,
): ReadItem[] {
  if (!Array.isArray(items) || items.length > MOST_ITEMS) {
    const mend = `Give [[width, height, count], ...], at most ${MOST_ITEMS}`;
    wrong(".items", Array.isArray(items) ? items.length : items, "This is no list of items", mend);
    return [];
  }
  let pieces = 0;
  const read = items.map((item: unknown, i): ReadItem => {
    const [across, along, count, ...more] = (Array.isArray(item) ? item : []) as unknown[];
    if (more.length > 0) {
      wrong(`.items[${i}]`, item, "This has more than width, height and count", "Give [width, height, count]");
    }
    const counted = typeof count === "number" && Number.isInteger(count) && count >= 0 && count <= MOST_PIECES;
    if (!counted) wrong(`.items[${i}][2]`, count, "This is no count", `Give a whole number from 0 to ${MOST_PIECES}`);
    pieces += counted ? count : 0;
    return {
      across: positive(`.items[${i}][0]`, across, "width"),
      along: positive(`.items[${i}][1]`, along, "height"),
      count: counted ? count : 0,
    };
  });
  if (pieces > MOST_PIECES) wrong(".items", pieces, `These are more than ${MOST_PIECES} pieces`, "Give fewer");
  return read;
}
