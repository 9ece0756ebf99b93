import type { LoosePiece } from "../model/instance.ts";
import type { Cut, Layout, Load, Panel, PlacedPiece, Seam } from "../model/plan.ts";
import { type Border, bordersOf } from "./borders.ts";
import type { Job, JobElevation } from "./job.ts";
import { type LineFacts, lineFacts } from "./lines.ts";
import { otherAxis, rangeOn } from "./ranges.ts";
import { type Covered, type FillView, fillsInUse, type SectionView, sectionsWithFills } from "./sections.ts";

/** One layout with its cross-references looked up. What can't be found is left out here and reported by a check. */
export interface LayoutView {
  readonly job: Job;
  readonly layout: Layout;
  readonly elevations: readonly ElevationView[];
  readonly panels: ReadonlyMap<string, Panel>;
  readonly placed: readonly PlacedView[];
}

export interface ElevationView {
  readonly job: JobElevation;
  readonly fills: readonly FillView[];
  readonly sections: readonly SectionView[];
  readonly borders: readonly Border[];
  readonly seams: readonly SeamView[];
  /** The plan's border seams with the border they stand for; null where there is none. */
  readonly borderSeams: readonly { readonly seam: Seam; readonly border: Border | null }[];
}

/** A seam inside a section, whose panels were found. */
export interface SeamView {
  readonly seam: Seam;
  readonly section: SectionView;
  readonly low: Panel;
  readonly high: Panel;
  readonly facts: LineFacts | null;
}

export interface PlacedView {
  readonly load: Load;
  readonly cut: Cut;
  readonly cutNumber: number;
  readonly piece: PlacedPiece;
  readonly panel: Panel | null;
  readonly loose: LoosePiece | null;
}

export function layoutView(job: Job, layout: Layout): LayoutView {
  const panels = new Map(layout.panels.map((panel) => [panel.id, panel]));
  return {
    job,
    layout,
    panels,
    elevations: [...job.elevations.values()].map((elevation) => elevationView(job, elevation, layout, panels)),
    placed: layout.rolls.flatMap((load) =>
      load.cuts.flatMap((cut, index) =>
        cut.pieces.map((piece) => ({
          load,
          cut,
          cutNumber: index + 1,
          piece,
          panel: panels.get(piece.id) ?? null,
          loose: job.pieces.get(piece.id) ?? null,
        })),
      ),
    ),
  };
}

/** An elevation as the job gives it: its sections without fills, and no panel or seam yet. */
export const bareView = (job: Job, own: JobElevation): ElevationView =>
  elevationView(job, own, { panels: [], seams: [] }, new Map());

function elevationView(
  job: Job,
  own: JobElevation,
  layout: Covered,
  panels: ReadonlyMap<string, Panel>,
): ElevationView {
  const { rules } = job.instance;
  const fills = fillsInUse(own, layout);
  const sections = sectionsWithFills(job, own.elevation, layout, fills);
  const borders = bordersOf(own, rules, sections);
  const seams = layout.seams.filter((seam) => seam.elevation === own.elevation.id);
  return {
    job: own,
    fills,
    sections,
    borders,
    seams: seams.flatMap((seam): SeamView[] => {
      const section = sections.find(({ id }) => id === seam.section);
      const [low, high] = [panels.get(seam.between[0]), panels.get(seam.between[1])];
      if (section === undefined || low === undefined || high === undefined) return [];
      const range = rangeOn(otherAxis(seam.axis), section.box);
      const facts = lineFacts(own.elevation, rules, own.needed, seam.axis, seam.at, range, section.butted);
      return [{ seam, section, low, high, facts }];
    }),
    borderSeams: seams
      .filter((seam) => seam.section === null)
      .map((seam) => ({
        seam,
        border:
          borders.find(
            ({ axis, low, high }) => axis === seam.axis && low.id === seam.between[0] && high.id === seam.between[1],
          ) ?? null,
      })),
  };
}
