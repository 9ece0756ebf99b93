import type { Axis } from "../../geometry/box.ts";
import type { Difference } from "../../model/plan.ts";
import type { Violation } from "../../model/violation.ts";
import type { Ticks } from "../../units/ticks.ts";
import { breachOf, type LayoutCheck } from "../check.ts";
import type { ElevationView } from "../layoutView.ts";
import { mirroredSection } from "../sections.ts";

const breach = breachOf("differencesListed");

type Place = Pick<Difference, "section" | "axis" | "at">;

/**
 * Where an elevation that follows another does not repeat it is listed, and nowhere else: sections split the other way,
 * seams of the other side that it lacks, and seams of its own that the other side lacks. Borders are not compared.
 */
export const differencesListed: LayoutCheck = ({ job: { instance, words }, layout, elevations }) => {
  const found: Violation[] = [];
  const listed = layout.differences ?? [];
  const views = new Map(elevations.map((view) => [view.job.elevation.id, view]));
  const due = new Map<string, readonly string[]>();
  for (const { id, mirror, mirrorOf } of instance.elevations) {
    const [own, other] = [views.get(id), views.get(mirrorOf ?? "")];
    if (mirror !== "follow" || mirrorOf === null || own === undefined || other === undefined) continue;
    const places = differencesOf(own, other);
    due.set(
      id,
      places.map((place) => keyOf(place)),
    );
    for (const place of places) {
      const times = listed.filter((entry) => entry.elevation === id && keyOf(entry) === keyOf(place)).length;
      if (times === 1) continue;
      const what =
        place.at === null ? "it is split another way" : `a seam at ${words.length(place.at)} is on one side only`;
      found.push(breach([id, place.section], `${what}, and that is listed ${times} times`));
    }
  }
  for (const entry of listed) {
    const { elevation, follows, section, says } = entry;
    const at = [elevation, section];
    const followed = instance.elevations.find(({ id }) => id === elevation)?.mirrorOf ?? null;
    if (!due.has(elevation)) found.push(breach(at, "it follows no other elevation, and a difference is listed"));
    else if (follows !== followed) found.push(breach(at, `it follows ${followed}, not ${follows}`));
    else if (!due.get(elevation)?.includes(keyOf(entry))) found.push(breach(at, "a difference is listed that is none"));
    if (says.trim() === "") found.push(breach(at, "a difference is listed and nothing is said of it"));
  }
  return found;
};

const keyOf = ({ section, axis, at }: Place): string => JSON.stringify([section, axis, at]);

function differencesOf(own: ElevationView, other: ElevationView): Place[] {
  const { x0, x1 } = other.job.elevation.box;
  const reflected = (axis: Axis, at: Ticks): Ticks => (axis === "x" ? x0 + x1 - at : at);
  const expected = other.seams.map(({ seam, section }) => ({
    section: mirroredSection(section.id),
    axis: seam.axis,
    at: reflected(seam.axis, seam.at),
  }));
  const there = own.seams.map(({ seam, section }) => ({ section: section.id, axis: seam.axis, at: seam.at }));
  const missing = (from: readonly Place[], among: readonly Place[]): Place[] =>
    from.filter((place) => !among.some((entry) => keyOf(entry) === keyOf(place)));
  const otherAxes = new Map(other.sections.map(({ id, splitAxis }) => [mirroredSection(id), splitAxis]));
  const turned = own.sections.filter(({ id, splitAxis }) => {
    const axis = otherAxes.get(id) ?? null;
    return splitAxis !== null && axis !== null && splitAxis !== axis;
  });
  return [
    ...turned.map(({ id }) => ({ section: id, axis: null, at: null })),
    ...missing(expected, there),
    ...missing(there, expected),
  ];
}
