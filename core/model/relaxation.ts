/**
 * What panelling tells of all the ways to split, without naming one: for any prices, a value that no way goes under. Seen
 * by whoever bounds the film that splits ask for. Lengths in ticks, areas in square ticks.
 */
export interface GroupRelaxation {
  /** By film: copies of the group's windows that lie on it. */
  readonly copies: ReadonlyMap<string, number>;
  /** Ways to use fills; every plan is at least as dear as one of them. */
  readonly ways: readonly WayRelaxation[];
}

export interface WayRelaxation {
  /** What comes on top whatever the sections do: borders and fills, all copies. */
  readonly fixed: FixedSums;
  readonly sections: readonly SectionRelaxation[];
  /** A way whose sections ask for no more at any prices. */
  readonly deeper?: WayRelaxation;
}

export interface FixedSums {
  readonly visible: number;
  readonly visibleLength: number;
  readonly panels: number;
  /** Money for print and film of the fills, whatever is covered by them; and their film alone, square ticks. */
  readonly fillMoney: number;
  readonly fillArea: number;
}

export interface SectionRelaxation {
  /**
   * The relaxed split that costs least at these prices along each axis allowed; none when no split exists.
   *
   * Every real split has, panel by panel, one as narrow and as short or more so among those compared: its value is a lower
   * bound for all of them as long as prices never fall with a width or a length.
   */
  cheapest(prices: SplitPrices): readonly RelaxedSplit[];
  /** Looks more closely where it answered last; false when it does so already. */
  refine(): boolean;
}

/** Prices that never fall as a panel grows. Money, for all copies of the group together. */
export interface SplitPrices {
  /** Per tick of length with its gap, by width with its gap, one entry for each `quantum` begun: the value at its lower end. */
  readonly byWidth: Float64Array;
  readonly quantum: number;
  readonly gap: number;
  /** Per square tick of window, per panel. */
  readonly area: number;
  readonly panel: number;
  /** Per visible seam, per tick of visible seam, per avoided zone met. */
  readonly visible: number;
  readonly visibleLength: number;
  readonly penalty: number;
}

export interface RelaxedSplit {
  readonly value: number;
  /** Widths and lengths of the panels, at most those of a real split. */
  readonly across: readonly number[];
  readonly along: readonly number[];
  /** All copies together. */
  readonly visible: number;
  readonly visibleLength: number;
  readonly penalties: number;
}
