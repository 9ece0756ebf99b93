import type { Box, SeamMap } from "../../core/index.ts";
import { type Frame, screenX, screenY, short } from "./frame.ts";

/** How much a seam would be seen, in four steps above "hardly"; `from` is the least value of a step. */
export const heatSteps = [
  { from: 16, words: "seen a little" },
  { from: 64, words: "seen clearly" },
  { from: 128, words: "seen much" },
  { from: 192, words: "seen most" },
] as const;

/** Smallest square drawn, in pixels; smaller cells are drawn together by the highest of them. */
const least = 3;

/**
 * The cells of a map as one path a step, neighbours in a row drawn together.
 *
 * @param axis "x" for upright seams, "y" for level ones
 * @returns as many paths as steps, in their order; empty where no cell is of that step
 */
export function heatPaths(map: SeamMap, axis: "x" | "y", frame: Frame, within: Box): string[] {
  const values = axis === "x" ? map.upright : map.level;
  const group = Math.max(1, Math.ceil(least / (map.cell * frame.scale)));
  const paths = heatSteps.map((): string[] => []);
  for (let row = 0; row < map.rows; row += group) {
    let [step, begun] = [-1, 0];
    for (let column = 0; column <= map.columns + group - 1; column += group) {
      const next = column < map.columns ? stepOf(highest(map, values, column, row, group)) : -1;
      if (next === step) continue;
      if (step >= 0) paths[step]?.push(stretch(map, frame, within, begun, Math.min(column, map.columns), row, group));
      [step, begun] = [next, column];
    }
  }
  return paths.map((parts) => parts.join(""));
}

function highest(map: SeamMap, values: Uint8Array, column: number, row: number, group: number): number {
  let most = 0;
  for (let r = row; r < Math.min(row + group, map.rows); r++) {
    for (let c = column; c < Math.min(column + group, map.columns); c++) {
      most = Math.max(most, values[r * map.columns + c] as number);
    }
  }
  return most;
}

const stepOf = (value: number): number => heatSteps.findLastIndex(({ from }) => value >= from);

function stretch(
  { x0, y0, cell, rows }: SeamMap,
  frame: Frame,
  within: Box,
  from: number,
  to: number,
  row: number,
  group: number,
): string {
  const left = short(screenX(frame, Math.max(within.x0, x0 + from * cell)));
  const right = short(screenX(frame, Math.min(within.x1, x0 + to * cell)));
  const low = short(screenY(frame, Math.max(within.y0, y0 + row * cell)));
  const high = short(screenY(frame, Math.min(within.y1, y0 + Math.min(row + group, rows) * cell)));
  return right > left && low > high ? `M${left} ${high}H${right}V${low}H${left}Z` : "";
}
