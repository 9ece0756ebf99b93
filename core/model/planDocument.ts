import { PlanFile, type PlanLayout } from "../../shared/planFile.ts";
import type { Box } from "../geometry/box.ts";
import { TICKS_PER, type Ticks, ticksFrom, ticksTo, type Unit } from "../units/ticks.ts";
import type { Layout, Load, Panel, Plan, Seam, Slack } from "./plan.ts";
import { layoutPartsFromFile, layoutPartsToFile, shortfallsWith } from "./planDocumentLater.ts";
import { prettyJson } from "./prettyJson.ts";
import type { Problem } from "./problem.ts";
import { pathOf, shown } from "./problemLog.ts";
import { schemaProblems } from "./schemaProblems.ts";

/**
 * A plan as its file: lengths in the job's unit, keys always in the same order.
 *
 * Exact: `planFromFile` gives back the same plan. A flag or slack at its default is left out.
 */
export function planToFile(plan: Plan): PlanFile {
  const to = (ticks: Ticks): number => ticksTo(ticks, plan.unit);
  return {
    format: "lapwright-plan",
    version: 1,
    jobName: plan.jobName,
    units: plan.unit,
    seed: plan.seed,
    layouts: plan.layouts.map((layout) => layoutToFile(layout, to)),
    frontier: [...plan.frontier],
    chosen: plan.chosen,
    ...(plan.shortfalls && { shortfalls: shortfallsWith(plan.shortfalls, to) }),
  };
}

function layoutToFile(layout: Layout, to: (ticks: Ticks) => number): PlanLayout {
  const { totals, wasteBy, bound } = layout;
  return {
    id: layout.id,
    rollWidth: layout.rollWidth === null ? null : to(layout.rollWidth),
    nesting: layout.nesting,
    panels: layout.panels.map(({ id, elevation, section, role, film, direction, window, across, along, slack }) => ({
      id,
      elevation,
      section,
      role,
      film,
      direction,
      window: [to(window.x0), to(window.y0), to(window.x1), to(window.y1)],
      across: to(across),
      along: to(along),
      slack:
        slack === null
          ? null
          : { left: to(slack.left), right: to(slack.right), down: to(slack.down), up: to(slack.up) },
    })),
    seams: layout.seams.map((seam) => ({
      id: seam.id,
      elevation: seam.elevation,
      section: seam.section,
      axis: seam.axis,
      at: to(seam.at),
      from: to(seam.from),
      to: to(seam.to),
      kind: seam.kind,
      overlap: to(seam.overlap),
      finishedOverlap: to(seam.finishedOverlap),
      between: [seam.between[0], seam.between[1]],
      top: seam.top,
      border: seam.border,
      ...(seam.why === undefined ? {} : { why: seam.why }),
    })),
    rolls: layout.rolls.map(({ id, stock, film, lot, width, used, leaves, keep, cuts }) => ({
      id,
      stock,
      film,
      lot,
      width: to(width),
      used: to(used),
      ...(leaves === undefined ? {} : { leaves: leaves === null ? null : to(leaves) }),
      ...(keep === undefined ? {} : { keep }),
      cuts: cuts.map(({ start, length, pieces }) => ({
        start: to(start),
        length: to(length),
        pieces: pieces.map((piece) => ({
          id: piece.id,
          copy: piece.copy,
          x: to(piece.x),
          y: to(piece.y),
          across: to(piece.across),
          along: to(piece.along),
          turn: piece.turn,
        })),
      })),
    })),
    printOrder: [...layout.printOrder],
    applyOrder: layout.applyOrder.map(({ panel, why }) => ({ panel, why })),
    totals: {
      filmLength: to(totals.filmLength),
      filmArea: totals.filmArea,
      neededArea: totals.neededArea,
      wastePercent: totals.wastePercent,
      panelCount: totals.panelCount,
      openSeams: totals.openSeams,
      bodyLineSeams: totals.bodyLineSeams,
      colourEdgeSeams: totals.colourEdgeSeams,
      breakSeams: totals.breakSeams,
      visibleSeamLength: to(totals.visibleSeamLength),
      ...(totals.weightedSeamLength === undefined ? {} : { weightedSeamLength: to(totals.weightedSeamLength) }),
      cost: {
        film: totals.cost.film,
        laminate: totals.cost.laminate,
        ink: totals.cost.ink,
        seams: totals.cost.seams,
        panels: totals.cost.panels,
        total: totals.cost.total,
      },
    },
    wasteBy: {
      edgeMargin: wasteBy.edgeMargin,
      leaderTrailer: wasteBy.leaderTrailer,
      overlap: wasteBy.overlap,
      bleed: wasteBy.bleed,
      openings: wasteBy.openings,
      gapsAndVoids: wasteBy.gapsAndVoids,
    },
    bound: {
      cost: bound.cost,
      filmArea: bound.filmArea,
      gapPercent: bound.gapPercent,
      proven: bound.proven,
      by: bound.by,
    },
    warnings: [...layout.warnings],
    ...layoutPartsToFile(layout, to),
  };
}

