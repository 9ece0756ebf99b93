import type { Hold } from "../../model/instance.ts";
import { breachOf, type LayoutCheck } from "../check.ts";
import { stretchesOf } from "../gaps.ts";
import { onLine } from "../geometry/region.ts";
import type { Job } from "../job.ts";
import type { ElevationView } from "../layoutView.ts";
import { otherAxis, rangeOn } from "../ranges.ts";
import type { SectionView } from "../sections.ts";

const breach = breachOf("holdsKept");

/** What the user has settled is kept exactly: seams held and forbidden, widths and directions. Fills are exempt. */
export const holdsKept: LayoutCheck = ({ job, elevations }) =>
  elevations.flatMap((view) =>
    view.job.elevation.holds.flatMap((hold) =>
      faultsOf(job, view, hold).map((says) => breach([view.job.elevation.id, hold.id], says)),
    ),
  );

function faultsOf(job: Job, view: ElevationView, hold: Hold): string[] {
  const panelSections = view.sections.filter(({ role }) => role === "panel");
  const asked = panelSections.filter(({ id }) => hold.section === null || id === hold.section);
  if (asked.length === 0) return [`it is for section ${hold.section}, which this layout does not have`];
  switch (hold.kind) {
    case "seam":
      return seamFaults(job, view, hold, asked);
    case "noSeam":
      return noSeamFaults(job, view, hold, asked);
    case "width":
      return widthFaults(job, view, hold, asked);
    case "direction":
      return asked.flatMap(({ id, panels }) =>
        panels.some(({ direction }) => direction !== hold.direction)
          ? [`the panels of ${id} are held ${hold.direction}, and they run the other way`]
          : [],
      );
  }
}

type Of<Kind extends Hold["kind"]> = Extract<Hold, { readonly kind: Kind }>;

/** Sections that a line crosses, film needed on it over some length inside them. */
function crossed(view: ElevationView, { axis, at }: Of<"seam"> | Of<"width">, sections: readonly SectionView[]) {
  return sections.filter(({ box }) => {
    const across = rangeOn(axis, box);
    const { from, to } = rangeOn(otherAxis(axis), box);
    return across.from < at && at < across.to && onLine(view.job.needed, axis, at, from, to).length > 0;
  });
}

function seamFaults({ words }: Job, view: ElevationView, hold: Of<"seam">, asked: readonly SectionView[]): string[] {
  const { axis, at } = hold;
  const there = crossed(view, hold, asked);
  const lacking = there.filter(
    ({ id, splitAxis }) =>
      splitAxis !== axis || !view.seams.some(({ seam }) => seam.section === id && seam.axis === axis && seam.at === at),
  );
  const where = `${words.length(at)} on axis ${axis}`;
  const atBorder = hold.section === null && view.borders.some((border) => border.axis === axis && border.at === at);
  if (there.length === 0 && !atBorder) return [`a seam is held at ${where}, and no section or border has it`];
  return lacking.map(({ id }) => `a seam is held at ${where}, and ${id} has none there`);
}

function noSeamFaults(
  { words }: Job,
  view: ElevationView,
  hold: Of<"noSeam">,
  asked: readonly SectionView[],
): string[] {
  const { axis, from, to } = hold;
  const inside = view.seams.filter(({ section }) => asked.includes(section)).map(({ seam }) => seam);
  const borders = hold.section === null ? view.borders : [];
  return [...inside, ...borders]
    .filter((line) => line.axis === axis && from <= line.at && line.at <= to)
    .map(
      ({ at }) => `a seam lies at ${words.length(at)}, and none may from ${words.length(from)} to ${words.length(to)}`,
    );
}

function widthFaults({ words }: Job, view: ElevationView, hold: Of<"width">, asked: readonly SectionView[]): string[] {
  const { axis, at, width } = hold;
  return crossed(view, hold, asked).flatMap((section) => {
    const held = `the panel at ${words.length(at)} on axis ${axis} is held ${words.length(width)} across`;
    if (section.splitAxis !== axis) return [`${held}, and ${section.id} is not split along that axis`];
    const stretches = stretchesOf(view, section);
    // Only where a stretch ends at a gap does none begin: there the panel before it stands for its end.
    const holder = stretches.find(({ from, to }) => from <= at && at < to) ?? stretches.find(({ to }) => to === at);
    const panel = holder?.panel;
    if (panel === undefined) return [`${held}, and no panel of ${section.id} stands for that place`];
    return panel.across === width ? [] : [`${held}, and ${panel.id} is ${words.length(panel.across)}`];
  });
}
