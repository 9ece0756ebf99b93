import type { Box } from "../geometry/box.ts";

/** What keeps boxes from tiling a frame. Numbers are positions in the list of boxes. */
export type TilingFault =
  | { readonly kind: "outside"; readonly box: number }
  | { readonly kind: "overlap"; readonly box: number; readonly other: number }
  | { readonly kind: "hole"; readonly x: number; readonly y: number };

/**
 * Says how boxes fail to tile a frame: cover it without overlap, exact to the tick.
 *
 * @param boxes proper boxes in ticks, any order
 * @param frame the box to be tiled
 * @returns every box outside the frame, every box that overlaps an earlier one (the first such found), then a corner of
 *   one place left open if nothing else is wrong; empty when they tile it
 *
 * A sweep from left to right; the boxes that cross the sweep line lie one above another, so each new one is compared
 * with its two neighbours. Time O(n log n) plus the moves of a sorted list.
 */
export function tilingFaults(boxes: readonly Box[], frame: Box): TilingFault[] {
  const faults: TilingFault[] = [];
  const inside: number[] = [];
  boxes.forEach(({ x0, y0, x1, y1 }, box) => {
    if (x0 < frame.x0 || y0 < frame.y0 || x1 > frame.x1 || y1 > frame.y1) faults.push({ kind: "outside", box });
    else inside.push(box);
  });
  const get = (i: number): Box => boxes[i] as Box;
  const events = inside.flatMap((box) => [
    { at: get(box).x0, starts: true, box },
    { at: get(box).x1, starts: false, box },
  ]);
  events.sort((a, b) => a.at - b.at || Number(a.starts) - Number(b.starts) || a.box - b.box);
  const crossed: number[] = []; // by y0; disjoint
  const placeOf = (y0: number): number => {
    let [low, high] = [0, crossed.length];
    while (low < high) {
      const middle = (low + high) >> 1;
      if (get(crossed[middle] as number).y0 < y0) low = middle + 1;
      else high = middle;
    }
    return low;
  };
  const area = ({ x0, y0, x1, y1 }: Box): bigint => BigInt(x1 - x0) * BigInt(y1 - y0);
  // Without overlap, boxes tile the frame just when their areas add up to its own; only else a hole is looked for.
  const mayHaveHole = inside.reduce((sum, box) => sum + area(get(box)), 0n) !== area(frame);
  let hole: TilingFault | null = null;
  events.forEach(({ at, starts, box }, index) => {
    const place = placeOf(get(box).y0);
    if (starts) {
      const [below, above] = [crossed[place - 1], crossed[place]];
      const other = [below, above].find((i) => i !== undefined && get(i).y1 > get(box).y0 && get(i).y0 < get(box).y1);
      if (other !== undefined) faults.push({ kind: "overlap", box, other });
      else crossed.splice(place, 0, box);
    } else if (crossed[place] === box) crossed.splice(place, 1);
    const next = events[index + 1]?.at ?? frame.x1;
    if (mayHaveHole && next > at && hole === null) hole = holeAbove(crossed.map(get), at, frame);
  });
  const first = events[0]?.at ?? frame.x1;
  if (first > frame.x0) hole = { kind: "hole", x: frame.x0, y: frame.y0 };
  if (faults.length === 0 && hole !== null) faults.push(hole);
  return faults;
}

/** The lowest place not covered by disjoint boxes in order of y0, on the line just right of x. */
function holeAbove(crossed: readonly Box[], x: number, frame: Box): TilingFault | null {
  let y = frame.y0;
  for (const box of crossed) {
    if (box.y0 > y) break;
    y = box.y1;
  }
  return y < frame.y1 ? { kind: "hole", x, y } : null;
}
