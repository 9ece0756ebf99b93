import { ticksFrom, ticksTo, type Unit } from "../../core/index.ts";
import type { JobJson } from "../../shared/host.ts";
import { Hold } from "../../shared/jobFile.ts";
import type { PlanLayout } from "../../shared/planFile.ts";
import { type Entry, listIn, mirrorChain, sectionIds, titleOf } from "./entries.ts";
import { lengthWithUnit } from "./words.ts";

/**
 * What the user settles beforehand, as it stands in the job document. Exact mirrors share their windows, so what is held
 * on one of them is written to the one that the others repeat, and binds them all.
 */

/** A hold without the id that it gets in the job. Lengths in the job's unit. */
export type HoldMade = { readonly section: string | null } & (
  | { readonly kind: "seam"; readonly axis: "x" | "y"; readonly at: number }
  | { readonly kind: "noSeam"; readonly axis: "x" | "y"; readonly from: number; readonly to: number }
  | { readonly kind: "width"; readonly axis: "x" | "y"; readonly at: number; readonly width: number }
  | { readonly kind: "direction"; readonly direction: "vertical" | "horizontal" }
);

/** The elevations that share their windows, by place in the job's list; the first is the one that the others repeat. */
export interface Group {
  readonly head: number;
  readonly members: readonly number[];
}

/** A hold that binds an elevation. */
export interface HoldSeen {
  /** Where it stands in the job. */
  readonly path: string;
  /** Place of the elevation that it stands on. */
  readonly owner: number;
  /** As it lies in the view of the elevation asked for; null for what can't be read. */
  readonly hold: HoldMade | null;
}

const unitOf = (job: JobJson): Unit => (job.units === "mm" ? "mm" : "in");
const elevationsOf = (job: JobJson): Entry[] => listIn(job.elevations);

/** From an elevation up to the one whose windows it repeats: those that follow end it, as they have windows of their own. */
function upToHead(elevations: readonly Entry[], id: string): number[] {
  const chain = mirrorChain(elevations, id);
  const end = chain.findIndex((place) => elevations[place]?.mirror === "follow" || elevations[place]?.mirrorOf == null);
  return end < 0 ? chain : chain.slice(0, end + 1);
}

/** The elevations that share windows with one; null where it stands no longer in the job. */
export function groupOf(job: JobJson, elevation: string): Group | null {
  const elevations = elevationsOf(job);
  const head = upToHead(elevations, elevation).at(-1);
  if (head === undefined) return null;
  const members = elevations.flatMap(({ id }, place) =>
    upToHead(elevations, String(id)).at(-1) === head ? [place] : [],
  );
  return { head, members };
}

/** Left plus right edge of what an elevation covers, in ticks: what a place and its mirror image add up to. */
function edgeSum(job: JobJson, elevation: string): number | null {
  const elevations = elevationsOf(job);
  const outline = elevations[mirrorChain(elevations, elevation).at(-1) ?? -1]?.outline;
  const xs = Array.isArray(outline) ? outline.map((point) => (Array.isArray(point) ? point[0] : null)) : [];
  if (xs.length === 0 || !xs.every((x) => typeof x === "number")) return null;
  const ticks = xs.map((x) => ticksFrom(x, unitOf(job)));
  return Math.min(...ticks) + Math.max(...ticks);
}

/** A hold seen in a mirror: only places from left to right change. Twice over it is the same again, to the tick. */
export function reflected(hold: HoldMade, sum: number, unit: Unit): HoldMade {
  const other = (place: number): number => ticksTo(sum - ticksFrom(place, unit), unit);
  if (hold.kind === "direction" || hold.axis === "y") return hold;
  if (hold.kind === "noSeam") return { ...hold, from: other(hold.to), to: other(hold.from) };
  return { ...hold, at: other(hold.at) };
}

/** How many mirrors lie between an elevation and the head of its group. */
const mirrorsUp = (elevations: readonly Entry[], place: number): number =>
  upToHead(elevations, String(elevations[place]?.id)).length - 1;

/** Every hold that binds an elevation: those of all that share its windows, in its own view. */
export function holdsOn(job: JobJson, elevation: string): HoldSeen[] {
  const elevations = elevationsOf(job);
  const group = groupOf(job, elevation);
  const sum = edgeSum(job, elevation);
  const here = elevations.findIndex(({ id }) => id === elevation);
  if (group === null) return [];
  return group.members.flatMap((owner) =>
    listIn(elevations[owner]?.holds).map((entry, place): HoldSeen => {
      const read = Hold.safeParse(entry);
      const turned = (mirrorsUp(elevations, owner) + mirrorsUp(elevations, here)) % 2 === 1;
      const hold = !read.success
        ? null
        : !turned
          ? read.data
          : sum === null
            ? null
            : reflected(read.data, sum, unitOf(job));
      return { path: `elevations[${owner}].holds[${place}]`, owner, hold };
    }),
  );
}

