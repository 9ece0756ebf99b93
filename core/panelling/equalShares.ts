import type { Ticks } from "../units/ticks.ts";
import { isForbidden, keepsWidths, placesApart, type Settled } from "./holds.ts";
import { isDemanded, judgePlace } from "./seamCandidates.ts";
import type { SectionTask } from "./sectionTask.ts";
import { type SplitNode, windowEnds } from "./splitNodes.ts";
import { type PanelWindow, windowsOf } from "./windows.ts";

/**
 * Widens slivers by sharing the width of a run of panels equally, where nothing is lost.
 *
 * For each panel narrower than `rules.sliverUnder`, tries the runs of panels round it whose inner seams are free (open
 * for every member, demanded by nothing), longest first, with their seams at equal shares, to the grid. A run is taken
 * when no seam changes its kind, overlap, penalties or handles, seams get no longer, every window still fits, and neither the sum
 * of lengths along nor the area of the windows grows, and what is settled for the section stays kept. Slivers under 6 in: common practice, no source.
 *
 * @returns the nodes of the split, moved or not; ends stay
 */
export function shareEqually(task: SectionTask, ends: readonly SplitNode[]): readonly SplitNode[] {
  let best = ends;
  for (let panel = 0; panel + 1 < ends.length; panel++) {
    const width = widthOf(best, panel);
    if (width >= task.rules.sliverUnder) continue;
    const shared = runsRound(task, best, panel)
      .map(([from, to]) => shareRun(task, best, from, to))
      .find((moved) => moved !== null && loses(task, best, moved) === false && narrowest(moved) > narrowest(best));
    if (shared) best = shared;
  }
  return best;
}

const widthOf = (ends: readonly SplitNode[], panel: number): Ticks =>
  (ends[panel + 1] as SplitNode).hi - (ends[panel] as SplitNode).lo;

const narrowest = (ends: readonly SplitNode[]): Ticks =>
  Math.min(...ends.slice(1).map((_, panel) => widthOf(ends, panel)));

/** Runs of panels [from, to] (to included) round one panel whose inner seams may all move, longest first. */
function runsRound(task: SectionTask, ends: readonly SplitNode[], panel: number): [number, number][] {
  const free = ends.map(
    ({ seam }) =>
      seam?.kinds.every((kind) => kind === "open") &&
      !isDemanded(task, seam.at) &&
      task.settled?.seams.includes(seam.at) !== true,
  );
  let first = panel;
  while (first > 0 && free[first] === true) first--;
  let last = panel;
  while (last + 2 < ends.length && free[last + 1] === true) last++;
  const runs: [number, number][] = [];
  for (let from = first; from <= panel; from++) {
    for (let to = panel; to <= last; to++) if (to > from) runs.push([from, to]);
  }
  return runs.sort(([a, b], [c, d]) => d - c - (b - a) || a - c);
}

function shareRun(task: SectionTask, ends: readonly SplitNode[], from: number, to: number): SplitNode[] | null {
  const start = (ends[from] as SplitNode).lo;
  const panels = to - from + 1;
  const half = (ends[from + 1] as SplitNode).hi - (ends[from + 1] as SplitNode).at;
  const width = ((ends[to + 1] as SplitNode).hi - start + 2 * half * (panels - 1)) / panels;
  const moved = [...ends];
  for (let k = 1; k < panels; k++) {
    const exact = start + k * width - (2 * k - 1) * half;
    const at = Math.round(exact / task.grid) * task.grid;
    const seam = judgePlace(task, at);
    const old = (ends[from + k] as SplitNode).seam;
    if (seam === null || old === null || seam.half !== old.half || seam.penalties > old.penalties) return null;
    if (seam.handles > old.handles) return null;
    if (seam.kinds.some((kind) => kind !== "open")) return null;
    moved[from + k] = { at, lo: at - seam.half, hi: at + seam.half, seam };
  }
  return moved;
}

/** Whether the moved split is worse in anything, or breaks a limit. */
function loses(task: SectionTask, before: readonly SplitNode[], after: readonly SplitNode[]): boolean {
  const apart = (high: SplitNode, low: SplitNode) => high.at > low.at && windowEnds(low, high) !== null;
  if (!after.slice(1).every((end, i) => apart(end, after[i] as SplitNode))) return true;
  const windows = windowsOf(task, after);
  if (windows.some(({ across, along }) => across > task.maxAcross || along > task.maxAlong)) return true;
  if (task.settled !== undefined && unsettles(task.settled, before, after, windows)) return true;
  const old = windowsOf(task, before);
  const sum = (list: readonly PanelWindow[], of: (window: PanelWindow) => number) =>
    list.reduce((total, window) => total + of(window), 0);
  const length = (list: readonly SplitNode[]) =>
    list.reduce((total, { seam }) => total + (seam?.visibleLength ?? 0), 0);
  if (sum(windows, ({ along }) => along) > sum(old, ({ along }) => along)) return true;
  if (length(after) > length(before)) return true;
  const area = ({ across, along }: PanelWindow) => across * along;
  // Areas are sums of products beyond a double's exact range: equal to nine digits is equal.
  return sum(windows, area) > sum(old, area) * (1 + 1e-9);
}

/** Whether moved seams lie where none may, change a settled width, or leave a place where a seam is wished for. */
function unsettles(
  { noSeams, widths, expected }: Settled,
  before: readonly SplitNode[],
  after: readonly SplitNode[],
  windows: readonly PanelWindow[],
): boolean {
  const seamsOf = (list: readonly SplitNode[]) => list.flatMap(({ seam }) => (seam === null ? [] : [seam.at]));
  if (seamsOf(after).some((at) => isForbidden(noSeams, at))) return true;
  const kept = windows.every(({ across }, i) =>
    keepsWidths(widths, (after[i] as SplitNode).at, (after[i + 1] as SplitNode).at, across),
  );
  return !kept || placesApart(expected, seamsOf(after)) > placesApart(expected, seamsOf(before));
}
