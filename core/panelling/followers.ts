import { mirrorBox, mirrorX } from "../geometry/box.ts";
import type { Covering, PanellingLimits } from "../model/covering.ts";
import type { Elevation, Instance, Section } from "../model/instance.ts";
import type { FoundSection, Seam } from "../model/plan.ts";
import type { Problem } from "../model/problem.ts";
import type { Run } from "../model/run.ts";
import type { Ticks } from "../units/ticks.ts";
import { partedAlong } from "./coverParted.ts";
import { type Covered, type FollowedSection, Group, type KnownSplits, knownSplits } from "./group.ts";
import { splitAxis } from "./orientation.ts";
import { effectiveSections, mirroredSide, type UsedFill } from "./sections.ts";

/**
 * Covers an elevation that follows another, and all that repeat it, with as few differences from the other as its own
 * features allow, then as cheaply.
 *
 * @param follower the elevation; its geometry is that of `follower.mirrorOf` reflected, its features its own
 * @param mirrors all that repeat it exactly, directly or through one another
 * @param leader the covering chosen for the group that `follower.mirrorOf` lies in
 * @param known what earlier calls for the same group worked out, added to by this one
 * @returns one covering whose source is the follower; or the reasons why there is none
 *
 * A difference is what `differencesOf` lists: a section split along the other axis, a seam where the other has none, a
 * seam of the other that is missing. First it keeps the fills of the other at their depths and its axes, section by
 * section, where there is any split along them; fills are chosen freely only where those can't be had at all. So chosen,
 * each section is split with the fewest differences exactly over its candidates (those of `seamCandidates` and the places
 * of the other), and of these splits the cheapest ones are exact as `splitSection` says; slivers are shared out only where
 * that adds no difference. Sections together are exact as `combineSections` says. Found sections of the other are used
 * reflected. Ties as there. Same input, same output.
 */
export function coverFollower(
  instance: Instance,
  follower: Elevation,
  mirrors: readonly Elevation[],
  leader: Covering,
  limits: PanellingLimits,
  run: Run,
  known: KnownSplits = knownSplits(),
): { covering: Covering } | { reasons: readonly Problem[] } {
  const found = reflectedSections(follower, leader);
  const strayHold = found === null ? null : holdOnLostSection(instance, [follower, ...mirrors], found);
  if (strayHold !== null) return { reasons: [strayHold] };
  const parted = found === null ? { source: follower, mirrors } : partedAlong(instance, follower, mirrors, found);
  const alike = fillsOf(follower, leader);
  const groups = [true, false].map((binds) => {
    const follows = followedSections(follower, leader, binds);
    return { follows, group: new Group(instance, parted.source, parted.mirrors, limits, known, { follows }) };
  });
  const [bound, free] = groups as [(typeof groups)[number], (typeof groups)[number]];
  for (const every of [false, true]) {
    for (const ways of [alike === null ? [] : [alike], bound.group.fillWays()]) {
      for (const { follows, group } of [bound, free]) {
        const best = leastApart(every ? group.asking({ every }) : group, parted.source, follows, ways, run);
        if (best === null) continue;
        const covering = group.record(best);
        return {
          covering: found === null ? covering : { ...covering, sections: recordedAs(parted, leader, follower) },
        };
      }
    }
  }
  return { reasons: free.group.reasons(run) };
}

/** How each section that has panels is split on the followed elevation, in the follower's frame and names. */
function followedSections(
  { box, mirrorOf }: Elevation,
  leader: Covering,
  binds: boolean,
): Map<string, FollowedSection> {
  const followed = new Map<string, FollowedSection & { readonly places: Ticks[] }>();
  for (const { elevation, section, direction } of leader.panels) {
    if (elevation === mirrorOf) followed.set(mirroredId(section), { axis: splitAxis(direction), places: [], binds });
  }
  for (const { elevation, section, axis, at } of leader.seams) {
    if (elevation !== mirrorOf || section === null) continue;
    followed.get(mirroredId(section))?.places.push(axis === "x" ? mirrorX(at, box) : at);
  }
  for (const { places } of followed.values()) places.sort((a, b) => a - b);
  return followed;
}

/** The id of a section seen reflected: fills change sides, others keep theirs. */
export const mirroredId = (section: string): string =>
  section.startsWith("fill-") ? `fill-${mirroredSide(section.slice("fill-".length) as "left")}` : section;