/** Writes a hold, given in an elevation's own view, to the head of its group. Changes its argument, a draft. */
export function addHold(draft: JobJson, elevation: string, made: HoldMade): void {
  const elevations = elevationsOf(draft);
  const group = groupOf(draft, elevation);
  const here = elevations.findIndex(({ id }) => id === elevation);
  const head = group === null ? undefined : elevations[group.head];
  if (head === undefined) return;
  const turned = mirrorsUp(elevations, here) % 2 === 1;
  const sum = edgeSum(draft, elevation);
  if (turned && sum === null) return;
  const list = listIn(head.holds);
  const taken = list.map(({ id }) => String(id));
  let number = list.length + 1;
  while (taken.includes(`hold ${number}`)) number++;
  const hold = turned && sum !== null ? reflected(made, sum, unitOf(draft)) : made;
  head.holds = [...list, { id: `hold ${number}`, ...hold }];
}

/** Takes a hold out of the draft; a list that becomes empty goes too, so that the job is as it was before. */
export function removeHold(draft: JobJson, { path, owner }: HoldSeen): void {
  const entry = elevationsOf(draft)[owner];
  const place = Number(/\[(\d+)\]$/.exec(path)?.[1]);
  if (entry === undefined || !Array.isArray(entry.holds)) return;
  entry.holds.splice(place, 1);
  if (entry.holds.length === 0) delete entry.holds;
}

type Seam = PlanLayout["seams"][number];

/** The section that a hold on something in `section` names: none where that section was found by the search. */
export function heldSection(job: JobJson, elevation: string, section: string | null): string | null {
  return section !== null && sectionIds(elevationsOf(job), elevation).includes(section) ? section : null;
}

/** The hold that keeps a seam at its place, if there is one. */
export function holdOfSeam(job: JobJson, seam: Seam): HoldSeen | null {
  const unit = unitOf(job);
  const at = ticksFrom(seam.at, unit);
  return (
    holdsOn(job, seam.elevation).find(
      ({ hold }) =>
        hold?.kind === "seam" &&
        hold.axis === seam.axis &&
        ticksFrom(hold.at, unit) === at &&
        (hold.section === null || hold.section === seam.section),
    ) ?? null
  );
}

/** The hold that settles a panel's width, if there is one: its place lies between the panel's two edges. */
export function holdOfPanel(job: JobJson, panel: PlanLayout["panels"][number]): HoldSeen | null {
  const axis = panel.direction === "vertical" ? "x" : "y";
  const [x0, y0, x1, y1] = panel.window;
  const [low, high] = axis === "x" ? [x0, x1] : [y0, y1];
  return (
    holdsOn(job, panel.elevation).find(
      ({ hold }) =>
        hold?.kind === "width" &&
        hold.axis === axis &&
        low <= hold.at &&
        hold.at < high &&
        (hold.section === null || hold.section === panel.section),
    ) ?? null
  );
}

const lies = { x: "upright", y: "level" } as const;

/** "Upright seam at 110 1/2 in", "No level seam from 40 to 46 in". */
export function holdWords(hold: HoldMade, unit: Unit): string {
  const where = hold.section === null ? "" : `, section ${hold.section}`;
  switch (hold.kind) {
    case "seam":
      return `${hold.axis === "x" ? "Upright" : "Level"} seam at ${lengthWithUnit(hold.at, unit)}${where}`;
    case "noSeam":
      return `No ${lies[hold.axis]} seam from ${lengthWithUnit(hold.from, unit)} to ${lengthWithUnit(hold.to, unit)}${where}`;
    case "width":
      return `Panel at ${lengthWithUnit(hold.at, unit)} is ${lengthWithUnit(hold.width, unit)} across${where}`;
    case "direction":
      return `Panels run ${hold.direction}${where}`;
  }
}

/** Names of the elevations that share windows, as a sentence lists them. */
export function groupWords(job: JobJson, group: Group): string {
  const elevations = elevationsOf(job);
  const names = group.members.map((place) => titleOf(elevations[place] ?? {}, place));
  return names.length < 2 ? names.join("") : `${names.slice(0, -1).join(", ")} and ${names.at(-1)}`;
}
