import type { Region } from "../geometry/region.ts";
import type { Elevation, FillChoice, Rules } from "../model/instance.ts";
import type { Ticks } from "../units/ticks.ts";
import { groupHolds } from "./holds.ts";
import type { Member } from "./members.ts";
import { sidesOf, toSpan } from "./orientation.ts";
import { usualHalf } from "./seamRules.ts";
import { effectiveSections, type UsedFill } from "./sections.ts";

/** Most depths tried for one fill, and most ways to use fills altogether. */
const MOST_DEPTHS = 8;
const MOST_WAYS = 48;

/**
 * The ways to use an elevation's fills that are worth trying, none of them first.
 *
 * Each listed fill is left out or used; a used one at its greatest depth, where a hold has its border, at a break, colour edge or edge of a zone inside
 * that depth, at the least depths that free a panel of a section it meets, and at the greatest that its own film covers in
 * one and in two panels. Depths of later fills are worked out with the earlier ones in place. At most MOST_DEPTHS depths
 * a fill (the first named here) and MOST_WAYS ways in all, those with fewer fills first.
 */
export function fillWays(
  elevation: Elevation,
  members: readonly Member[],
  region: Region,
  rules: Rules,
  acrossOf: (film: string | null) => Ticks,
  grid: Ticks,
): readonly (readonly UsedFill[])[] {
  let ways: UsedFill[][] = [[]];
  for (const choice of elevation.fill) {
    const used = ways.flatMap((way) =>
      depthsFor(choice, elevation, way, members, region, rules, acrossOf, grid).map((depth) => [
        ...way,
        { choice, depth },
      ]),
    );
    ways = [...ways, ...used];
  }
  return ways
    .filter((way) => effectiveSections(elevation, way) !== null)
    .sort((a, b) => a.length - b.length)
    .slice(0, MOST_WAYS);
}

function depthsFor(
  { edge, maxDepth, film }: FillChoice,
  elevation: Elevation,
  earlier: readonly UsedFill[],
  members: readonly Member[],
  region: Region,
  rules: Rules,
  acrossOf: (film: string | null) => Ticks,
  grid: Ticks,
): Ticks[] {
  const axis = edge === "left" || edge === "right" ? "x" : "y";
  const atLow = edge === "left" || edge === "bottom";
  const { u0, u1 } = toSpan(elevation.box, axis);
  const atSeams = usualHalf(members, [null], rules);
  const half = usualHalf(members, [null, film], rules);
  const ownHalf = usualHalf(members, [film], rules);
  const depths = new Set<Ticks>([maxDepth]);
  const add = (depth: Ticks) => {
    if (depth > 0 && depth <= maxDepth) depths.add(depth);
  };
  const depthOf = (place: Ticks) => (atLow ? place - u0 : u1 - place);
  const upToGrid = (depth: Ticks) => Math.min(maxDepth, Math.ceil(depth / grid) * grid);
  // What a row of n full panels covers from first to last end of window.
  const covered = (n: number, across: Ticks, half: Ticks) => n * (across - 2 * half) + 2 * half;
  for (const { hold } of groupHolds(members)) {
    if (hold.kind === "direction" || hold.section !== null || hold.axis !== axis) continue;
    if (hold.kind === "seam") add(depthOf(hold.at));
    if (hold.kind !== "noSeam") continue;
    add(depthOf(Math.ceil(hold.from / grid - 1) * grid));
    add(depthOf(Math.floor(hold.to / grid + 1) * grid));
  }
  for (const section of effectiveSections(elevation, earlier) ?? []) {
    if (section.role === "fill") continue;
    const box = toSpan(section.box, axis);
    const meets = atLow ? box.u0 < u0 + maxDepth : box.u1 > u1 - maxDepth;
    const extent = region.extent(section.box);
    if (!meets || extent === null) continue;
    const across = Math.min(acrossOf(null), section.maxAcross ?? Infinity);
    if (across <= 2 * atSeams) continue;
    const needed = toSpan(extent, axis);
    const far = sidesOf(axis).u[atLow ? 1 : 0];
    const inner = atLow ? box.u1 < u1 : box.u0 > u0;
    const beyond = inner ? atSeams : elevation.bleed[far];
    const size = (atLow ? needed.u1 - u0 : u1 - needed.u0) + beyond + half;
    for (let n = 1; covered(n, across, atSeams) < size; n++) add(upToGrid(size - covered(n, across, atSeams)));
  }
  for (const member of members) {
    for (const place of member.places(axis)) add(depthOf(place));
    for (const { box } of member.zones) {
      const zone = toSpan(box, axis);
      for (const place of [zone.u0, zone.u1]) {
        add(depthOf(place - half));
        add(depthOf(place + half));
      }
    }
  }
  const own = acrossOf(film);
  for (const n of [1, 2]) add(Math.floor((covered(n, own, ownHalf) - elevation.bleed[edge] - half) / grid) * grid);
  return [...depths].slice(0, MOST_DEPTHS);
}
