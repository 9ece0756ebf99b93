/** Lengths and costs in published instances may have this many decimals. */
export const MOST_DECIMALS = 6;

/** How many decimals a number needs, one more than allowed when it needs too many. */
export function decimals(value: number): number {
  for (let places = 0; places <= MOST_DECIMALS; places++) {
    if (Number(value.toFixed(places)) === value) return places;
  }
  return MOST_DECIMALS + 1;
}

/** The power of ten that makes all of them whole. */
export const scaleOf = (values: readonly number[]): number => 10 ** Math.max(0, ...values.map(decimals));
