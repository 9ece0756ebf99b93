/** Five numbers of a sample: least, quarter, median, three quarters, most. @throws RangeError when it is empty */
export function spread(sample: readonly number[]): readonly [number, number, number, number, number] {
  if (sample.length === 0) throw new RangeError("an empty sample has no spread");
  const sorted = [...sample].sort((a, b) => a - b);
  const at = (share: number): number => {
    const place = share * (sorted.length - 1);
    const [low, high] = [sorted[Math.floor(place)] ?? 0, sorted[Math.ceil(place)] ?? 0];
    return low + (high - low) * (place - Math.floor(place));
  };
  return [at(0), at(0.25), at(0.5), at(0.75), at(1)];
}

export const median = (sample: readonly number[]): number => spread(sample)[2];

/** "median 1.23 s (1.10 to 1.40, 5 runs)" */
export function told(sample: readonly number[], unit: string, digits = 2): string {
  const [least, , middle, , most] = spread(sample);
  const shown = (value: number): string => value.toFixed(digits);
  return `median ${shown(middle)} ${unit} (${shown(least)} to ${shown(most)}, ${sample.length} runs)`;
}
