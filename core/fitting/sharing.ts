import type { Axis, Interval } from "../geometry/box.ts";
import type { Region } from "../geometry/region.ts";
import type { Film, Instance } from "../model/instance.ts";
import type { Panel, Seam } from "../model/plan.ts";
import type { Ticks } from "../units/ticks.ts";
import { lengthOf, otherAxis, rangeOn, shared, splitAxisOf } from "./ranges.ts";

/** Two panels that meet at a seam: `low` is the left or lower one. */
export interface Meeting {
  readonly seam: Seam;
  readonly low: Panel;
  readonly high: Panel;
}

/** Film on both sides of a border over less than this, ticks, is the rounding of a slope and no meeting. */
const HARDLY = 0.5;

/**
 * Every two panels of one elevation that share film at a seam.
 *
 * @param panels of that elevation, `seams` of it
 * @returns in the order of the seams; at a border one for every two panels that face each other over film needed on both
 *   sides: all panels that run up to the border, and of those that lie along it the one beside it
 */
export function meetingsOf(panels: readonly Panel[], seams: readonly Seam[], region: Region): Meeting[] {
  const byId = new Map(panels.map((panel) => [panel.id, panel]));
  return seams.flatMap((seam): Meeting[] => {
    const [lowId, highId] = seam.between;
    if (seam.section !== null) {
      const [low, high] = [byId.get(lowId), byId.get(highId)];
      return low === undefined || high === undefined ? [] : [{ seam, low, high }];
    }
    const film = filmOnBothSides(seam, region);
    const highs = besideBorder(panels, highId, seam.axis, "first");
    return besideBorder(panels, lowId, seam.axis, "last").flatMap((low) =>
      highs.filter((high) => faces(seam.axis, low, high, film)).map((high) => ({ seam, low, high })),
    );
  });
}

function besideBorder(panels: readonly Panel[], section: string, axis: Axis, end: "first" | "last"): Panel[] {
  const own = panels.filter((panel) => panel.section === section);
  const [any] = own;
  if (any === undefined || splitAxisOf(any.direction) !== axis) return own;
  const place = ({ window }: Panel): number => rangeOn(axis, window).from + rangeOn(axis, window).to;
  const sorted = own.sort((a, b) => place(a) - place(b));
  return end === "first" ? sorted.slice(0, 1) : sorted.slice(-1);
}

function filmOnBothSides({ axis, at, from, to }: Seam, region: Region): Interval[] {
  const after = region.beside(axis, at, { from, to }, 1);
  return region
    .beside(axis, at, { from, to }, -1)
    .flatMap((a) => after.map((b) => shared(a, b)).filter((both) => lengthOf(both) > HARDLY));
}

function faces(axis: Axis, low: Panel, high: Panel, film: readonly Interval[]): boolean {
  const along = shared(rangeOn(otherAxis(axis), low.window), rangeOn(otherAxis(axis), high.window));
  return film.some((stretch) => lengthOf(shared(stretch, along)) > HARDLY);
}

/** What two panels must go on sharing: the overlap left at a colour edge; nothing where both are of butted film. */
export function leastShare({ films, rules }: Instance): (a: Panel, b: Panel) => Ticks {
  const joints = new Map(films.map(({ id, joint }: Film) => [id, joint]));
  const isButted = ({ film }: Panel): boolean => joints.get(film) === "butted";
  return (a, b) => (isButted(a) && isButted(b) ? 0 : rules.colourEdgeOverlap);
}
