import type { Axis, Box, Side } from "../geometry/box.ts";
import type { Direction, Elevation, FillChoice, Heads } from "../model/instance.ts";
import type { FoundSection, Layout, Panel, Seam } from "../model/plan.ts";
import type { Ticks } from "../units/ticks.ts";
import { onBothSides, trapezoids } from "./geometry/region.ts";
import type { Job, JobElevation } from "./job.ts";
import { boxFrom, insidesMeet, lengthOf, rangeOn } from "./ranges.ts";

/** What of a layout tells how its sections lie. */
export type Covered = Pick<Layout, "panels" | "seams" | "sections">;

/** A section as one layout leaves it: shrunk by the fills in use, or a fill itself. */
export interface SectionView {
  readonly id: string;
  readonly box: Box;
  readonly direction: Direction | "either";
  readonly maxAcross: Ticks | null;
  readonly role: "panel" | "fill";
  readonly film: string;
  /** Whether its film meets edge to edge. */
  readonly butted: boolean;
  readonly heads: Heads;
  /** Lowest or leftmost first. */
  readonly panels: readonly Panel[];
  /** The axis it is split along, by its panels; null without panels. */
  readonly splitAxis: Axis | null;
}

/** A fill in use: which choice of the job, and how deep by the plan. */
export interface FillView {
  readonly id: string;
  readonly choice: FillChoice;
  readonly depth: Ticks;
  /** Every depth that the plan's borders imply. */
  readonly statedDepths: readonly Ticks[];
}

export const sides: readonly Side[] = ["left", "right", "bottom", "top"];

export const axisOf = (side: Side): Axis => (side === "left" || side === "right" ? "x" : "y");

/** Fills that the layout's panels use on this elevation, first listed first. */
export function fillsInUse(job: JobElevation, layout: Covered): FillView[] {
  const { elevation } = job;
  const fills: FillView[] = [];
  for (const side of sides) {
    const id = `fill-${side}`;
    const panels = layout.panels.filter((panel) => panel.elevation === elevation.id && panel.section === id);
    if (panels.length === 0) continue;
    const onSide = elevation.fill.filter(({ edge }) => edge === side);
    const choice = onSide.find(({ film }) => panels.some((panel) => panel.film === film)) ?? onSide[0];
    if (choice === undefined) continue;
    const statedDepths = depthsStated(elevation, id, side, layout.seams);
    const depth = statedDepths[0] ?? depthWithoutBorder(job, side, choice, panels);
    fills.push({ id, choice, depth, statedDepths });
  }
  return fills.sort((a, b) => elevation.fill.indexOf(a.choice) - elevation.fill.indexOf(b.choice));
}

function depthsStated(elevation: Elevation, id: string, side: Side, seams: readonly Seam[]): Ticks[] {
  const own = seams.filter(
    (seam) =>
      seam.elevation === elevation.id &&
      seam.section === null &&
      seam.axis === axisOf(side) &&
      seam.between.includes(id),
  );
  return [...new Set(own.map(({ at }) => depthAt(elevation.box, side, at)))];
}

function depthAt(box: Box, side: Side, at: Ticks): Ticks {
  if (side === "left") return at - box.x0;
  if (side === "right") return box.x1 - at;
  return side === "bottom" ? at - box.y0 : box.y1 - at;
}

/**
 * A fill whose border has no film on both sides states its depth nowhere: it ends anywhere in the bare band that its
 * windows reach. The deepest such place is taken; without one, the greatest depth, and the missing border is reported.
 */
function depthWithoutBorder(job: JobElevation, side: Side, choice: FillChoice, panels: readonly Panel[]): Ticks {
  const { box } = job.elevation;
  const axis = axisOf(side);
  const inner = (panel: Panel): Ticks => {
    const { from, to } = rangeOn(axis, panel.window);
    return depthAt(box, side, side === "left" || side === "bottom" ? to : from);
  };
  const reach = Math.max(...panels.map(inner));
  const across = rangeOn(axis === "x" ? "y" : "x", box);
  const corners = trapezoids(job.needed, axis, box).flatMap(({ from, to }) => [from, to]);
  const candidates = [choice.maxDepth, ...corners.map((place) => depthAt(box, side, place))]
    .filter((depth) => depth > 0 && depth <= choice.maxDepth && Number.isInteger(depth))
    .filter((depth) => {
      const at = side === "left" || side === "bottom" ? rangeOn(axis, box).from + depth : rangeOn(axis, box).to - depth;
      return onBothSides(job.needed, axis, at, across.from, across.to).length === 0;
    })
    .sort((a, b) => a - b);
  return candidates.findLast((depth) => depth <= reach) ?? candidates[0] ?? choice.maxDepth;
}

