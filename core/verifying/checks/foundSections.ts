import type { Axis, Box } from "../../geometry/box.ts";
import type { Elevation } from "../../model/instance.ts";
import type { FoundSection, Layout } from "../../model/plan.ts";
import type { Violation } from "../../model/violation.ts";
import { breachOf, type LayoutCheck } from "../check.ts";
import { insidesMeet, lengthOf, rangeOn, sharedBox } from "../ranges.ts";
import { foundFor, hasSize } from "../sections.ts";
import { SHARE } from "../tolerance.ts";
import type { Words } from "../words.ts";

const breach = breachOf("foundSections");

/**
 * Sections that a layout has found: only where the job asks for them; together they tile the elevation's box; each edge
 * inside it lies on a break or colour edge; and what mirrors or follows another has that one's sections reflected.
 */
export const foundSections: LayoutCheck = ({ job: { instance, words, elevations }, layout }) => {
  const found: Violation[] = [];
  for (const { elevation, id } of layout.sections ?? []) {
    if (!elevations.has(elevation)) found.push(breach([elevation, id], `the job has no elevation ${elevation}`));
  }
  for (const elevation of instance.elevations) {
    const sections = foundFor(elevation, layout);
    if (sections.length > 0) found.push(...faultsOf(elevation, sections, words));
    const source = elevations.get(elevation.mirrorOf ?? "")?.elevation;
    if (source !== undefined && !reflects(elevation, source, layout)) {
      found.push(breach([elevation.id, source.id], `its sections are not those of ${source.id} reflected`));
    } else if (source === undefined) {
      found.push(...edgeFaults(elevation, sections, words));
    }
  }
  return found;
};

function faultsOf(elevation: Elevation, sections: readonly FoundSection[], words: Words): Violation[] {
  const found: Violation[] = [];
  if (!elevation.findSections) found.push(breach([elevation.id], "nobody asks to find sections here"));
  const seen = new Set<string>();
  let area = 0;
  sections.forEach(({ id, box, why }, i) => {
    const at = [elevation.id, id];
    if (seen.has(id)) found.push(breach(at, "two sections found have this id"));
    seen.add(id);
    if (id === "" || id.startsWith("fill-") || /[/:|]/.test(id)) {
      found.push(breach(at, "a section's id is not empty, does not begin with fill- and holds none of / : |"));
    }
    if (why.trim() === "") found.push(breach(at, "it is not said why"));
    const inside = sharedBox(box, elevation.box);
    if (!hasSize(box) || JSON.stringify(boxOnly(inside)) !== JSON.stringify(boxOnly(box))) {
      found.push(breach(at, `${words.box(box)} has no size or leaves the elevation's box`));
    }
    area += lengthOf(rangeOn("x", box)) * lengthOf(rangeOn("y", box));
    for (const other of sections.slice(i + 1)) {
      if (insidesMeet(box, other.box)) found.push(breach([...at, other.id], "two sections found overlap"));
    }
  });
  const whole = lengthOf(rangeOn("x", elevation.box)) * lengthOf(rangeOn("y", elevation.box));
  if (Math.abs(area - whole) > SHARE * whole) {
    const box = words.box(elevation.box);
    found.push(breach([elevation.id], `the sections found do not tile the elevation's box ${box}`));
  }
  return found;
}

function edgeFaults(elevation: Elevation, sections: readonly FoundSection[], words: Words): Violation[] {
  const lines = [...elevation.breaks, ...elevation.colourEdges];
  return sections.flatMap(({ id, box }) =>
    (["x", "y"] as const).flatMap((axis: Axis) => {
      const [own, whole] = [rangeOn(axis, box), rangeOn(axis, elevation.box)];
      return [own.from, own.to]
        .filter((place) => place !== whole.from && place !== whole.to)
        .filter((place) => !lines.some((line) => line.axis === axis && line.at === place))
        .map((place) =>
          breach(
            [elevation.id, id],
            `its edge at ${words.length(place)} on axis ${axis} lies on no break and no colour edge`,
          ),
        );
    }),
  );
}

function reflects(elevation: Elevation, source: Elevation, layout: Layout): boolean {
  const { x0, x1 } = source.box;
  const own = foundFor(elevation, layout).map(({ id, box, direction }) => keyOf(id, box, direction));
  const due = foundFor(source, layout).map(({ id, box, direction }) =>
    keyOf(id, { ...box, x0: x0 + x1 - box.x1, x1: x0 + x1 - box.x0 }, direction),
  );
  return JSON.stringify(own.sort()) === JSON.stringify(due.sort());
}

const boxOnly = ({ x0, y0, x1, y1 }: Box): number[] => [x0, y0, x1, y1];

const keyOf = (id: string, box: Box, direction: string): string => JSON.stringify([id, ...boxOnly(box), direction]);