/** A plan from its file: lengths to the nearest tick, keys that this version does not know left out. */
export function planFromFile(file: PlanFile): Plan {
  const from = (value: number): Ticks => ticksFrom(value, file.units);
  return {
    jobName: file.jobName,
    unit: file.units,
    seed: file.seed,
    layouts: file.layouts.map((layout) => layoutFromFile(layout, from)),
    frontier: file.frontier,
    chosen: file.chosen,
    ...(file.shortfalls && { shortfalls: shortfallsWith(file.shortfalls, from) }),
  };
}

type FilePanel = PlanLayout["panels"][number];

function layoutFromFile(layout: PlanLayout, from: (value: number) => Ticks): Layout {
  const { totals, wasteBy, bound } = layout;
  const box = ([x0, y0, x1, y1]: FilePanel["window"]): Box => ({
    x0: from(x0),
    y0: from(y0),
    x1: from(x1),
    y1: from(y1),
  });
  const slackOf = ({ left, right, down, up }: NonNullable<FilePanel["slack"]>): Slack => ({
    left: from(left),
    right: from(right),
    down: from(down),
    up: from(up),
  });
  return {
    id: layout.id,
    rollWidth: layout.rollWidth === null ? null : from(layout.rollWidth),
    nesting: layout.nesting,
    panels: layout.panels.map(
      (panel): Panel => ({
        id: panel.id,
        elevation: panel.elevation,
        section: panel.section,
        role: panel.role,
        film: panel.film,
        direction: panel.direction,
        window: box(panel.window),
        across: from(panel.across),
        along: from(panel.along),
        slack: panel.slack === null ? null : slackOf(panel.slack),
      }),
    ),
    seams: layout.seams.map(
      (seam): Seam => ({
        id: seam.id,
        elevation: seam.elevation,
        section: seam.section,
        axis: seam.axis,
        at: from(seam.at),
        from: from(seam.from),
        to: from(seam.to),
        kind: seam.kind,
        overlap: from(seam.overlap),
        finishedOverlap: from(seam.finishedOverlap),
        between: seam.between,
        top: seam.top,
        border: seam.border,
        ...(seam.why === undefined ? {} : { why: seam.why }),
      }),
    ),
    rolls: layout.rolls.map(
      (roll): Load => ({
        id: roll.id,
        stock: roll.stock,
        film: roll.film,
        lot: roll.lot,
        width: from(roll.width),
        used: from(roll.used),
        ...(roll.leaves === undefined ? {} : { leaves: roll.leaves === null ? null : from(roll.leaves) }),
        ...(roll.keep === undefined ? {} : { keep: roll.keep }),
        cuts: roll.cuts.map(({ start, length, pieces }) => ({
          start: from(start),
          length: from(length),
          pieces: pieces.map(({ id, copy, x, y, across, along, turn }) => ({
            id,
            copy,
            x: from(x),
            y: from(y),
            across: from(across),
            along: from(along),
            turn,
          })),
        })),
      }),
    ),
    printOrder: layout.printOrder,
    applyOrder: layout.applyOrder.map(({ panel, why }) => ({ panel, why })),
    totals: {
      filmLength: from(totals.filmLength),
      filmArea: totals.filmArea,
      neededArea: totals.neededArea,
      wastePercent: totals.wastePercent,
      panelCount: totals.panelCount,
      openSeams: totals.openSeams,
      bodyLineSeams: totals.bodyLineSeams,
      colourEdgeSeams: totals.colourEdgeSeams,
      breakSeams: totals.breakSeams,
      visibleSeamLength: from(totals.visibleSeamLength),
      ...(totals.weightedSeamLength === undefined ? {} : { weightedSeamLength: from(totals.weightedSeamLength) }),
      cost: {
        film: totals.cost.film,
        laminate: totals.cost.laminate,
        ink: totals.cost.ink,
        seams: totals.cost.seams,
        panels: totals.cost.panels,
        total: totals.cost.total,
      },
    },
    wasteBy: {
      edgeMargin: wasteBy.edgeMargin,
      leaderTrailer: wasteBy.leaderTrailer,
      overlap: wasteBy.overlap,
      bleed: wasteBy.bleed,
      openings: wasteBy.openings,
      gapsAndVoids: wasteBy.gapsAndVoids,
    },
    bound: {
      cost: bound.cost,
      filmArea: bound.filmArea,
      gapPercent: bound.gapPercent,
      proven: bound.proven,
      by: bound.by,
    },
    warnings: layout.warnings,
    ...layoutPartsFromFile(layout, from),
  };
}

