import { boundingBox } from "../geometry/box.ts";
import type { Film, Instance } from "../model/instance.ts";
import type { Shape, Size } from "../nesting/sizes.ts";
import type { Ticks } from "../units/ticks.ts";
import type { Batch, LotGroup } from "./batches.ts";
import { headToFoot } from "./heads.ts";
import { compareRanks, type Item, looseRank, panelRank } from "./neighbours.ts";

/** All pieces of one size, in the order in which they are to be handed out. */
export interface Stack {
  readonly shapes: readonly Shape[];
  readonly items: readonly Item[];
}

/** The panels of a batch by size. Every panel lies at turn 0, but for those that its section turns head to foot. */
export function panelStacks(instance: Instance, groups: readonly LotGroup[], batch: Batch): Stack[] {
  const rank = panelRank(
    instance,
    groups.flatMap(({ panels }) => panels),
  );
  const turned = headToFoot(instance);
  const stacks = new Map<string, { shapes: Shape[]; items: Item[] }>();
  for (const [group, { first, count }] of batch.parts.entries()) {
    for (const panel of (groups[group] as LotGroup).panels) {
      const stack = stackOf(stacks, [{ across: panel.across, along: panel.along, turn: 0 }]);
      const turns = turned(panel);
      for (let copy = first; copy < first + count; copy++) {
        stack.items.push({ id: panel.id, copy, rank: rank(panel, copy), headToFoot: turns });
      }
    }
  }
  return inOrder(stacks);
}

/** How many panels of each size a batch holds, without listing them. */
export function panelSizes(groups: readonly LotGroup[], counts: readonly number[]): Size[] {
  const sizes = new Map<string, { across: Ticks; along: Ticks; count: number }>();
  for (const [group, { panels }] of groups.entries()) {
    for (const { across, along } of panels) {
      const key = `${across} ${along}`;
      const known = sizes.get(key) ?? { across, along, count: 0 };
      sizes.set(key, { ...known, count: known.count + (counts[group] as number) });
    }
  }
  return [...sizes.values()]
    .filter(({ count }) => count > 0)
    .map(({ across, along, count }) => ({ shapes: [{ across, along, turn: 0 }], count, due: true }));
}

/** The loose pieces of a film by size. A quarter turn is a second shape; half a turn changes no box. */
export function looseStacks(instance: Instance, film: Film): Stack[] {
  const rank = looseRank(instance);
  const stacks = new Map<string, { shapes: Shape[]; items: Item[] }>();
  for (const [index, piece] of instance.pieces.entries()) {
    if (piece.film !== film.id) continue;
    const { x0, y0, x1, y1 } = boundingBox(piece.outline);
    const [wide, high] = [x1 - x0, y1 - y0];
    const shapes: Shape[] = [{ across: wide, along: high, turn: 0 }];
    if (film.lay === "any" && piece.turn === "quarter" && wide !== high) {
      shapes.push({ across: high, along: wide, turn: 90 });
    }
    const stack = stackOf(stacks, shapes);
    for (let copy = 1; copy <= piece.count; copy++) {
      stack.items.push({ id: piece.id, copy, rank: rank(index, copy), headToFoot: false });
    }
  }
  return inOrder(stacks);
}

function stackOf(stacks: Map<string, { shapes: Shape[]; items: Item[] }>, shapes: Shape[]) {
  const key = shapes.map(({ across, along }) => `${across} ${along}`).join(" ");
  const known = stacks.get(key) ?? { shapes, items: [] };
  stacks.set(key, known);
  return known;
}

/** Sizes in an order that does not hang on the order of the pieces, so that shuffling them leaves the film used alone. */
function inOrder(stacks: Map<string, { shapes: Shape[]; items: Item[] }>): Stack[] {
  const ordered = [...stacks.values()].sort((a, b) => {
    const [p, q] = [a.shapes[0] as Shape, b.shapes[0] as Shape];
    return q.along - p.along || q.across - p.across || b.shapes.length - a.shapes.length;
  });
  for (const { items } of ordered) items.sort((a, b) => compareRanks(a.rank, b.rank));
  return ordered;
}

/** The stacks as sizes for a room of this width: only shapes that fit it. */
export function sizesOf(stacks: readonly Stack[], width: Ticks, due: boolean): Size[] {
  return stacks.map(({ shapes, items }) => ({
    shapes: shapes.filter(({ across }) => across <= width),
    count: items.length,
    due,
  }));
}

/** Whether a piece of this stack fits a width in one of its shapes. */
export const fitsAcross = ({ shapes }: Pick<Stack, "shapes">, width: Ticks): boolean =>
  shapes.some(({ across }) => across <= width);
