import { mirrorBox } from "../geometry/box.ts";
import type { Covering, PanellingLimits } from "../model/covering.ts";
import type { Direction, Elevation, Instance, Section } from "../model/instance.ts";
import type { FoundSection, Seam, SeamKind } from "../model/plan.ts";
import type { Problem } from "../model/problem.ts";
import type { Run } from "../model/run.ts";
import { TICKS_PER, type Unit } from "../units/ticks.ts";
import { atMost } from "./combineSections.ts";
import { coverGroup } from "./coverGroup.ts";
import { findPartings, MOST_LINES } from "./foundSections.ts";
import { type KnownSplits, knownSplits } from "./group.ts";
import { groupMembers } from "./members.ts";

/** Most coverings handed on of one parting, and of all with those of the sections given. */
const MOST_OF_ONE = 8;
const MOST_IN_ALL = 32;

/**
 * The ways to cover a group that matter: in its own sections, and in sections found along breaks and colour edges where
 * the elevation allows that. Coverings in found sections carry them.
 *
 * @returns coverings that no other equals or beats, cheapest first, at most 32, with what to know about the search; or,
 *   when there is none, why its own sections can't be covered
 */
export function coverParted(
  instance: Instance,
  source: Elevation,
  mirrors: readonly Elevation[],
  limits: PanellingLimits,
  run: Run,
  known: KnownSplits = knownSplits(),
): { coverings: readonly Covering[]; warnings: readonly string[] } | { reasons: readonly Problem[] } {
  const given = coverGroup(instance, source, mirrors, limits, run, known);
  // Parts have directions of their own, so there is nothing to find once a direction is asked for.
  if (!mayBeParted(source, mirrors) || limits.preferred !== null)
    return "reasons" in given ? given : { ...given, warnings: [] };
  const { partings, linesLeftOut } = findPartings(instance, source, mirrors, limits);
  const coverings = "reasons" in given ? [] : [...given.coverings];
  for (const { sections } of partings) {
    if (run.stop() && coverings.length > 0) break;
    const parted = partedAlong(instance, source, mirrors, sections);
    const covered = coverGroup(instance, parted.source, parted.mirrors, limits, run, known);
    if ("reasons" in covered) continue;
    for (const covering of fewOf(covered.coverings, MOST_OF_ONE)) {
      coverings.push({ ...covering, sections: foundIn(covering, parted, instance.unit) });
    }
  }
  if (coverings.length === 0) return "reasons" in given ? given : { ...given, warnings: [] };
  return { coverings: fewOf(notBeaten(coverings), MOST_IN_ALL), warnings: leftOut(source, linesLeftOut) };
}

/** The `most` cheapest, and of all the one with fewest visible seams and the one with fewest open ones, cheapest first. */
export function fewOf(coverings: readonly Covering[], most: number): Covering[] {
  const least = (value: (covering: Covering) => number) =>
    coverings.reduce((best, covering) => (value(covering) < value(best) ? covering : best));
  const kept = new Set([
    ...coverings.slice(0, most),
    least(({ measures }) => measures.visibleSeams),
    least(({ measures }) => measures.openSeamsPerCopy),
  ]);
  return coverings.filter((covering) => kept.has(covering));
}

/** Whether sections may be looked for: a hold for a section as given, of any in the group, leaves them as they are. */
const mayBeParted = (source: Elevation, mirrors: readonly Elevation[]): boolean =>
  source.findSections && [source, ...mirrors].every(({ holds }) => holds.every(({ section }) => section === null));

interface Parted {
  readonly source: Elevation;
  readonly mirrors: readonly Elevation[];
}

/** The elevations of a group with other sections in place of their own. */
export function partedAlong(
  instance: Instance,
  source: Elevation,
  mirrors: readonly Elevation[],
  sections: readonly Section[],
): Parted {
  const reflected = sections.map((section) => ({ ...section, box: mirrorBox(section.box, source.box) }));
  return {
    source: { ...source, sections },
    mirrors: groupMembers(instance, source, mirrors)
      .slice(1)
      .map(({ elevation, flipped }) => ({
        ...elevation,
        sections: flipped ? reflected : sections,
      })),
  };
}

