import { type MirrorGroup, mirrorGroups } from "../../../core/choosing/mirrorGroups.ts";
import { panellingLimits, widthChoices } from "../../../core/choosing/rollWidths.ts";
import { type Instance, seededRandom, ticksTo } from "../../../core/index.ts";
import { coverGroup } from "../../../core/panelling/coverGroup.ts";
import { dataFile } from "../../support/dataFile.ts";
import { instanceOf } from "../../support/planJob.ts";
import type { Part } from "../part.ts";
import { told } from "../spread.ts";

/** Milliseconds that `work` takes, once warm. The answer is counted so that it cannot be left out. */
function timed(repeats: number, work: () => number): { times: number[]; count: number } {
  let count = work();
  const times = Array.from({ length: repeats }, () => {
    const began = performance.now();
    count = work();
    return performance.now() - began;
  });
  return { times, count };
}

function coveringsOf(
  instance: Instance,
  { source, mirrors }: MirrorGroup,
  limits: ReturnType<typeof panellingLimits>,
  seed: number,
): number {
  const run = { random: seededRandom(seed), stop: () => false, report: () => {}, work: null };
  const covered = coverGroup(instance, source, mirrors, limits, run);
  return "coverings" in covered ? covered.coverings.length : 0;
}

/** Each section by itself: the same elevation with one section left, over the part of the outline that lies in its box. */
function alone(group: MirrorGroup, sectionId: string): MirrorGroup {
  const only = <E extends MirrorGroup["source"]>(elevation: E): E => {
    const section = elevation.sections.find(({ id }) => id === sectionId);
    if (!section) throw new Error(`no section ${sectionId} in ${elevation.id}`);
    const { x0, y0, x1, y1 } = section.box;
    const outline = [
      { x: x0, y: y0 },
      { x: x1, y: y0 },
      { x: x1, y: y1 },
      { x: x0, y: y1 },
    ];
    return { ...elevation, outline, box: section.box, sections: [section], fill: [] };
  };
  return { ...group, source: only(group.source), mirrors: group.mirrors.map(only) };
}

/** The demo's panelling in this process, warm: every split that no other beats, whole elevations and single sections. */
export const panelling: Part = {
  name: "panelling",
  title: "Panelling of the demo: every split that no other beats, in this process, warm",
  run: ({ seed, repeats, tell }) => {
    const instance = instanceOf(dataFile("demo.job.json"));
    for (const choice of widthChoices(instance)) {
      const { rollWidth } = choice;
      const width = rollWidth === null ? "any width" : `${ticksTo(rollWidth, instance.unit)} ${instance.unit}`;
      const limits = panellingLimits(instance, choice, null);
      for (const group of mirrorGroups(instance.elevations)) {
        const names = [group.source, ...group.mirrors].map(({ id }) => id).join(" + ");
        const whole = timed(repeats, () => coveringsOf(instance, group, limits, seed));
        tell(`${width}, ${names}`, `${told(whole.times, "ms", 1)}, ${whole.count} coverings`);
        for (const { id } of group.source.sections) {
          const part = timed(repeats, () => coveringsOf(instance, alone(group, id), limits, seed));
          tell(`${width}, ${names}: section ${id} by itself`, `${told(part.times, "ms", 1)}, ${part.count} coverings`);
        }
      }
    }
  },
};