/** Sections that the layout has found for an elevation; none where those given stand. */
export const foundFor = (elevation: Elevation, layout: Covered): readonly FoundSection[] =>
  (layout.sections ?? []).filter((section) => section.elevation === elevation.id);

type Base = Pick<SectionView, "id" | "box" | "direction" | "maxAcross" | "heads">;

/** The sections that the layout goes by: those found, else those given. */
export function sectionsGoneBy(elevation: Elevation, layout: Covered): readonly Base[] {
  const found = foundFor(elevation, layout);
  if (found.length === 0) return elevation.sections;
  return found.map(({ id, box, direction }) => ({
    id,
    box,
    direction,
    maxAcross: narrowest(elevation, box),
    heads: elevation.heads,
  }));
}

/** The least width that the given sections under a found one allow. */
function narrowest(elevation: Elevation, box: Box): Ticks | null {
  const limits = elevation.sections
    .filter((section) => insidesMeet(section.box, box))
    .flatMap(({ maxAcross }) => maxAcross ?? []);
  return limits.length === 0 ? null : Math.min(...limits);
}

/**
 * The sections of an elevation in one layout, the job's own or those found first, then the fills. A box may come out
 * without size: a check reports it.
 */
export function sectionsWithFills(
  job: Pick<Job, "films">,
  elevation: Elevation,
  layout: Covered,
  fills: readonly FillView[],
): SectionView[] {
  const rest = { ...elevation.box };
  const covered = (base: Base, role: SectionView["role"], film: string): SectionView => {
    const panels = panelsOf(elevation, layout, base.id);
    const butted = job.films.get(film)?.joint === "butted";
    const { id, box, direction, maxAcross, heads } = base;
    return { id, box, direction, maxAcross, heads, role, film, butted, panels, splitAxis: splitAxisOf(panels) };
  };
  const fillSections = fills.map(({ id, choice, depth }): SectionView => {
    const { from, to } = rangeOn(axisOf(choice.edge), rest);
    const strip =
      choice.edge === "left" || choice.edge === "bottom" ? { from, to: from + depth } : { from: to - depth, to };
    const box = boxFrom(axisOf(choice.edge), strip, rangeOn(axisOf(choice.edge) === "x" ? "y" : "x", rest));
    if (choice.edge === "left") rest.x0 += depth;
    if (choice.edge === "right") rest.x1 -= depth;
    if (choice.edge === "bottom") rest.y0 += depth;
    if (choice.edge === "top") rest.y1 -= depth;
    return covered({ id, box, direction: "either", maxAcross: null, heads: elevation.heads }, "fill", choice.film);
  });
  const own = sectionsGoneBy(elevation, layout).map((section) => {
    const left = {
      x0: Math.max(section.box.x0, rest.x0),
      y0: Math.max(section.box.y0, rest.y0),
      x1: Math.min(section.box.x1, rest.x1),
      y1: Math.min(section.box.y1, rest.y1),
    };
    return covered({ ...section, box: left }, "panel", elevation.film);
  });
  return [...own, ...fillSections];
}

const splitAxisOf = (panels: readonly Panel[]): Axis | null =>
  panels[0] === undefined ? null : panels[0].direction === "vertical" ? "x" : "y";

function panelsOf(elevation: Elevation, layout: Covered, section: string): Panel[] {
  const panels = layout.panels.filter((panel) => panel.elevation === elevation.id && panel.section === section);
  const axis = splitAxisOf(panels) ?? "x";
  const middle = (panel: Panel): number => {
    const { from, to } = rangeOn(axis, panel.window);
    return from + to;
  };
  return panels.sort((a, b) => middle(a) - middle(b));
}

export const hasSize = (box: Box): boolean => lengthOf(rangeOn("x", box)) > 0 && lengthOf(rangeOn("y", box)) > 0;

/** The section of that id in a mirror: what lies along the left lies along the right there. */
export function mirroredSection(id: string): string {
  if (id === "fill-left") return "fill-right";
  return id === "fill-right" ? "fill-left" : id;
}
