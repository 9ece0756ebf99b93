import { type Axis, type Box, type Interval, mirrorBox, mirrorX } from "../geometry/box.ts";
import type { Break, ColourEdge, Elevation, Instance, ZoneRule } from "../model/instance.ts";
import { mirrorPath } from "../model/mirrorElevation.ts";
import { SeamWeights } from "../model/seamWeight.ts";
import type { Ticks } from "../units/ticks.ts";

/**
 * One elevation of a mirror group, seen in the frame of the group's source: its windows there are the source's own, so
 * one set of seam positions serves all members, each judged by its own features.
 */
export interface Member {
  readonly elevation: Elevation;
  /** Position of the elevation in the job. */
  readonly index: number;
  /** Whether its own frame is the source's reflected left to right. */
  readonly flipped: boolean;
  readonly zones: readonly Zone[];
  /** Breaks and colour edges on the line at a place of an axis. */
  linesAt(axis: Axis, at: Ticks): LineFeatures | undefined;
  /** Every place of the axis that carries a break or a colour edge, ascending. */
  places(axis: Axis): readonly Ticks[];
  readonly breaks: readonly Break[];
  /** Whether panels of a film meet edge to edge; null for the elevation's own film. */
  isButted(film: string | null): boolean;
  /** How much seams count on this elevation, in the source's frame. */
  readonly weights: MemberWeights;
}

/** The weights of `SeamWeights` in the frame of the group's source. */
export interface MemberWeights extends Pick<SeamWeights, "plain" | "least" | "lengthOn"> {
  /** Places of an axis on both sides of which, to the tick, a line across it may count differently. */
  changesOn(axis: Axis): readonly Ticks[];
}

export interface LineFeatures {
  readonly breaks: readonly Break[];
  readonly colourEdges: readonly ColourEdge[];
}

/** Lettering, logo or obstacle that seams keep out of; obstacles grown by their clearance. */
export interface Zone {
  readonly id: string;
  readonly label: string;
  readonly box: Box;
  readonly rule: ZoneRule;
  readonly path: string;
  readonly handle: boolean;
}

/**
 * The members of a group: the source, then its mirrors in the order given.
 *
 * A mirror of a mirror is flipped twice and so lies as the source does.
 */
export function groupMembers(instance: Instance, source: Elevation, mirrors: readonly Elevation[]): Member[] {
  const byId = new Map([source, ...mirrors].map((elevation) => [elevation.id, elevation]));
  const flipped = (elevation: Elevation): boolean => {
    const mirrored =
      elevation.id === source.id || elevation.mirrorOf === null ? undefined : byId.get(elevation.mirrorOf);
    return mirrored === undefined ? false : !flipped(mirrored);
  };
  const butted = new Set(instance.films.filter(({ joint }) => joint === "butted").map(({ id }) => id));
  return [source, ...mirrors].map((elevation) => ({
    ...member(
      elevation,
      instance.elevations.findIndex(({ id }) => id === elevation.id),
      flipped(elevation),
    ),
    isButted: (film: string | null) => butted.has(film ?? elevation.film),
    weights: weightsOf(new SeamWeights(elevation, instance.rules), elevation.box, flipped(elevation)),
  }));
}

function weightsOf(own: SeamWeights, frame: Box, flipped: boolean): MemberWeights {
  const { plain, least } = own;
  return {
    plain,
    least,
    changesOn: (axis) =>
      flipped && axis === "x"
        ? // A cell holds its lower edge: reflected, the last place of the same cell lies one tick before.
          own.changesOn(axis).map((at) => mirrorX(at, frame) + 1)
        : own.changesOn(axis),
    lengthOn: (axis, at, stretches) => {
      if (!flipped) return own.lengthOn(axis, at, stretches);
      if (axis === "x") return own.lengthOn(axis, mirrorX(at, frame), stretches);
      const turned = ({ from, to }: Interval) => ({ from: mirrorX(to, frame), to: mirrorX(from, frame) });
      return own.lengthOn(axis, at, stretches.map(turned));
    },
  };
}

function member(elevation: Elevation, index: number, flipped: boolean): Omit<Member, "isButted" | "weights"> {
  const { box } = elevation;
  const turnBox = (b: Box): Box => (flipped ? mirrorBox(b, box) : b);
  const turnLine = <T extends Break | ColourEdge>(line: T): T => {
    if (!flipped) return line;
    return line.axis === "x"
      ? { ...line, at: mirrorX(line.at, box) }
      : { ...line, from: mirrorX(line.to, box), to: mirrorX(line.from, box) };
  };
  const breaks = elevation.breaks.map(turnLine);
  const colourEdges = elevation.colourEdges.map((edge) =>
    flipped ? { ...turnLine(edge), path: mirrorPath(edge, box) } : edge,
  );
  const byPlace = {
    x: new Map<Ticks, { breaks: Break[]; colourEdges: ColourEdge[] }>(),
    y: new Map<Ticks, { breaks: Break[]; colourEdges: ColourEdge[] }>(),
  };
  const at = (axis: Axis, place: Ticks) => {
    const found = byPlace[axis].get(place);
    if (found !== undefined) return found;
    const made = { breaks: [] as Break[], colourEdges: [] as ColourEdge[] };
    byPlace[axis].set(place, made);
    return made;
  };
  for (const line of breaks) at(line.axis, line.at).breaks.push(line);
  for (const line of colourEdges) at(line.axis, line.at).colourEdges.push(line);
  const sorted = { x: [...byPlace.x.keys()].sort((a, b) => a - b), y: [...byPlace.y.keys()].sort((a, b) => a - b) };
  const path = `elevations[${index}]`;
  const zones: Zone[] = [
    ...elevation.keepClear.map((zone, i) => ({
      id: zone.id,
      label: zone.label || zone.id,
      box: turnBox(zone.box),
      rule: zone.rule,
      path: `${path}.keepClear[${i}]`,
      handle: false,
    })),
    ...elevation.obstacles.map((obstacle, i) => ({
      id: obstacle.id,
      label: obstacle.kind === "other" ? obstacle.id : `${obstacle.kind} ${obstacle.id}`,
      box: grown(turnBox(obstacle.box), obstacle.clearance),
      rule: obstacle.rule,
      path: `${path}.obstacles[${i}]`,
      handle: obstacle.kind === "handle",
    })),
  ];
  return {
    elevation,
    index,
    flipped,
    zones,
    breaks,
    linesAt: (axis, place) => byPlace[axis].get(place),
    places: (axis) => sorted[axis],
  };
}

const grown = ({ x0, y0, x1, y1 }: Box, by: Ticks): Box => ({ x0: x0 - by, y0: y0 - by, x1: x1 + by, y1: y1 + by });
