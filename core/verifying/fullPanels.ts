import type { Axis, Interval, Side } from "../geometry/box.ts";
import type { Ticks } from "../units/ticks.ts";
import { gapsOf } from "./gaps.ts";
import type { ElevationView } from "./layoutView.ts";
import { roundedDown, roundedUp } from "./lines.ts";
import { boxFrom, otherAxis, rangeOn } from "./ranges.ts";
import { reachToward } from "./reach.ts";
import type { SectionView } from "./sections.ts";
import { isWhole } from "./tolerance.ts";

/** More panels than a job may have: such a row never ends. */
const ENDLESS = 200_000;

/** Panels laid side by side from the low end, each as wide as it may be: how many, and what the last leaves bare. */
export interface FullPanels {
  readonly panels: number;
  readonly short: Ticks;
  /** Whether an end or a gap lies on a slope, so that it was rounded. */
  readonly rounded: boolean;
}

/**
 * How many full panels fit into a section before the one that would reach its far end, and what they leave of it.
 *
 * @param across ticks that a panel carries at most
 * @param overlap what two neighbours share
 * @returns null where nothing is needed, or where panels of that width never get on
 *
 * Both ends of the section have bleed or half a border's overlap; beyond a gap in what is needed the next panel begins
 * anew.
 */
export function fullPanelsIn(
  view: ElevationView,
  section: SectionView,
  axis: Axis,
  across: Ticks,
  overlap: Ticks,
): FullPanels | null {
  const parts = partsOf(view, section, axis);
  const last = parts[parts.length - 1];
  if (last === undefined || across <= overlap) return null;
  let done = -Infinity;
  for (let panels = 0; panels < ENDLESS; panels++) {
    const part = parts.find(({ to }) => to > done) as Interval;
    const start = Math.max(part.from, done);
    const end = start === part.from ? start + across : start - overlap + across;
    if (end >= last.to) return { panels, short: last.to - start, rounded: parts.some((one) => one.rounded) };
    done = end;
  }
  return null;
}

/** What film must cover between gaps, bleed and halves of borders included. */
function partsOf(view: ElevationView, section: SectionView, axis: Axis): (Interval & { readonly rounded: boolean })[] {
  const [lowSide, highSide]: readonly [Side, Side] = axis === "x" ? ["left", "right"] : ["bottom", "top"];
  const { from, to } = rangeOn(axis, section.box);
  const gaps = gapsOf(view, section, axis);
  const starts = [from, ...gaps.map((gap) => gap.to)];
  const ends = [...gaps.map((gap) => gap.from), to];
  return starts.flatMap((start, i) => {
    const box = boxFrom(axis, { from: start, to: ends[i] as number }, rangeOn(otherAxis(axis), section.box));
    const [low, high] = [reachToward(view, section, box, lowSide), reachToward(view, section, box, highSide)];
    if (low === null || high === null) return [];
    return [{ from: roundedDown(low), to: roundedUp(high), rounded: !isWhole(low) || !isWhole(high) }];
  });
}
