import type { Box } from "../geometry/box.ts";
import type { SeamMap } from "../model/instance.ts";
import { TICKS_PER, type Ticks } from "../units/ticks.ts";
import { JUST_NOTICED } from "./colour.ts";
import type { Picture } from "./picture.ts";
import { pixelSize, type Registration } from "./registration.ts";
import { type Lattice, sampleColours } from "./samples.ts";

/** Most cells of a map on a side: what a job file takes. */
export const MOST_CELLS = 4000;

/** Colours are looked at in steps no finer than this: lettering that people read from the kerb has broader strokes. */
const FINEST: Ticks = TICKS_PER.in / 8;
/** Most steps on a side of a cell, so that the work for a coarse map stays in hand. */
const MOST_STEPS = 32;
/**
 * How much change of colour, in L*a*b* per inch of seam, makes a seam half as visible as can be: from black to white once
 * in every inch. A choice of this program's, no source.
 */
const HALF = 100;
/** The cells of a map that covers a box: from its lower left corner, the last ones reaching past it where need be. */
export function cellsOver(box: Box, cell: Ticks): { readonly columns: number; readonly rows: number } {
  const count = (length: Ticks): number => Math.max(1, Math.ceil(length / cell));
  return { columns: count(box.x1 - box.x0), rows: count(box.y1 - box.y0) };
}

/**
 * How much an upright seam, and a level one, would be seen in each cell of an elevation. See `seamVisibilityInParts`.
 */
export function seamVisibility(picture: Picture, registration: Registration, cell: Ticks, box: Box): SeamMap {
  const parts = seamVisibilityInParts(picture, registration, cell, box);
  for (;;) {
    const { done, value } = parts.next();
    if (done) return value;
  }
}

/**
 * How much an upright seam, and a level one, would be seen in each cell of an elevation: 0 unseen, 255 most.
 *
 * Two panels never meet quite exactly, so a seam shows where the print changes *along* it: every edge of the print that
 * crosses the line is broken by it. An edge beside the line and parallel to it hides it and counts nothing. For an upright
 * seam through a cell this is the change of colour up the cell, averaged over its columns. Added to it, for both alike, is
 * structure in several directions at once, as lettering has it: of the colour gradients of the cell and its eight
 * neighbours (tensor of Di Zenzo 1986, Computer Vision, Graphics, and Image Processing 33(1), 116–125) the part across
 * their main direction, so that no single straight edge, however steep, is taken for lettering. The sum s, per inch,
 * gives 255 · s / (s + 100). Changes of colour that are just not noticed count nothing, so a flat or softly shaded ground
 * is 0.
 *
 * @param picture at least one pixel
 * @param registration how it lies on the elevation
 * @param cell side of a cell, ticks, positive
 * @param box what the map covers; cells begin at its lower left corner
 * @returns step by step the rows done of all rows; at the end the map. Outside the picture it is 0.
 * @throws RangeError when the map would have more than 4000 cells on a side
 *
 * Time O(pixels + steps), where a cell has at most 32 × 32 steps, none under 1/8 in or a pixel; memory O(cells + steps of a row of them).
 * The same bytes for the same picture however often the caller looks in.
 */
export function* seamVisibilityInParts(
  picture: Picture,
  registration: Registration,
  cell: Ticks,
  box: Box,
): Generator<{ readonly done: number; readonly of: number }, SeamMap> {
  const { columns, rows } = cellsOver(box, cell);
  if (columns > MOST_CELLS || rows > MOST_CELLS) {
    throw new RangeError(`A map of ${columns} by ${rows} cells; at most ${MOST_CELLS} on a side`);
  }
  const pixel = pixelSize(registration);
  const steps = Math.min(MOST_STEPS, Math.max(1, Math.floor(cell / Math.max(pixel, FINEST) + 1e-9)));
  const scale: Scale = { steps, step: cell / steps, unseen: JUST_NOTICED * Math.min(1, cell / steps / pixel) };
  const upright = new Uint8Array(columns * rows);
  const level = new Uint8Array(columns * rows);
  const sumsOf = (row: number): RowSums => sumsOfRow(picture, registration, scale, box, cell, columns, row);
  let [below, here] = [sumsOf(-1), sumsOf(0)];
  for (let row = 0; row < rows; row++) {
    const above = sumsOf(row + 1);
    for (let column = 0; column < columns; column++) {
      const seen = visibilityAt([below, here, above], column + 1, scale, cell);
      upright[row * columns + column] = seen.upright;
      level[row * columns + column] = seen.level;
    }
    [below, here] = [here, above];
    yield { done: row + 1, of: rows };
  }
  return { x0: box.x0, y0: box.y0, cell, columns, rows, upright, level };
}

