import type { GroupRelaxation, RelaxedSplit, SectionRelaxation, WayRelaxation } from "../model/relaxation.ts";
import type { LinePattern, LineShares } from "./lineShares.ts";

/** A film that panels lie on, all on one width. Lengths in ticks, money per tick or square tick. */
export interface SharpFilm {
  readonly id: string;
  /** Money for each tick of length at full width. */
  readonly rate: number;
  readonly ink: number;
  /** Printable width and one gap. */
  readonly strip: number;
  readonly loose: readonly SharpPiece[];
}

export interface SharpPiece {
  readonly count: number;
  /** Shapes that fit the width. */
  readonly shapes: readonly { readonly across: number; readonly along: number }[];
  /** Given where only its outline counts, wherever it lies: square ticks. It then has no shapes. */
  readonly area?: number;
  /** Least money for its film when it lies on another width; Infinity where it can't. */
  readonly elsewhere: number;
}

export interface SharpQuestion {
  readonly groups: readonly GroupRelaxation[];
  readonly films: readonly SharpFilm[];
  readonly gap: number;
  /** Money per panel, per tick of visible seam, per avoided zone met. */
  readonly panel: number;
  readonly visibleLength: number;
  readonly penalty: number;
  /** What fills come to on their own film: as money, or as area alone. */
  readonly fills: "money" | "area";
  /** Most visible seams, all copies together. */
  readonly seams: number;
}

/** What bounding one question taught, for the next question of the same groups: which splits and lines matter. */
export class Lessons {
  readonly splits = new Map<SectionRelaxation, RelaxedSplit[]>();
  readonly patterns = new Map<string, LinePattern[]>();
  readonly breakpoints = new Map<string, Set<number>>();
  /** Where the last answers to questions of money and of area were found, to begin the next search from. */
  readonly last = new Map<SharpQuestion["fills"], Point>();
}

/** What is searched for: shares of lines, by film, and the price of a visible seam. */
export interface Point {
  readonly shares: readonly LineShares[];
  readonly seamPrice: number;
}

/** Widths are told apart in this many parts of the strip. */
export const QUANTA = 1920;

/** A width with its gap, in whole quanta of a film's strip. */
export const inQuanta = ({ strip }: SharpFilm, across: number, gap: number): number =>
  Math.floor(((across + gap) * QUANTA) / strip + 1e-9);

/** What a way comes to beside its sections, seams priced by their length alone. */
export function fixedMoney({ panel, visibleLength, fills }: SharpQuestion, { fixed }: WayRelaxation): number {
  const ofFills = fills === "money" ? fixed.fillMoney : fixed.fillArea;
  return panel * fixed.panels + visibleLength * fixed.visibleLength + ofFills;
}
