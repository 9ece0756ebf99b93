import type { Box, Point } from "../../geometry/box.ts";
import type { Load, PlacedPiece } from "../../model/plan.ts";
import type { Violation } from "../../model/violation.ts";
import { breachOf, type LayoutCheck, MOST_PER_LOAD } from "../check.ts";
import { edgeDistance, isRectangle, sharedArea, turnedTo } from "../geometry/polygons.ts";
import type { LayoutView } from "../layoutView.ts";
import { SLOPE_TICKS } from "../tolerance.ts";

const breach = breachOf("piecesApart");

interface Lying {
  readonly piece: PlacedPiece;
  /** On the roll, from the load's start. */
  readonly box: Box;
  /** True outline; null where the box is the shape. */
  readonly outline: readonly Point[] | null;
}

/**
 * Pieces of one load lie at least the cut gap apart, in x or in y (rule 19). With free nesting a piece that is no
 * rectangle is measured by its true outline, straight to the nearest point of the other one.
 *
 * Every pair whose stretches along the roll are nearer than the gap is looked at.
 */
export const piecesApart: LayoutCheck = (view) => view.layout.rolls.flatMap((load) => breachesOn(view, load));

function breachesOn(view: LayoutView, load: Load): Violation[] {
  const { instance, words } = view.job;
  const gap = instance.rules.cutGap;
  const found: Violation[] = [];
  const lying = load.cuts.flatMap((cut) => cut.pieces.map((piece) => lyingAt(view, piece, cut.start + piece.y)));
  lying.sort((a, b) => a.box.y0 - b.box.y0);
  let near: Lying[] = [];
  for (const item of lying) {
    near = near.filter((other) => other.box.y1 + gap > item.box.y0);
    for (const other of near) {
      if (apart(item, other, gap)) continue;
      found.push(
        breach([load.id, other.piece.id, item.piece.id], `they lie nearer than ${words.length(gap)} to each other`),
      );
      if (found.length >= MOST_PER_LOAD) return found;
    }
    near.push(item);
  }
  return found;
}

function lyingAt({ job, layout, panels }: LayoutView, piece: PlacedPiece, y: number): Lying {
  const box = { x0: piece.x, y0: y, x1: piece.x + piece.across, y1: y + piece.along };
  const loose = panels.has(piece.id) ? undefined : job.pieces.get(piece.id);
  const shaped = layout.nesting === "free" && loose !== undefined && !isRectangle(loose.outline);
  return { piece, box, outline: shaped ? turnedTo(loose.outline, piece.turn, { x: box.x0, y: box.y0 }) : null };
}

function apart(a: Lying, b: Lying, gap: number): boolean {
  const distance = Math.max(a.box.x0 - b.box.x1, b.box.x0 - a.box.x1, a.box.y0 - b.box.y1, b.box.y0 - a.box.y1);
  if (distance >= gap) return true;
  if (a.outline === null && b.outline === null) return false;
  const [first, second] = [a.outline ?? cornersOf(a.box), b.outline ?? cornersOf(b.box)];
  // Straight distances are irrational: two right answers may differ by a rounded tick at each end.
  if (edgeDistance(first, second) < gap - SLOPE_TICKS) return false;
  const widest = Math.max(a.box.x1 - a.box.x0, a.box.y1 - a.box.y0, b.box.x1 - b.box.x0, b.box.y1 - b.box.y0);
  return sharedArea(first, second) <= SLOPE_TICKS * widest;
}

const cornersOf = ({ x0, y0, x1, y1 }: Box): Point[] => [
  { x: x0, y: y0 },
  { x: x1, y: y0 },
  { x: x1, y: y1 },
  { x: x0, y: y1 },
];