/** How finely a cell is looked at: steps on a side, a step's length, and the change over a step that goes unseen. */
interface Scale {
  readonly steps: number;
  readonly step: number;
  readonly unseen: number;
}

/**
 * For each cell of a row and one more at either end, summed over its steps: change upward, change across, and the tensor
 * xx, yy, xy.
 */
type RowSums = Float64Array;
const SUMS = 5;

function sumsOfRow(
  picture: Picture,
  registration: Registration,
  { steps, step, unseen }: Scale,
  box: Box,
  cell: Ticks,
  columns: number,
  row: number,
): RowSums {
  // One cell more at either end for the neighbours, and one step round all for the differences at the rim.
  const lattice: Lattice = {
    x0: box.x0 - cell - step,
    y0: box.y0 + row * cell - step,
    step,
    columns: (columns + 2) * steps + 2,
    rows: steps + 2,
  };
  const colours = sampleColours(picture, registration, lattice);
  const [acrossOne, upOne] = [3, 3 * lattice.columns];
  const sums = new Float64Array(SUMS * (columns + 2));
  for (let line = 1; line <= steps; line++) {
    for (let column = 0; column < (columns + 2) * steps; column++) {
      const here = 3 * (line * lattice.columns + column + 1);
      if (Number.isNaN(colours[here])) continue;
      const at = SUMS * Math.floor(column / steps);
      // Each difference lies between two steps and counts half for either, so that a mirrored picture counts alike.
      const upward = seen(colours, here, upOne, unseen) + seen(colours, here, -upOne, unseen);
      const across = seen(colours, here, acrossOne, unseen) + seen(colours, here, -acrossOne, unseen);
      sums[at] = (sums[at] as number) + upward / 2;
      sums[at + 1] = (sums[at + 1] as number) + across / 2;
      addGradient(colours, here, acrossOne, upOne, sums, at + 2);
    }
  }
  return sums;
}

/** The noticed change of colour from one step to another; none where the picture ends. */
function seen(colours: Float64Array, here: number, to: number, unseen: number): number {
  const light = (colours[here + to] as number) - (colours[here] as number);
  if (Number.isNaN(light)) return 0;
  const a = (colours[here + to + 1] as number) - (colours[here + 1] as number);
  const b = (colours[here + to + 2] as number) - (colours[here + 2] as number);
  return Math.max(0, Math.sqrt(light * light + a * a + b * b) - unseen);
}

/** Adds the outer product of the gradient at one step, by central differences, over all three channels. */
function addGradient(
  colours: Float64Array,
  here: number,
  acrossOne: number,
  upOne: number,
  sums: RowSums,
  at: number,
): void {
  let [xx, yy, xy] = [0, 0, 0];
  for (let channel = here; channel < here + 3; channel++) {
    const across = ((colours[channel + acrossOne] as number) - (colours[channel - acrossOne] as number)) / 2;
    const upward = ((colours[channel + upOne] as number) - (colours[channel - upOne] as number)) / 2;
    if (Number.isNaN(across) || Number.isNaN(upward)) return;
    xx += across * across;
    yy += upward * upward;
    xy += across * upward;
  }
  sums[at] = (sums[at] as number) + xx;
  sums[at + 1] = (sums[at + 1] as number) + yy;
  sums[at + 2] = (sums[at + 2] as number) + xy;
}

/** The two values of a cell of the middle one of three rows, from its own changes and its neighbourhood's gradients. */
function visibilityAt(
  rows: readonly [below: RowSums, here: RowSums, above: RowSums],
  column: number,
  { steps, step, unseen }: Scale,
  cell: Ticks,
): { readonly upright: number; readonly level: number } {
  let [xx, yy, xy] = [0, 0, 0];
  for (const sums of rows) {
    for (let at = SUMS * (column - 1) + 2; at <= SUMS * (column + 1) + 2; at += SUMS) {
      xx += sums[at] as number;
      yy += sums[at + 1] as number;
      xy += sums[at + 2] as number;
    }
  }
  // The smaller eigenvalue of the mean tensor: the squared change per step across the main direction.
  const smaller = (xx + yy - Math.hypot(xx - yy, 2 * xy)) / (2 * 9 * steps * steps);
  const lettering = Math.max(0, Math.sqrt(Math.max(0, smaller)) - unseen) / (step / TICKS_PER.in);
  const perInch = steps * (cell / TICKS_PER.in);
  const value = (change: number): number => {
    const sum = change / perInch + lettering;
    return Math.round((255 * sum) / (sum + HALF));
  };
  return { upright: value(rows[1][SUMS * column] as number), level: value(rows[1][SUMS * column + 1] as number) };
}