export interface PlanReading {
  readonly plan: Plan | null;
  readonly problems: Problem[];
}

/**
 * Reads a plan document. What it claims is not judged here; the verifier does that.
 *
 * @param data parsed JSON
 * @returns the plan, or null with every problem of the document
 */
export function readPlan(data: unknown): PlanReading {
  const wrong = notAPlan(data);
  if (wrong) return { plan: null, problems: [wrong] };
  const parsed = PlanFile.safeParse(data);
  if (!parsed.success) return { plan: null, problems: schemaProblems(PlanFile, data, parsed.error.issues, "plan") };
  const problems = tooFar(parsed.data, parsed.data.units);
  return problems.length > 0 ? { plan: null, problems } : { plan: planFromFile(parsed.data), problems };
}

function notAPlan(data: unknown): Problem | null {
  const mend = "Open a Lapwright plan file.";
  if (typeof data !== "object" || data === null || Array.isArray(data)) {
    return { path: "plan", value: shown(data), why: "This is not a plan: it is not a group of named values.", mend };
  }
  const { format, version } = data as Record<string, unknown>;
  if (format === "lapwright-job") return { path: "format", value: format, why: "This is a job, not a plan.", mend };
  if (format !== undefined && format !== "lapwright-plan") {
    return { path: "format", value: shown(format), why: "This file is not a Lapwright plan.", mend };
  }
  if (typeof version === "number" && version > 1) {
    const why = `The plan is of version ${version}; this program reads version 1.`;
    return { path: "version", value: version, why, mend: "Open it with a newer Lapwright." };
  }
  return null;
}

/** Lengths too large to be whole ticks in a double. A roll is never a hundredth as long. */
function tooFar(file: PlanFile, unit: Unit): Problem[] {
  const farthest = Number.MAX_SAFE_INTEGER / TICKS_PER[unit];
  const problems: Problem[] = [];
  const walk = (value: unknown, place: (string | number)[]): void => {
    if (typeof value === "number" && Math.abs(value) > farthest) {
      const why = "This number is larger than any length can be.";
      problems.push({ path: pathOf(place, "plan"), value: shown(value), why, mend: "Make the plan again." });
    } else if (Array.isArray(value)) value.forEach((inner, index) => void walk(inner, [...place, index]));
    else if (typeof value === "object" && value !== null) {
      for (const [key, inner] of Object.entries(value)) if (!unmeasured.has(key)) walk(inner, [...place, key]);
    }
  };
  walk(file.layouts, ["layouts"]);
  return problems;
}

/** Areas, money and counts, which are doubles and no lengths. */
const unmeasured = new Set(["totals", "wasteBy", "bound", "copy"]);

/** The plan file's text: the same bytes for the same plan, a final newline. */
export const planText = (plan: Plan): string => prettyJson(planToFile(plan));