function foundIn(covering: Covering, { source, mirrors }: Parted, unit: Unit): FoundSection[] {
  return [source, ...mirrors].flatMap((elevation) => {
    const seams = covering.seams.filter((seam) => seam.elevation === elevation.id);
    const why = whyParted(source, seams, unit);
    return elevation.sections.map(({ id, box, direction }) => ({
      elevation: elevation.id,
      id,
      box,
      direction: direction as Direction,
      why,
    }));
  });
}

const kindsInWords: Readonly<Record<SeamKind, readonly [string, string]>> = {
  break: ["seam in a gap or moulding", "seams in gaps or mouldings"],
  bodyLine: ["seam along a body line", "seams along body lines"],
  colourEdge: ["seam along a colour edge", "seams along colour edges"],
  open: ["open seam", "open seams"],
};

/** "Parted along moulding 'belt': 4 seams in gaps or mouldings, 1 open seam of 38 in". */
function whyParted(source: Elevation, seams: readonly Seam[], unit: Unit): string {
  const counted = (Object.keys(kindsInWords) as SeamKind[]).flatMap((kind) => {
    const own = seams.filter((seam) => seam.kind === kind);
    if (own.length === 0) return [];
    const length = own.reduce((sum, { from, to }) => sum + to - from, 0);
    const [one, more] = kindsInWords[kind];
    return [
      `${own.length} ${own.length === 1 ? one : more}${kind === "open" ? ` of ${inAll(own, length, unit)}` : ""}`,
    ];
  });
  if (!seams.some(({ kind }) => kind === "open")) counted.push("no open seam");
  const along = partedBy(source);
  return `${along.length > 0 ? `Parted along ${along.join(", ")}` : "In one part"}: ${counted.join(", ")}`;
}

/** To the whole unit: this is for weighing, not for cutting. */
const inAll = (seams: readonly Seam[], length: number, unit: Unit): string =>
  `${Math.round(length / TICKS_PER[unit])} ${unit}${seams.length > 1 ? " together" : ""}`;

const typesInWords = { gap: "gap", moulding: "moulding", bodyLine: "body line" } as const;

/** The features along which the sections meet, by name. */
function partedBy({ box, breaks, colourEdges, sections }: Elevation): string[] {
  const places = {
    x: new Set(sections.flatMap(({ box: { x0, x1 } }) => [x0, x1]).filter((at) => at > box.x0 && at < box.x1)),
    y: new Set(sections.flatMap(({ box: { y0, y1 } }) => [y0, y1]).filter((at) => at > box.y0 && at < box.y1)),
  };
  const named = [
    ...breaks.map(({ axis, at, id, type }) => ({ axis, at, name: `${typesInWords[type]} '${id}'` })),
    ...colourEdges.map(({ axis, at, id }) => ({ axis, at, name: `colour edge '${id}'` })),
  ];
  const told = new Map<string, string>();
  for (const { axis, at, name } of named) {
    if (places[axis].has(at) && !told.has(`${axis} ${at}`)) told.set(`${axis} ${at}`, name);
  }
  return [...told.values()];
}

function leftOut(
  { name, id }: Elevation,
  { x, y }: { readonly x: number | null; readonly y: number | null },
): string[] {
  const of = [x === null ? [] : [`${x} upright`], y === null ? [] : [`${y} level`]].flat();
  if (of.length === 0) return [];
  return [
    `Sections of ${name || id} were looked for along the ${MOST_LINES} best of its ${of.join(" and ")} breaks and colour edges`,
  ];
}

/** Those that no other equals or beats on every measure, cheapest first; of equal ones the one in sections as given. */
function notBeaten(coverings: readonly Covering[]): Covering[] {
  const sorted = coverings
    .map((covering, i) => ({ covering, i }))
    .sort((a, b) => a.covering.measures.costEstimate - b.covering.measures.costEstimate || a.i - b.i);
  const kept: Covering[] = [];
  for (const { covering } of sorted) if (!kept.some((other) => beats(other, covering))) kept.push(covering);
  return kept;
}

function beats({ measures: a }: Covering, { measures: b }: Covering): boolean {
  return (
    a.visibleSeams <= b.visibleSeams &&
    a.openSeamsPerCopy <= b.openSeamsPerCopy &&
    a.penalties <= b.penalties &&
    atMost(a.aloneArea, b.aloneArea) &&
    atMost(a.windowArea, b.windowArea) &&
    atMost(a.costEstimate, b.costEstimate)
  );
}
