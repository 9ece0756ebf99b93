/**
 * Rectangles cut from a sheet in two guillotine stages: the sheet into strips from edge to edge, each strip into items side
 * by side. An item that is lower than its strip is trimmed by one more cut; nothing is turned.
 */

/** Which way the first cuts run: "horizontal" makes strips as wide as the sheet, "vertical" strips as high as it. */
export type FirstCut = "horizontal" | "vertical";

export interface Rectangle {
  readonly width: number;
  readonly height: number;
}

/**
 * A kind of item as its strips see it. With horizontal first cuts `along` is its width and `depth` its height; with
 * vertical ones the other way round.
 */
export interface StripItem {
  readonly along: number;
  readonly depth: number;
  /** At most so many on one sheet. */
  readonly most: number;
  readonly value: number;
}

/** A strip and how many of each item lie in it; its depth is that of its deepest item. */
export interface Strip {
  readonly depth: number;
  readonly value: number;
  /** Items it holds, each once, with a count ≥ 1. */
  readonly entries: readonly StripEntry[];
}

export interface StripEntry {
  readonly item: number;
  readonly count: number;
}

/** An item on its sheet: low corner and, where several sheets share the copies, a copy number from 1. */
export interface SheetPlacement {
  readonly item: number;
  readonly copy: number;
  readonly x: number;
  readonly y: number;
}

/** Width and height as along and depth, for a direction of the first cuts. */
export const inStrips = ({ width, height }: Rectangle, firstCut: FirstCut): { along: number; depth: number } =>
  firstCut === "horizontal" ? { along: width, depth: height } : { along: height, depth: width };

/**
 * Lays strips one after another from the sheet's low corner, and the items of each side by side from its start.
 *
 * @param copiesSoFar of each item, raised by those laid here
 * @returns placements, strip by strip
 */
export function placeStrips(
  strips: readonly Pick<Strip, "depth" | "entries">[],
  sizes: readonly Rectangle[],
  firstCut: FirstCut,
  copiesSoFar: number[],
): SheetPlacement[] {
  const placements: SheetPlacement[] = [];
  let across = 0;
  for (const { depth, entries } of strips) {
    let along = 0;
    for (const { item, count } of entries) {
      for (let n = 0; n < count; n++) {
        const copy = (copiesSoFar[item] ?? 0) + 1;
        copiesSoFar[item] = copy;
        placements.push(
          firstCut === "horizontal" ? { item, copy, x: along, y: across } : { item, copy, x: across, y: along },
        );
        along += inStrips(sizes[item] as Rectangle, firstCut).along;
      }
    }
    across += depth;
  }
  return placements;
}
