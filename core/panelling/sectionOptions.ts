import type { Axis } from "../geometry/box.ts";
import type { Ticks } from "../units/ticks.ts";
import { shareEqually } from "./equalShares.ts";
import { placesApart } from "./holds.ts";
import { settledCandidates } from "./holdsPlaces.ts";
import type { SeamCandidate } from "./seamRules.ts";
import type { SectionTask } from "./sectionTask.ts";
import { type SplitNode, type SplitNodes, splitNodes } from "./splitNodes.ts";
import { type Split, type SplitPrice, splitSection } from "./splitSection.ts";
import { type PanelWindow, windowsOf } from "./windows.ts";

/** One way to panel one section, with what it comes to on all copies of all members. */
export interface SectionOption {
  readonly section: number;
  readonly axis: Axis;
  readonly ends: readonly SplitNode[];
  readonly windows: readonly PanelWindow[];
  readonly windowArea: number;
  readonly aloneArea: number;
  /** Money without avoided zones. */
  readonly cost: number;
  readonly visible: number;
  readonly visibleLength: Ticks;
  readonly penalties: number;
  readonly panels: number;
  /** Seams where none is wished for, and places without one where it is; 0 where nothing is wished. */
  readonly apart: number;
  /** Handles inside bands, on all copies of all members: they only decide between equals. */
  readonly handles: number;
  /** By member, on one copy. */
  readonly open: readonly number[];
}

/** What the windows of a section cost, all copies of all members together. */
export interface SectionPrices {
  /** Square ticks of film per tick along, each panel alone across the roll. */
  readonly aloneAcross: number;
  readonly copies: number;
  /** Money per square tick of window, per panel, per tick of visible seam on one copy. */
  readonly perArea: number;
  readonly perPanel: number;
  readonly perSeamLength: number;
}

/** Money is summed in whole ten-millionths, so that equal splits tie exactly. */
const MONEY_SCALE = 1e7;
/** Window areas are summed in whole multiples of this many square ticks. */
const AREA_SCALE = 1 / 1024;
/**
 * One place apart from those wished for, beside prices in the units above: more than what splits of one section differ in
 * by any of them, and few enough that a hundred places stay within a double's whole numbers.
 */
const APART = 2 ** 46;
/** An open seam where as few as can be are asked for: more than any film or money that one could save. */
const OPEN = 2 ** 40;

/**
 * The ways to panel one section along one axis that matter: the non-dominated splits by film area with each panel alone
 * across the roll, those by cost (by window area where film is free), and where seams can hide in sight those with fewest
 * open seams, then by cost; each with visible seams, penalties and open seams. Where seams are wished for, places apart from those go before all prices. Slivers are shared out afterwards.
 *
 * @param every whether the whole grid is tried
 */
export function sectionOptions(
  task: SectionTask,
  section: number,
  prices: SectionPrices,
  openLimits: readonly number[] | null,
  every = false,
): SectionOption[] {
  const input = splitNodes(task, settledCandidates(task, every));
  const apart = input.wished === null ? 0 : APART;
  const alone: SplitPrice = { along: 1, area: 0, panel: 0, visibleLength: 0, apart };
  const { perArea, perPanel, perSeamLength } = prices;
  const priced: SplitPrice =
    perArea > 0
      ? {
          along: 0,
          area: perArea * MONEY_SCALE,
          panel: perPanel * MONEY_SCALE,
          visibleLength: perSeamLength * MONEY_SCALE,
          apart,
        }
      : { along: 0, area: AREA_SCALE, panel: 0, visibleLength: 0, apart };
  const runs = [alone, priced];
  // Seams that are seen but hide, along a body line or a colour edge, may take the place of open ones.
  if (input.nodes.some(({ seam }) => seam !== null && mayHide(seam))) runs.push({ ...priced, open: OPEN });
  const splits = runs.flatMap((price) => splitSection(input, price, openLimits));
  const seen = new Set<string>();
  return splits.flatMap((split) => {
    const key = split.nodes.join();
    if (seen.has(key)) return [];
    seen.add(key);
    return [optionOf(task, section, prices, input, split)];
  });
}

const mayHide = ({ kinds }: SeamCandidate): boolean =>
  kinds.some((kind) => kind === "bodyLine" || kind === "colourEdge");

function optionOf(
  task: SectionTask,
  section: number,
  { aloneAcross, copies, perArea, perPanel, perSeamLength }: SectionPrices,
  { nodes }: SplitNodes,
  split: Split,
): SectionOption {
  const ends = shareEqually(
    task,
    split.nodes.map((node) => nodes[node] as SplitNode),
  );
  const windows = windowsOf(task, ends);
  const area = windows.reduce((sum, { across, along }) => sum + across * along, 0);
  const along = windows.reduce((sum, window) => sum + window.along, 0);
  const visibleLength = ends.reduce((sum, { seam }) => sum + (seam?.visibleLength ?? 0), 0);
  return {
    section,
    axis: task.axis,
    ends,
    windows,
    windowArea: area * copies,
    aloneArea: along * aloneAcross,
    cost: area * perArea + windows.length * perPanel + visibleLength * perSeamLength,
    visible: split.visible,
    visibleLength,
    penalties: ends.reduce((sum, { seam }) => sum + (seam?.penalties ?? 0), 0),
    panels: windows.length * copies,
    handles: ends.reduce((sum, { seam }) => sum + (seam?.handles ?? 0), 0),
    apart: placesApart(
      task.settled?.expected ?? null,
      ends.flatMap(({ seam }) => seam?.at ?? []),
    ),
    open: split.open,
  };
}
