import type { Box, Side } from "../geometry/box.ts";
import { type Trapezoid, trapezoids } from "./geometry/region.ts";
import type { ElevationView } from "./layoutView.ts";
import { boxFrom, otherAxis, rangeOn } from "./ranges.ts";
import { axisOf, type SectionView } from "./sections.ts";

/**
 * How far film must reach toward one side for what is needed inside `part` of a section: every stretch of it that ends at
 * the outline or an opening plus the bleed there, and every one that goes on over a border plus half of that border's
 * least overlap. On both sides of every corner, crossing and end of a neighbour.
 *
 * @param part the strip of a panel, or all of the section up to a gap. Being closed, a strip also holds what is needed on
 * its two outer lines, on whichever side of them the film lies.
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
  const count = (piece: Trapezoid, places: readonly number[]): void => {
    const end = upward ? piece.highEnd : piece.lowEnd;
    const middle = (piece.from + piece.to) / 2;
    const beyond =
      end === null
        ? (borders.find(({ shared }) => shared.from < middle && middle < shared.to)?.facts.half ?? 0)
        : Math.max(end.outline ? bleed[side] : 0, end.opening ? bleed.openings : 0);
    for (const place of places) {
      // Where the part itself is narrower than the section, film that goes on past it belongs to the next part.
      if (end === null && place !== edge) continue;
      const due = upward ? place + beyond : place - beyond;
      if (farthest === null || (upward ? due > farthest : due < farthest)) farthest = due;
    }
  };
  const inside = trapezoids(view.job.needed, otherAxis(axis), part, marks);
  for (const piece of inside) count(piece, upward ? piece.high : piece.low);

  const strip = rangeOn(otherAxis(axis), part);
  const beside = boxFrom(axis, rangeOn(axis, part), rangeOn(otherAxis(axis), section.box));
  for (const piece of trapezoids(view.job.needed, otherAxis(axis), beside, [...marks, strip.from, strip.to])) {
    const [a, b] = upward ? piece.high : piece.low;
    const touches = piece.to === strip.from ? b : piece.from === strip.to ? a : null;
    if (touches === null) continue;
    // Film inside the strip that goes on past this end leaves no end here.
    const goesOn = inside.some((own) => {
      const at = piece.to === strip.from ? (own.from === strip.from ? 0 : null) : own.to === strip.to ? 1 : null;
      return (
        at !== null &&
        (upward ? own.low[at] <= touches && own.high[at] > touches : own.high[at] >= touches && own.low[at] < touches)
      );
    });
    if (!goesOn) count(piece, [touches]);
  }
  return farthest;
}
