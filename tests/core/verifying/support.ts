import { readFileSync } from "node:fs";
import { measureLayout } from "../../../core/costing/measureLayout.ts";
import { neededRegion } from "../../../core/geometry/region.ts";
import { buildInstance } from "../../../core/model/buildInstance.ts";
import type { Instance } from "../../../core/model/instance.ts";
import type { Layout, Plan } from "../../../core/model/plan.ts";
import { readPlan } from "../../../core/model/planDocument.ts";
import { readJob } from "../../../core/model/readJob.ts";
import type { Violation } from "../../../core/model/violation.ts";
import { verifyPlan } from "../../../core/verifying/verifyPlan.ts";

/** The text of a file of tests/data. */
const dataText = (name: string): string => readFileSync(new URL(`../../data/${name}`, import.meta.url), "utf8");

/** A fresh copy of the job worked out by hand, and of its plan, as their files hold them. */
// biome-ignore lint/suspicious/noExplicitAny: the tests change single fields of plain documents.
export type Document = any;
export const boothJob = (): Document => JSON.parse(dataText("puppet-booth.job.json"));
export const boothPlan = (): Document => JSON.parse(dataText("puppet-booth.plan.json"));

/** The instance of a job document; fails the test with the problems of a bad one. */
export function instanceOf(document: Document): Instance {
  const reading = readJob(document);
  if (reading.job === null) throw new Error(JSON.stringify(reading.problems));
  const built = buildInstance(reading.job);
  if ("problems" in built) throw new Error(JSON.stringify(built.problems));
  return built.instance;
}

/** The plan of a plan document; fails the test with the problems of a bad one. */
export function planOf(document: Document): Plan {
  const reading = readPlan(document);
  if (reading.plan === null) throw new Error(JSON.stringify(reading.problems));
  return reading.plan;
}

export const verified = (job: Document, plan: Document): Violation[] => verifyPlan(instanceOf(job), planOf(plan));

/** Rules broken, each once, in order of the alphabet. */
export const rulesBroken = (violations: readonly Violation[]): string[] =>
  [...new Set(violations.map(({ rule }) => rule))].sort();

/** A small job in inches: bleed 1, overlap 1, trim 4, cut gap 0.5, one film 60 wide without margin, all else plain. */
export function smallJob(elevations: Document[], more: Document = {}): Document {
  return {
    format: "lapwright-job",
    version: 1,
    name: "Bakery trailer",
    units: "in",
    elevations,
    films: [{ id: "f", rollWidths: [60], pricePerArea: 0.01, lay: "two-way" }],
    ...more,
    rules: {
      bleed: 1,
      overlap: 1,
      colourEdgeOverlap: 0.25,
      trimOverlap: 4,
      cutGap: 0.5,
      leader: 10,
      trailer: 5,
      seamPricePerLength: 0.1,
      avoidPenalty: 3,
      panelPrice: 2,
      ...more.rules,
    },
  };
}

export const rectangle = (x0: number, y0: number, x1: number, y1: number): number[][] => [
  [x0, y0],
  [x1, y0],
  [x1, y1],
  [x0, y1],
];

/** What a plan is drafted from: windows and seams by hand, in the job's unit; the rest is filled in. */
export interface Draft {
  readonly panels: readonly {
    readonly id: string;
    readonly elevation?: string;
    readonly section?: string;
    readonly direction?: "vertical" | "horizontal";
    readonly film?: string;
    readonly window: readonly [number, number, number, number];
    readonly slack?: Document;
  }[];
  /** `between` and `top` by panel ids, or by section ids at a border. */
  readonly seams?: readonly Document[];
  /** Pairs of seam and avoided zone, all copies, counted by hand. */
  readonly penalties?: number;
  /** Rolls by hand; else every film's pieces one to a cut on one new roll of its first width. */
  readonly rolls?: readonly Document[];
  readonly nesting?: "crosscut" | "free";
  readonly rollWidth?: number | null;
  readonly applyOrder?: readonly string[];
  readonly warnings?: readonly string[];
  /** Further parts of the layout, and of the plan, as their file holds them. */
  readonly parts?: Document;
  readonly planParts?: Document;
}

