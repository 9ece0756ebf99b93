/**
 * Moves points on a line apart until neighbours are at least `least` from one another, each as little as can be (in the
 * sum of squares), within from..to where that has room.
 *
 * @param wanted places in any order
 * @returns the new places in the order of `wanted`; ties keep their order
 *
 * Pool adjacent violators on wanted[i] - i * least. Time O(n log n).
 * Source: Ayer, Brunk, Ewing, Reid and Silverman (1955), Annals of Mathematical Statistics 26(4), 641-647 (from memory).
 */
export function spread(wanted: readonly number[], least: number, from: number, to: number): number[] {
  const order = wanted.map((_, index) => index).sort((a, b) => (wanted[a] ?? 0) - (wanted[b] ?? 0) || a - b);
  const pools: { sum: number; count: number }[] = [];
  order.forEach((index, rank) => {
    let pool = { sum: (wanted[index] ?? 0) - rank * least, count: 1 };
    for (let last = pools.at(-1); last && last.sum / last.count >= pool.sum / pool.count; last = pools.at(-1)) {
      pools.pop();
      pool = { sum: pool.sum + last.sum, count: pool.count + last.count };
    }
    pools.push(pool);
  });
  const highest = Math.max(from, to - (wanted.length - 1) * least);
  const places = new Array<number>(wanted.length).fill(0);
  let rank = 0;
  for (const { sum, count } of pools) {
    const base = Math.min(Math.max(sum / count, from), highest);
    for (let member = 0; member < count; member++) {
      places[order[rank] ?? 0] = base + rank * least;
      rank++;
    }
  }
  return places;
}
