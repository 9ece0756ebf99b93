/** True when two JSON values hold the same, whatever the order of keys. */
export function sameJson(a: unknown, b: unknown): boolean {
  if (a === b) return true;
  if (typeof a !== "object" || typeof b !== "object" || a === null || b === null) return false;
  if (Array.isArray(a) !== Array.isArray(b)) return false;
  const keysOfA = Object.keys(a);
  if (keysOfA.length !== Object.keys(b).length) return false;
  return keysOfA.every(
    (key) => key in b && sameJson((a as Record<string, unknown>)[key], (b as Record<string, unknown>)[key]),
  );
}
