import type { Axis, Interval } from "../geometry/box.ts";
import type { Rules } from "../model/instance.ts";
import type { Panel } from "../model/plan.ts";
import type { Ticks } from "../units/ticks.ts";
import { onBothSides } from "./geometry/region.ts";
import type { JobElevation } from "./job.ts";
import { type LineFacts, lineFacts } from "./lines.ts";
import { lengthOf, otherAxis, rangeOn, shared } from "./ranges.ts";
import type { SectionView } from "./sections.ts";

/** Two sections side by side with film needed on both sides of the line between them. */
export interface Border {
  readonly axis: Axis;
  readonly at: Ticks;
  /** The stretch of the line that both boxes share. */
  readonly shared: Interval;
  readonly low: SectionView;
  readonly high: SectionView;
  readonly facts: LineFacts;
  readonly facing: readonly Facing[];
}

/** Two windows that meet across a border with film on both sides, and the stretch of the line that both strips cover. */
export interface Facing {
  readonly low: Panel;
  readonly high: Panel;
  readonly stretch: Interval;
  /** What they share across the line; negative when they do not reach each other. */
  readonly overlap: Interval;
}

/** Every border of an elevation: each section against each other. */
export function bordersOf(job: JobElevation, rules: Rules, sections: readonly SectionView[]): Border[] {
  const borders: Border[] = [];
  for (const low of sections) {
    for (const high of sections) {
      if (low === high) continue;
      for (const axis of ["x", "y"] as const) {
        const at = rangeOn(axis, low.box).to;
        if (rangeOn(axis, high.box).from !== at) continue;
        const stretch = shared(rangeOn(otherAxis(axis), low.box), rangeOn(otherAxis(axis), high.box));
        if (lengthOf(stretch) <= 0) continue;
        const both = onBothSides(job.needed, axis, at, stretch.from, stretch.to);
        const butted = low.butted && high.butted;
        const facts = lineFacts(job.elevation, rules, job.needed, axis, at, stretch, butted);
        if (both.length === 0 || facts === null) continue;
        borders.push({ axis, at, shared: stretch, low, high, facts, facing: facingOf(axis, both, low, high) });
      }
    }
  }
  return borders;
}

function facingOf(axis: Axis, both: readonly Interval[], low: SectionView, high: SectionView): Facing[] {
  const atBorder = (section: SectionView, end: "first" | "last"): readonly Panel[] => {
    if (section.splitAxis !== axis) return section.panels;
    return end === "first" ? section.panels.slice(0, 1) : section.panels.slice(-1);
  };
  const facing: Facing[] = [];
  for (const a of atBorder(low, "last")) {
    for (const b of atBorder(high, "first")) {
      const strip = (panel: Panel, section: SectionView): Interval =>
        shared(rangeOn(otherAxis(axis), panel.window), rangeOn(otherAxis(axis), section.box));
      const stretch = shared(strip(a, low), strip(b, high));
      if (!both.some((film) => lengthOf(shared(film, stretch)) > 0.5)) continue;
      const overlap = { from: rangeOn(axis, b.window).from, to: rangeOn(axis, a.window).to };
      facing.push({ low: a, high: b, stretch, overlap });
    }
  }
  return facing;
}
