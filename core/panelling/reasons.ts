import type { Problem } from "../model/problem.ts";
import { TICKS_PER, type Ticks, type Unit } from "../units/ticks.ts";
import { directionOf, toSpan } from "./orientation.ts";
import { forbiddingZone } from "./seamCandidates.ts";
import type { SectionTask } from "./sectionTask.ts";
import { type SplitNode, splitNodes } from "./splitNodes.ts";
import { forEachPanel } from "./splitSection.ts";
import { windowBetween } from "./windows.ts";

/** A length as a shop says it: in the unit of the job, to a thousandth. */
export const inWords = (ticks: Ticks, unit: Unit): string =>
  `${Math.round((ticks / TICKS_PER[unit]) * 1000) / 1000} ${unit}`;

/** Where a section stands in the job and on which film it is printed. */
export interface Place {
  readonly path: string;
  readonly elevation: string;
  readonly film: string;
  readonly unit: Unit;
}

/**
 * Why a section cannot be split along one axis, found by following every panel that may stand from the section's
 * beginning: the place beyond which none leads on is where the reason lies.
 *
 * @returns the reasons, the telling one first; empty when a split exists
 */
export function whyNoSplit(task: SectionTask, place: Place): Problem[] {
  const { maxAcross, section, axis } = task;
  const { unit, film } = place;
  const input = splitNodes(task);
  const { nodes } = input;
  const direction = directionOf(axis);
  const other = direction === "vertical" ? "horizontal" : "vertical";
  const who = `Section '${section.id}' of elevation '${place.elevation}'`;
  if (maxAcross <= 0) {
    return [
      {
        path: place.path,
        value: maxAcross / TICKS_PER[unit],
        why: `${who} finds no roll of film '${film}' with any printable width.`,
        mend: "Give the film a wider roll, a smaller edge margin or a wider laminate.",
      },
    ];
  }
  const reached = reachedFrom(input);
  const stuck = reached.lastIndexOf(true);
  if (stuck === nodes.length - 1) return [];
  // Whether length alone stops it: with no limit along the roll, does the same search get through?
  const unlimited = reachedFrom({ ...input, task: { ...task, maxAlong: Infinity } });
  if (unlimited.at(-1) === true) return [tooLong(task, place, who, other)];
  const furthest = unlimited.lastIndexOf(true);
  const from = nodes[furthest] as SplitNode;
  return [blockedAfter(task, place, who, other, from)];
}

/** By node: whether a row of panels leads there from the beginning. */
function reachedFrom(input: ReturnType<typeof splitNodes>): boolean[] {
  const reached = input.nodes.map((_, i) => i === 0);
  forEachPanel(input, (i, j) => {
    if (reached[i] === true) reached[j] = true;
  });
  return reached;
}

function tooLong(task: SectionTask, { path, unit, film }: Place, who: string, other: string): Problem {
  const { along } = windowBetween(task, task.span.u0, task.span.u1);
  return {
    path,
    value: along / TICKS_PER[unit],
    why: `${who} needs ${directionOf(task.axis)} panels up to ${inWords(along, unit)} long, but one load of film '${film}' holds at most ${inWords(task.maxAlong, unit)}.`,
    mend: `Use a longer roll or allow a longer load, run the panels ${other}, or divide the section.`,
  };
}

/** Names what lies in the stretch behind `from` that no panel of this width gets across. */
function blockedAfter(task: SectionTask, place: Place, who: string, other: string, from: SplitNode): Problem {
  const { unit, film } = place;
  const { maxAcross, span, grid } = task;
  const across = inWords(maxAcross, unit);
  const reachEnd = from.lo + maxAcross;
  const blocked = new Map<string, { zone: NonNullable<ReturnType<typeof forbiddingZone>>; places: number }>();
  for (let at = Math.floor(Math.min(reachEnd, span.u1 - 1) / grid) * grid; at > from.at; at -= grid) {
    const zone = forbiddingZone(task, at);
    if (zone === null) continue;
    const known = blocked.get(zone.path);
    if (known === undefined) blocked.set(zone.path, { zone, places: 1 });
    else known.places++;
  }
  const widest = [...blocked.values()].sort((a, b) => b.places - a.places)[0];
  if (widest === undefined) {
    return {
      path: place.path,
      value: maxAcross / TICKS_PER[unit],
      why: `${who} has no place for a ${directionOf(task.axis)} seam within ${across} of ${inWords(from.at, unit)}: a panel of film '${film}' is at most ${across} wide, its overlaps and bleed included.`,
      mend: `Use a wider roll, a smaller overlap, or run the panels ${other}.`,
    };
  }
  const { zone } = widest;
  const { u0, u1 } = toSpan(zone.box, task.axis);
  const width = inWords(u1 - u0, unit);
  const label = zone.path.includes(".keepClear[") ? `Lettering '${zone.label}'` : `Obstacle '${zone.label}'`;
  const why =
    u1 - u0 > maxAcross
      ? `${label} is ${width} wide and must stay whole, but a panel of film '${film}' is at most ${across} wide.`
      : `${label} (${width} wide) and what lies beside it leave no place for a ${directionOf(task.axis)} seam in section '${section(task)}': a panel of film '${film}' that begins at ${inWords(from.lo, unit)} ends by ${inWords(reachEnd, unit)}.`;
  return {
    path: zone.path,
    value: (u1 - u0) / TICKS_PER[unit],
    why,
    mend: `Use a wider roll, set its rule to "avoid" instead of "never", or run the panels ${other}.`,
  };
}

const section = (task: SectionTask): string => task.section.id;

/** A border that runs through a zone no seam may meet. */
export function borderBlocked(
  zone: { readonly label: string; readonly path: string },
  between: readonly [string, string],
  elevation: string,
): Problem {
  return {
    path: zone.path,
    value: zone.label,
    why: `The border between sections '${between[0]}' and '${between[1]}' of elevation '${elevation}' runs through '${zone.label}', which must stay whole.`,
    mend: 'Move the border between the sections, or set the rule of this zone to "avoid" instead of "never".',
  };
}

/** The limit on open seams leaves no split. */
export function tooManyOpenSeams(path: string, elevation: string, least: number, allowed: number): Problem {
  return {
    path,
    value: allowed,
    why: `Elevation '${elevation}' needs at least ${least} open seams on this film, but the rules allow ${allowed} on a copy.`,
    mend: "Allow more open seams, use a wider roll, or add breaks and colour edges along which seams can hide.",
  };
}
