/** Advance widths of the bundled family at its heavier weight, in hundredths of an em, rounded up. */
const widths = new Map<string, number>();
for (const [letters, width] of [
  ["ijlI", 28],
  [",.: ·", 32],
  ["!';`t|", 36],
  ["()/[\\]f", 39],
  ["r{}", 46],
  ['-_^"*', 54],
  ["?sLkxzJaFcvye", 60],
  ["Eohnubdgpq", 63],
  ["0123456789#P$BRSZ", 66],
  ["&T+<=>~×", 69],
  ["KXYADV", 74],
  ["CUGHNOQ", 78],
  ["w", 84],
  ["mM", 93],
  ["@%W…", 103],
] as const) {
  for (const letter of letters) widths.set(letter, width);
}

/** Width in pixels of one line of text, from above: known without a screen, so that placing it can be tested. */
export function textWidth(text: string, size: number): number {
  let sum = 0;
  for (const letter of text) sum += widths.get(letter) ?? (letter < "\u0250" ? 80 : 105);
  return (sum * size) / 100;
}

/** Width of numbers set as figures: fractions take little more than half their letters, units are smaller. */
export function figureWidth(text: string, size: number): number {
  let width = textWidth(text, size);
  for (const [fraction] of text.matchAll(/\d+\/\d+/g)) width -= 0.35 * textWidth(fraction, size);
  return width;
}

/** The longest beginning of the text that fits, with an ellipsis when something is left off; "" when nothing sensible fits. */
export function fitted(text: string, size: number, width: number): string {
  if (textWidth(text, size) <= width) return text;
  const letters = [...text];
  let low = 0;
  let high = letters.length - 1;
  while (low < high) {
    const half = Math.ceil((low + high) / 2);
    if (textWidth(`${letters.slice(0, half).join("")}…`, size) <= width) low = half;
    else high = half - 1;
  }
  return low < 3 ? "" : `${letters.slice(0, low).join("").trimEnd()}…`;
}
