import type { Rectangle, SheetPlacement } from "../../../core/index.ts";

/** Placements as the command prints them, with the size of each item; nothing is turned. */
export const placedItems = (placements: readonly SheetPlacement[], items: readonly Rectangle[]) =>
  placements.map(({ item, copy, x, y }) => {
    const { width: w, height: h } = items[item] as Rectangle;
    return { item, copy, x, y, w, h, turn: 0 };
  });
