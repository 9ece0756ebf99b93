import { type Axis, mirrorX } from "../geometry/box.ts";
import type { Elevation, Instance } from "../model/instance.ts";
import type { Difference, Layout, Panel, Seam } from "../model/plan.ts";
import { formatLength } from "../units/formatLength.ts";
import type { Ticks } from "../units/ticks.ts";
import { mirroredId } from "./followers.ts";
import { groupHolds } from "./holds.ts";
import { groupMembers, type Member } from "./members.ts";
import { directionOf, splitAxis, toBox } from "./orientation.ts";
import { judgeSeam, meetsZone, type SeamLine } from "./seamRules.ts";

/**
 * Where elevations that follow another do not repeat it, in words of the trade.
 *
 * @param layout panels and seams of all elevations
 * @returns by elevation in the order of the job: sections split along another axis (axis and place null), then, section
 *   by section, seams of the other that are missing at the reflected place, then seams that the other has not; places in
 *   the follower's own frame, ascending. Borders are not compared. Time O(s²) for the s seams of a section.
 */
export function differencesOf(instance: Instance, layout: Pick<Layout, "panels" | "seams">): Difference[] {
  return instance.elevations.flatMap((follower) => {
    const leader = instance.elevations.find(({ id }) => id === follower.mirrorOf);
    return follower.mirror !== "follow" || leader === undefined
      ? []
      : new Comparison(instance, follower, leader, layout).differences();
  });
}

interface Place {
  readonly section: string;
  readonly line: SeamLine;
}

class Comparison {
  private readonly instance: Instance;
  private readonly follower: Elevation;
  private readonly leader: Elevation;
  private readonly members: readonly Member[];
  private readonly axes: ReadonlyMap<string, Axis>;
  private readonly axesThere: ReadonlyMap<string, Axis>;
  private readonly seams: readonly Place[];
  private readonly wished: readonly Place[];

  constructor(
    instance: Instance,
    follower: Elevation,
    leader: Elevation,
    { panels, seams }: Pick<Layout, "panels" | "seams">,
  ) {
    this.instance = instance;
    this.follower = follower;
    this.leader = leader;
    this.members = groupMembers(instance, follower, repeating(follower, instance.elevations));
    this.axes = axesOf(panels, follower, (id) => id);
    this.axesThere = axesOf(panels, leader, mirroredId);
    this.seams = placesOf(
      seams,
      follower,
      (id) => id,
      (line) => line,
    );
    this.wished = placesOf(seams, leader, mirroredId, (line) => reflected(line, follower));
  }

  differences(): Difference[] {
    const turned = [...this.axes].filter(([id, axis]) => (this.axesThere.get(id) ?? axis) !== axis);
    const sections = new Set([...this.wished, ...this.seams].map(({ section }) => section));
    return [
      ...turned.map(([section, axis]) => {
        const there = directionOf(this.axesThere.get(section) as Axis);
        const says = `${this.other} has ${there} panels in section '${section}'; here they are ${directionOf(axis)}`;
        return this.difference(section, null, says);
      }),
      ...[...sections].flatMap((section) => this.differencesIn(section)),
    ];
  }

  private differencesIn(section: string): Difference[] {
    const own = this.seams.filter((place) => place.section === section);
    const wished = this.wished.filter((place) => place.section === section);
    const missing = wished.filter((place) => !own.some((other) => isSame(place, other)));
    const extra = own.filter((place) => !wished.some((other) => isSame(place, other)));
    const instead = pairs(missing, extra);
    return [
      ...missing.map((place) => this.difference(section, place.line, this.saysMissing(place, instead.get(place)))),
      ...extra.map((place) => {
        const inPlaceOf = [...instead].find(([, other]) => other === place)?.[0];
        return this.difference(section, place.line, this.saysExtra(place, inPlaceOf));
      }),
    ];
  }

  private difference(section: string, line: SeamLine | null, says: string): Difference {
    const { id, mirrorOf } = this.follower;
    return {
      elevation: id,
      follows: mirrorOf as string,
      section,
      axis: line?.axis ?? null,
      at: line?.at ?? null,
      says,
    };
  }

  private get other(): string {
    return this.leader.name || this.leader.id;
  }

  private say(ticks: Ticks): string {
    return formatLength(ticks, this.instance.unit);
  }

  private saysMissing({ section, line }: Place, instead: Place | undefined): string {
    const there = `${this.other} would have its seam at ${this.say(line.at)} here`;
    const here = instead === undefined ? "no seam here" : `${this.say(instead.line.at)} instead`;
    if ((this.axes.get(section) ?? line.axis) !== line.axis) return `${there}; the panels run the other way: ${here}`;
    if (!this.axes.has(section)) return `${there}; here there is no ${nameOf(section)}: no seam`;
    return `${there}; ${this.obstacle(line) ?? "it does not go with the panels of this side"}: ${here}`;
  }