/** A whole plan from a draft, its totals worked out by the costing code, which shares nothing with the verifier. */
export function drafted(job: Document, draft: Draft): { instance: Instance; plan: Plan } {
  const instance = instanceOf(job);
  const panels = draft.panels.map(
    ({ elevation = "E", section = "whole", direction = "vertical", film = "f", ...panel }) => {
      const [x0, y0, x1, y1] = panel.window;
      const [across, along] = direction === "vertical" ? [x1 - x0, y1 - y0] : [y1 - y0, x1 - x0];
      return {
        ...panel,
        elevation,
        section,
        direction,
        film,
        role: section.startsWith("fill-") ? "fill" : "panel",
        across,
        along,
      };
    },
  );
  const rolls = draft.rolls ?? rollsOneToACut(job, instance, panels);
  const numbers = { cost: 0, filmArea: 0, gapPercent: 100, proven: false };
  const dummy = boothPlan().layouts[0];
  const document = {
    ...boothPlan(),
    jobName: job.name,
    units: job.units,
    layouts: [
      {
        id: "drafted",
        rollWidth: draft.rollWidth === undefined ? job.films[0].rollWidths[0] : draft.rollWidth,
        nesting: draft.nesting ?? "crosscut",
        panels,
        seams: draft.seams ?? [],
        rolls,
        printOrder: rolls.flatMap((load) => load.cuts.map((_: unknown, i: number) => `${load.id}:${i + 1}`)),
        applyOrder: (draft.applyOrder ?? panels.map(({ id }) => id)).map((panel) => ({ panel, why: "under first" })),
        totals: dummy.totals,
        wasteBy: dummy.wasteBy,
        bound: numbers,
        warnings: draft.warnings ?? [],
        ...draft.parts,
      },
    ],
    ...draft.planParts,
    frontier: ["drafted"],
    chosen: "drafted",
  };
  const plan = planOf(document);
  const layout = plan.layouts[0] as Layout;
  const regions = new Map(
    instance.elevations.map(({ id, outline, openings }) => [
      id,
      neededRegion(
        outline,
        openings.map((opening) => opening.outline),
      ),
    ]),
  );
  const measured = measureLayout(instance, regions, { ...layout, penalties: draft.penalties ?? 0 });
  return { instance, plan: { ...plan, layouts: [{ ...layout, ...measured }] } };
}

function rollsOneToACut(job: Document, instance: Instance, panels: readonly Document[]): Document[] {
  const { leader, trailer, cutGap } = job.rules;
  return instance.films.flatMap(({ id: film }) => {
    const { rollWidths, edgeMargin = 0 } = job.films.find((entry: Document) => entry.id === film);
    const copiesOf = (count: number): number[] => Array.from({ length: count }, (_, i) => i + 1);
    const lying = [
      ...panels
        .filter((panel) => panel.film === film)
        .flatMap(({ id, elevation, across, along }) =>
          copiesOf(instance.elevations.find((entry) => entry.id === elevation)?.count ?? 1).map((copy) => ({
            id,
            copy,
            across,
            along,
          })),
        ),
      ...(job.pieces ?? [])
        .filter((piece: Document) => piece.film === film)
        .flatMap(({ id, count, outline }: Document) => {
          const [across, along] = [0, 1].map((axis) =>
            Math.max(...outline.map((point: number[]) => point[axis] as number)),
          );
          return copiesOf(count).map((copy) => ({ id, copy, across, along }));
        }),
    ];
    if (lying.length === 0) return [];
    let end = leader - cutGap;
    const cuts = lying.map((piece) => {
      const start = end + cutGap;
      end = start + piece.along;
      return { start, length: piece.along, pieces: [{ ...piece, x: edgeMargin, y: 0, turn: 0 }] };
    });
    return [{ id: `on-${film}`, stock: null, film, lot: null, width: rollWidths[0], used: end + trailer, cuts }];
  });
}

/** Rules that a drafted plan breaks. */
export function rulesBrokenBy(job: Document, draft: Draft): string[] {
  const { instance, plan } = drafted(job, draft);
  return rulesBroken(verifyPlan(instance, plan));
}

/** One tick, in inches. */
export const TICK = 1 / 1_016_000;

/** The elevation E of a small job, 100 x 20 unless drawn otherwise. */
export const elevationE = (more: Document = {}): Document => ({
  id: "E",
  film: "f",
  outline: rectangle(0, 0, 100, 20),
  sections: [{ id: "whole", box: [0, 0, 100, 20], direction: "either" }],
  ...more,
});

/** An open seam of E at 50 from 0 to 20, E/1 over E/2 by 1, unless said otherwise. */
export const seamOfE = (more: Document = {}): Document => ({
  id: "s",
  elevation: "E",
  section: "whole",
  axis: "x",
  at: 50,
  from: 0,
  to: 20,
  kind: "open",
  overlap: 1,
  finishedOverlap: 1,
  between: ["E/1", "E/2"],
  top: "E/1",
  ...more,
});

/** Two upright panels of E that meet at 50 and reach past it by this much, with their seam. */
export const halvesOfE = (half: number, more: Document = {}): Draft => ({
  panels: [
    { id: "E/1", window: [-1, -1, 50 + half, 21] },
    { id: "E/2", window: [50 - half, -1, 101, 21] },
  ],
  seams: [seamOfE({ overlap: 2 * half, finishedOverlap: 2 * half, ...more })],
  applyOrder: ["E/2", "E/1"],
});
