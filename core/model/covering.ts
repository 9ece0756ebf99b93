import type { Ticks } from "../units/ticks.ts";
import type { Direction } from "./instance.ts";
import type { FoundSection, Panel, Seam } from "./plan.ts";

/**
 * One way to cover an elevation and all that mirror it: the panels and seams of each of those elevations, and what they
 * come to. `source` names the elevation that is not a mirror.
 */
export interface Covering {
  readonly source: string;
  readonly panels: readonly Panel[];
  readonly seams: readonly Seam[];
  readonly measures: CoveringMeasures;
  /** Sections found, of every elevation of the group; left out where its own are used. */
  readonly sections?: readonly FoundSection[];
}

/** Sums over all copies of all elevations of the group, but for `openSeamsPerCopy`. */
export interface CoveringMeasures {
  /** Area of all windows, square ticks. */
  readonly windowArea: number;
  /** Film area if each panel lay alone across the roll: printable width x along, square ticks. */
  readonly aloneArea: number;
  /** Most open seams on any one copy of an elevation, borders included. */
  readonly openSeamsPerCopy: number;
  /** open + bodyLine + colourEdge, borders included. */
  readonly visibleSeams: number;
  readonly visibleLength: Ticks;
  /** Pairs of a seam and an avoided zone that it meets. */
  readonly penalties: number;
  readonly panels: number;
  /** Money for film, laminate and ink by window area, seams and panels: what ranks coverings before they are nested. */
  readonly costEstimate: number;
}

/** What a layout asks of panelling: the widest panel each film takes, and the longest a load can hold. */
export interface PanellingLimits {
  /** By film id, ticks: the widest across a panel of this film may be on the layout's roll width. */
  readonly acrossByFilm: ReadonlyMap<string, Ticks>;
  /** By film id, ticks: the longest along; Infinity when nothing limits it. */
  readonly alongByFilm: ReadonlyMap<string, Ticks>;
  /** By film id: full roll width that goes with it, ticks. */
  readonly widthByFilm: ReadonlyMap<string, Ticks>;
  /** Direction asked of sections that leave it open; null: whichever is better. */
  readonly preferred: Direction | null;
  /** Leaves the fills unused: quicker, for a first layout to look at. */
  readonly withoutFills?: boolean;
}