  private saysExtra({ section, line }: Place, inPlaceOf: Place | undefined): string {
    const here = `Seam at ${this.say(line.at)}`;
    if (inPlaceOf !== undefined)
      return `${here} in place of the one that ${this.other} would have at ${this.say(inPlaceOf.line.at)}`;
    if (!this.axesThere.has(section)) return `${here}; ${this.other} has no ${nameOf(section)}`;
    return `${here}, where ${this.other} has none${this.demand(line) ?? ""}`;
  }

  /** What keeps a seam from this line on the follower, or on an elevation that repeats it. */
  private obstacle(line: SeamLine): string | null {
    const { kinds, half } = judgeSeam(this.members, line, this.instance.rules);
    const band = toBox({ u0: line.at - half, u1: line.at + half, v0: line.from, v1: line.to }, line.axis);
    for (const [m, member] of this.members.entries()) {
      const zone = member.zones.find(
        (each) => each.rule === "never" && meetsZone(each, kinds[m] as Seam["kind"], line, band),
      );
      if (zone === undefined) continue;
      const reason = member.elevation.keepClear.find(({ id }) => id === zone.id)?.reason ?? "other";
      return `${reason === "other" ? "" : `${reason} `}'${zone.label}' is in the way`;
    }
    const hold = groupHolds(this.members).find(
      ({ hold: each }) =>
        each.kind === "noSeam" && each.axis === line.axis && each.from <= line.at && line.at <= each.to,
    );
    return hold === undefined ? null : `hold '${hold.own.id}' forbids it`;
  }

  /** What demands a seam on this line of the follower. */
  private demand({ axis, at }: SeamLine): string | null {
    const hold = groupHolds(this.members).find(
      ({ hold: each }) => each.kind === "seam" && each.axis === axis && each.at === at,
    );
    if (hold !== undefined) return `: hold '${hold.own.id}' wants it`;
    const line = this.members
      .flatMap(({ breaks }) => breaks)
      .find((each) => each.mustSplit && each.axis === axis && each.at === at);
    return line === undefined ? null : `: break '${line.id}' demands it`;
  }
}

const nameOf = (section: string): string =>
  section.startsWith("fill-") ? `fill along the ${section.slice("fill-".length)} edge` : `section '${section}'`;

/** All that repeat an elevation exactly, directly or through one another. */
function repeating(source: Elevation, elevations: readonly Elevation[]): Elevation[] {
  const found = new Set([source.id]);
  for (let before = 0; before < found.size; ) {
    before = found.size;
    for (const { id, mirror, mirrorOf } of elevations) {
      if (mirror === "exact" && mirrorOf !== null && found.has(mirrorOf)) found.add(id);
    }
  }
  return elevations.filter(({ id }) => id !== source.id && found.has(id));
}

function axesOf(panels: readonly Panel[], { id }: Elevation, name: (section: string) => string): Map<string, Axis> {
  return new Map(
    panels.flatMap(({ elevation, section, direction }) =>
      elevation === id ? [[name(section), splitAxis(direction)] as const] : [],
    ),
  );
}

function placesOf(
  seams: readonly Seam[],
  { id }: Elevation,
  name: (section: string) => string,
  turn: (line: SeamLine) => SeamLine,
): Place[] {
  return seams
    .flatMap(({ elevation, section, axis, at, from, to }): Place[] =>
      elevation !== id || section === null ? [] : [{ section: name(section), line: turn({ axis, at, from, to }) }],
    )
    .sort((a, b) => a.line.at - b.line.at);
}

const reflected = ({ axis, at, from, to }: SeamLine, { box }: Elevation): SeamLine =>
  axis === "x"
    ? { axis, at: mirrorX(at, box), from, to }
    : { axis, at, from: mirrorX(to, box), to: mirrorX(from, box) };

const isSame = (a: Place, b: Place): boolean => a.line.axis === b.line.axis && a.line.at === b.line.at;

/** Missing seams with those that stand in for them: the nearest two first, of equals the first. */
function pairs(missing: readonly Place[], extra: readonly Place[]): Map<Place, Place> {
  const all = missing.flatMap((wanted) =>
    extra.flatMap((other) =>
      wanted.line.axis === other.line.axis ? [{ wanted, other, apart: Math.abs(wanted.line.at - other.line.at) }] : [],
    ),
  );
  const paired = new Map<Place, Place>();
  const taken = new Set<Place>();
  for (const { wanted, other } of all.sort((a, b) => a.apart - b.apart)) {
    if (paired.has(wanted) || taken.has(other)) continue;
    paired.set(wanted, other);
    taken.add(other);
  }
  return paired;
}
