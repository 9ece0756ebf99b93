import type { Ticks } from "../units/ticks.ts";
import type { SectionNeeds } from "./sectionNeeds.ts";

/** One number of panels for one section, and what every split into so many must at least come to. Lengths in ticks. */
export interface SplitOption {
  readonly panels: number;
  /** Seams that can be seen, at least. */
  readonly visible: number;
  /** Visible length of seams as it counts, at least. */
  readonly visibleLength: number;
  /** Sum of the windows' areas, square ticks. */
  readonly windowArea: number;
  /** No panel is shorter along the roll. */
  readonly along: number;
  /** Share of the strip's width that the panels take on every line across, summed over panels: by plain width ... */
  readonly shareByWidth: number;
  /** ... and by the number of panels wider than half the strip. */
  readonly shareByHalf: number;
  /** The share by width of those panels alone that are at least so long, longest first; lengths above `along` only. */
  readonly tall: readonly { readonly along: number; readonly share: number }[];
  /** Length on the roll, each panel with one gap, that these shares come to. */
  readonly lengthByWidth: number;
  readonly lengthByHalf: number;
}

/** Printable width, the widest panel allowed, the gap between pieces, and the longest cut a load can hold; ticks. */
export interface StripLimits {
  readonly width: Ticks;
  readonly widest: Ticks;
  readonly gap: Ticks;
  readonly longest: Ticks;
}

/** More panels than this many times the least never pay: by then no panel need be wider than half the strip. */
const MOST_TIMES = 3;

/**
 * The numbers of panels worth regarding for one section and direction.
 *
 * @param overlap the least overlap of two neighbours, ticks
 * @returns fewest panels first; empty when no split exists. A number left out is no better in any figure than one listed.
 *
 * With n panels the widths add up to at least T = what is to cover + overlap for each seam. A window is as long as every
 * column in its strip asks and never shorter than `leastAlong`, so the areas add up to at least the reach integral +
 * (T - needed columns) x `leastAlong`. At most half the strip wide, the panels that are not wider than that cover
 * n (half - gap); the rest asks for panels wider than half, each of which adds at most another half.
 */
export function splitOptions(
  { needed, reachArea, leastAlong, widths, gaps, hidden, tall, leastSeam }: SectionNeeds,
  overlap: Ticks,
  { width, widest, gap, longest }: StripLimits,
): SplitOption[] {
  if (leastAlong > longest || widest <= 0) return [];
  const strip = width + gap;
  const least = widths.reduce((sum, part) => sum + fewestPanels(part, gaps, overlap, widest), 0);
  if (!Number.isFinite(least)) return [];
  const total = widths.reduce((sum, part) => sum + part, 0);
  const tallShares = tall.map(({ along, across }) => ({
    along,
    share: (across + Math.ceil(across / widest - 1e-9) * gap) / strip,
  }));
  const options: SplitOption[] = [];
  for (let panels = least; panels <= MOST_TIMES * least + 2; panels++) {
    const across = total + Math.max(0, panels - widths.length - gaps) * overlap;
    const area = reachArea + Math.max(0, across - needed) * leastAlong;
    const grown = area + gap * (across + panels * leastAlong) + panels * gap * gap;
    const enough = panels === MOST_TIMES * least + 2;
    const wide = enough ? 0 : Math.max(0, Math.ceil((across - panels * (strip / 2 - gap)) / (strip / 2) - 1e-9));
    const visible = Math.max(0, panels - 1 - gaps - hidden);
    options.push({
      panels,
      visible,
      visibleLength: visible * leastSeam,
      windowArea: area,
      along: leastAlong,
      shareByWidth: (across + panels * gap) / strip,
      shareByHalf: wide,
      tall: tallShares,
      lengthByWidth: grown / strip,
      lengthByHalf: wide * (leastAlong + gap),
    });
    // From here on more panels only add to every figure.
    if (wide === 0) break;
  }
  return options;
}

/** The fewest panels that cover a width, when neighbours overlap everywhere but at `gaps` places; Infinity when none do. */
function fewestPanels(part: number, gaps: number, overlap: Ticks, width: Ticks): number {
  if (part <= width) return 1;
  // n panels cover n x width - (n - 1 - gaps) x overlap.
  const withoutOverlap = Math.ceil(part / width - 1e-9);
  if (withoutOverlap <= gaps + 1) return withoutOverlap;
  if (width <= overlap) return Infinity;
  return Math.max(gaps + 1, Math.ceil((part - (gaps + 1) * overlap) / (width - overlap) - 1e-9));
}
