const widest = 110;

/**
 * JSON text to be read by people: two spaces a level, lists of plain values and small groups on one line where they fit.
 *
 * @param value what JSON can hold; keys keep their order
 * @returns the text with a final newline; the same value gives the same bytes
 */
export function prettyJson(value: unknown): string {
  return `${write(value, "")}\n`;
}

function write(value: unknown, indent: string): string {
  if (typeof value !== "object" || value === null) return JSON.stringify(value);
  const deeper = `${indent}  `;
  const isList = Array.isArray(value);
  const entries: [string, unknown][] = isList
    ? value.map((inner) => ["", inner])
    : Object.entries(value)
        .filter(([, inner]) => inner !== undefined)
        .map(([key, inner]) => [`${JSON.stringify(key)}: `, inner]);
  const [open, close] = isList ? "[]" : "{}";
  if (entries.length === 0) return `${open}${close}`;
  if (entries.every(([, inner]) => isPlain(inner))) {
    const inside = entries.map(([key, inner]) => key + oneLine(inner)).join(", ");
    if (indent.length + inside.length <= widest) return isList ? `[${inside}]` : `{ ${inside} }`;
  }
  return `${open}\n${entries.map(([key, inner]) => deeper + key + write(inner, deeper)).join(",\n")}\n${indent}${close}`;
}

const isLeaf = (value: unknown): boolean => typeof value !== "object" || value === null;
/** A leaf, or a short list of leaves such as a point or a box. */
const isPlain = (value: unknown): boolean =>
  isLeaf(value) || (Array.isArray(value) && value.length <= 4 && value.every(isLeaf));
const oneLine = (value: unknown): string =>
  Array.isArray(value) ? `[${value.map((inner) => JSON.stringify(inner)).join(", ")}]` : JSON.stringify(value);