/** The fills of the followed elevation reflected, in the follower's order; null where their depths can't be told. */
function fillsOf({ fill, box, mirrorOf }: Elevation, leader: Covering): UsedFill[] | null {
  const used = new Set(
    leader.panels.flatMap(({ elevation, role, section }) => (elevation === mirrorOf && role === "fill" ? section : [])),
  );
  const fills = fill.flatMap((choice): UsedFill[] => {
    const section = `fill-${mirroredSide(choice.edge)}`;
    if (!used.has(section)) return [];
    const border = leader.seams.find((seam) => seam.elevation === mirrorOf && isBorderOf(seam, section));
    if (border === undefined) return [];
    const at = border.axis === "x" ? mirrorX(border.at, box) : border.at;
    const depths = { left: at - box.x0, right: box.x1 - at, bottom: at - box.y0, top: box.y1 - at };
    return [{ choice, depth: depths[choice.edge] }];
  });
  return fills.length === used.size ? fills : null;
}

/** Whether a seam is the border between a fill and what lies beside it, and not between two fills. */
function isBorderOf({ border, between, axis }: Seam, fill: string): boolean {
  const across = fill === "fill-left" || fill === "fill-right" ? "x" : "y";
  return border && axis === across && between.includes(fill);
}

function leastApart(
  group: Group,
  source: Elevation,
  follows: ReadonlyMap<string, FollowedSection>,
  ways: readonly (readonly UsedFill[])[],
  run: Run,
): Covered | null {
  let best: { covered: Covered; apart: number; cost: number } | null = null;
  for (const fills of ways) {
    if (run.stop() && best !== null) break;
    const ids = new Set(effectiveSections(source, fills)?.map(({ id }) => id));
    const gone = [...follows].reduce((sum, [id, { places }]) => sum + (ids.has(id) ? 0 : places.length), 0);
    for (const covered of group.cover(fills)) {
      const apart = covered.apart + gone;
      const cost = group.costOf(covered);
      if (best !== null && (apart > best.apart || (apart === best.apart && cost >= best.cost))) continue;
      best = { covered, apart, cost };
    }
  }
  return best?.covered ?? null;
}

/** The found sections of the followed elevation, reflected; null where it uses those given. */
function reflectedSections(follower: Elevation, { sections }: Covering): Section[] | null {
  const own = sections?.filter(({ elevation }) => elevation === follower.mirrorOf) ?? [];
  if (own.length === 0) return null;
  return own.map(({ id, box, direction }) => {
    const reflected = mirrorBox(box, follower.box);
    const widest = follower.sections.flatMap((given) => {
      const apart =
        given.box.x1 <= reflected.x0 ||
        given.box.x0 >= reflected.x1 ||
        given.box.y1 <= reflected.y0 ||
        given.box.y0 >= reflected.y1;
      return apart || given.maxAcross === null ? [] : [given.maxAcross];
    });
    const maxAcross = widest.length === 0 ? null : Math.min(...widest);
    return { id, box: reflected, direction, maxAcross, heads: follower.heads };
  });
}

/** A hold of a section that sections found elsewhere leave without a place. */
function holdOnLostSection(
  { elevations }: Instance,
  members: readonly Elevation[],
  found: readonly Section[],
): Problem | null {
  for (const member of members) {
    const hold = member.holds.find(({ section }) => section !== null && !found.some(({ id }) => id === section));
    if (hold === undefined) continue;
    return {
      path: `elevations[${elevations.findIndex(({ id }) => id === member.id)}].holds`,
      value: [hold.id],
      why: `Hold '${hold.id}' is for section '${hold.section}', but elevation '${member.name || member.id}' follows another that is parted along its breaks and has other sections.`,
      mend: "Let the hold name no section, or look for no sections on the elevation that is followed.",
    };
  }
  return null;
}

function recordedAs(
  { source, mirrors }: { readonly source: Elevation; readonly mirrors: readonly Elevation[] },
  leader: Covering,
  { mirrorOf }: Elevation,
): FoundSection[] {
  const why = leader.sections?.find(({ elevation }) => elevation === mirrorOf)?.why ?? "";
  return [source, ...mirrors].flatMap(({ id: elevation, sections }) =>
    sections.map(({ id, box, direction }) => ({
      elevation,
      id,
      box,
      direction: direction === "either" ? "vertical" : direction,
      why: `As on the other side, reflected. There: ${why}`,
    })),
  );
}
