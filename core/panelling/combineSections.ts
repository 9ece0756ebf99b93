import type { Ticks } from "../units/ticks.ts";
import type { SectionOption } from "./sectionOptions.ts";

/** One option for each section of the elevation, with the sums. */
export interface Combination {
  readonly picks: readonly SectionOption[];
  readonly windowArea: number;
  readonly aloneArea: number;
  readonly cost: number;
  readonly visible: number;
  readonly visibleLength: Ticks;
  readonly penalties: number;
  readonly panels: number;
  /** Where it is not as the elevation that this one follows: 0 for one that follows none. */
  readonly apart: number;
  /** Handles inside bands, on all copies of all members: they only decide between equals. */
  readonly handles: number;
  readonly open: readonly number[];
}

/** Most combinations kept after each section. */
const MOST_KEPT = 400;

/**
 * All non-dominated combinations of one option a section by film area alone, cost, visible seams, penalties, what is
 * apart from a followed elevation and, where a limit is given, open seams on one copy.
 *
 * Exact as long as no step keeps more than MOST_KEPT; above that the cheapest are kept, and of each count of visible seams
 * the cheapest and the one of least area, so that no count is lost.
 *
 * @param options by section, each list not empty
 * @param start what borders already come to; its `open` is by member
 * @param openLimits by member, borders included; null for none
 * @param avoidPenalty money for one penalty
 * @returns by what is apart, then by ascending cost with penalties; ties by visible seams, then in the order of the options
 */
export function combineSections(
  options: readonly (readonly SectionOption[])[],
  start: Omit<Combination, "picks">,
  openLimits: readonly number[] | null,
  avoidPenalty: number,
): Combination[] {
  let partial: Combination[] = [{ ...start, picks: [] }];
  for (const list of options) {
    const extended = partial.flatMap((combination) => list.map((option) => join(combination, option)));
    const allowed = extended.filter(
      ({ open }) => openLimits?.every((limit, m) => (open[m] as number) <= limit) ?? true,
    );
    partial = thin(nonDominated(allowed, avoidPenalty));
  }
  return partial;
}

function join(a: Combination, option: SectionOption): Combination {
  return {
    picks: [...a.picks, option],
    windowArea: a.windowArea + option.windowArea,
    aloneArea: a.aloneArea + option.aloneArea,
    cost: a.cost + option.cost,
    visible: a.visible + option.visible,
    visibleLength: a.visibleLength + option.visibleLength,
    penalties: a.penalties + option.penalties,
    panels: a.panels + option.panels,
    apart: a.apart + option.apart,
    handles: a.handles + option.handles,
    open: a.open.map((count, m) => count + (option.open[m] as number)),
  };
}

type Measured = Pick<
  Combination,
  "aloneArea" | "windowArea" | "cost" | "visible" | "penalties" | "apart" | "handles" | "open"
>;

/** Those that no other equals or beats on every criterion, least apart first, then cheapest; of equal ones that with fewest handles, then the first. */
export function nonDominated<T extends Measured>(list: readonly T[], avoidPenalty: number): T[] {
  const total = ({ cost, penalties }: T) => cost + avoidPenalty * penalties;
  const sorted = [...list].sort(
    (a, b) =>
      a.apart - b.apart ||
      total(a) - total(b) ||
      a.visible - b.visible ||
      a.aloneArea - b.aloneArea ||
      a.handles - b.handles,
  );
  const kept: T[] = [];
  for (const item of sorted) if (!kept.some((other) => covers(other, item))) kept.push(item);
  return kept;
}

/** Areas and money are sums in floating point: equal to nine digits is equal. */
export const atMost = (a: number, b: number): boolean => a <= b * (1 + 1e-9);

function covers(a: Measured, b: Measured): boolean {
  return (
    a.visible <= b.visible &&
    a.penalties <= b.penalties &&
    a.apart <= b.apart &&
    atMost(a.aloneArea, b.aloneArea) &&
    atMost(a.cost, b.cost) &&
    atMost(a.windowArea, b.windowArea) &&
    a.open.every((count, m) => count <= (b.open[m] as number))
  );
}

/** Open seams on the copy that has most. */
export const mostOpen = ({ open }: Pick<Combination, "open">): number => Math.max(0, ...open);

function thin(list: Combination[]): Combination[] {
  if (list.length <= MOST_KEPT) return list;
  const kept = new Set(list.slice(0, MOST_KEPT));
  const [cheapest, smallest] = [new Map<number, Combination>(), new Map<number, Combination>()];
  for (const item of list) {
    if (!cheapest.has(item.visible)) cheapest.set(item.visible, item);
    const least = smallest.get(item.visible);
    if (least === undefined || item.aloneArea < least.aloneArea) smallest.set(item.visible, item);
  }
  for (const item of [...cheapest.values(), ...smallest.values()]) kept.add(item);
  kept.add(list.reduce((a, b) => (mostOpen(b) < mostOpen(a) ? b : a)));
  return list.filter((item) => kept.has(item));
}
