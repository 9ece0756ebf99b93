/** 1, 2, 4, ... and a rest that together make every number up to n. */
export function powersOfTwo(n: number): number[] {
  const parts: number[] = [];
  let rest = n;
  for (let part = 1; rest > 0; part *= 2) {
    parts.push(Math.min(part, rest));
    rest -= part;
  }
  return parts;
}
