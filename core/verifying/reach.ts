import type { Box, Side } from "../geometry/box.ts";
import { trapezoids } from "./geometry/region.ts";
import type { ElevationView } from "./layoutView.ts";
import { otherAxis, rangeOn } from "./ranges.ts";
import { axisOf, type SectionView } from "./sections.ts";

/**
 * How far film must reach toward one side for what is needed inside `part` of a section: every stretch of it that ends at
 * the outline or an opening plus the bleed there, and every one that goes on over a border plus half of that border's
 * least overlap. On both sides of every corner, crossing and end of a neighbour.
 *
 * @returns the farthest place, unrounded; null where nothing is needed
 */
export function reachToward(view: ElevationView, section: SectionView, part: Box, side: Side): number | null {
  const axis = axisOf(side);
  const upward = side === "right" || side === "top";
  const { bleed } = view.job.elevation;
  const edge = upward ? rangeOn(axis, section.box).to : rangeOn(axis, section.box).from;
  const borders = view.borders.filter(
    (border) => border.axis === axis && (upward ? border.low : border.high) === section,
  );
  const marks = borders.flatMap(({ shared }) => [shared.from, shared.to]);
  let farthest: number | null = null;
  for (const piece of trapezoids(view.job.needed, otherAxis(axis), part, marks)) {
    const end = upward ? piece.highEnd : piece.lowEnd;
    const [a, b] = upward ? piece.high : piece.low;
    const middle = (piece.from + piece.to) / 2;
    // Where the part itself is narrower than the section, film that goes on past it belongs to the next part.
    const ends = (upward ? Math.max(a, b) : Math.min(a, b)) === edge || end !== null;
    if (!ends) continue;
    const beyond =
      end === null
        ? (borders.find(({ shared }) => shared.from < middle && middle < shared.to)?.facts.half ?? 0)
        : Math.max(end.outline ? bleed[side] : 0, end.opening ? bleed.openings : 0);
    const place = upward ? Math.max(a, b) + beyond : Math.min(a, b) - beyond;
    if (farthest === null || (upward ? place > farthest : place < farthest)) farthest = place;
  }
  return farthest;
}
