/**
 * The known key that a mistyped one was most likely meant to be.
 *
 * @param key what stands in the file
 * @param known keys that the place takes
 * @returns the nearest known key, or null when none is near: capitals aside, at most a third of the letters may differ
 *
 * Time O(known x length²). Ties: the first in `known`.
 */
export function nearestKey(key: string, known: readonly string[]): string | null {
  const allowed = Math.max(1, Math.floor(key.length / 3));
  let [best, bestDistance] = [null as string | null, allowed + 1];
  if (key.length > 60) return null;
  for (const candidate of known) {
    const distance = editDistance(plain(key), plain(candidate));
    if (distance < bestDistance) [best, bestDistance] = [candidate, distance];
  }
  return best;
}

const plain = (key: string): string => key.toLowerCase().replace(/[\s_-]/g, "");

/**
 * Letters to insert, drop, change or swap with their neighbour. Damerau (1964), Communications of the ACM 7(3), 171–176,
 * in the form where no stretch is edited twice.
 */
function editDistance(a: string, b: string): number {
  let before: number[] = [];
  let last = Array.from({ length: b.length + 1 }, (_, j) => j);
  for (let i = 1; i <= a.length; i++) {
    const row = [i];
    for (let j = 1; j <= b.length; j++) {
      const same = a[i - 1] === b[j - 1];
      let least = Math.min((last[j] ?? 0) + 1, (row[j - 1] ?? 0) + 1, (last[j - 1] ?? 0) + (same ? 0 : 1));
      if (i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1])
        least = Math.min(least, (before[j - 2] ?? 0) + 1);
      row.push(least);
    }
    [before, last] = [last, row];
  }
  return last[b.length] ?? 0;
}
