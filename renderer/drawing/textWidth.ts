/** Advance widths of the bundled family in ems, rounded up, so that a label is never wider than it was taken to be. */
const narrow = new Set("iljI.,:;'|!()[]/ ·");
const slim = new Set('tfr-1"');
const broad = new Set("mwMW%@");

/** Width in pixels of one line of text, from above: measured without a screen, so that placing it can be tested. */
export function textWidth(text: string, size: number): number {
  let ems = 0;
  for (const letter of text) {
    if (narrow.has(letter)) ems += 0.34;
    else if (slim.has(letter)) ems += 0.5;
    else if (broad.has(letter)) ems += 0.98;
    else if (letter >= "0" && letter <= "9") ems += 0.66;
    else if (letter >= "A" && letter <= "Z") ems += 0.76;
    else if (letter < "\u0250") ems += 0.64;
    else ems += 1.05;
  }
  return ems * size;
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
