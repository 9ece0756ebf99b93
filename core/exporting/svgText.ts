/** Text made safe for SVG: marks of XML escaped, and what XML 1.0 can't hold replaced. */
export function escapeXml(text: string): string {
  return (
    text
      .replace(/[\ud800-\udbff](?![\udc00-\udfff])|(?<![\ud800-\udbff])[\udc00-\udfff]/g, "\ufffd")
      // biome-ignore lint/suspicious/noControlCharactersInRegex: names from a job may hold anything
      .replace(/[\u0000-\u001f\u007f-\u009f\u2028\u2029]+/g, " ")
      .replace(/[\ufffe\uffff]/g, "\ufffd")
      .replace(/&/g, "&amp;")
      .replace(/</g, "&lt;")
      .replace(/>/g, "&gt;")
      .replace(/"/g, "&quot;")
      .replace(/'/g, "&#39;")
  );
}

/**
 * Upper estimate of a text's width in a sans serif face such as Inter at size 1, since no font is at hand here: rather
 * a name too few than two names over one another.
 */
export function textWidth(text: string): number {
  let width = 0;
  for (const letter of text) {
    const code = letter.codePointAt(0) ?? 0;
    if (code > 0x2e80) width += 1.1;
    else if (/[ijlft.,:;'|!\s]/.test(letter)) width += 0.4;
    else if (/[MWmw@%—…]/.test(letter)) width += 1;
    else if (/[A-Z×≈+=<>&]/.test(letter)) width += 0.76;
    else width += 0.66;
  }
  return width;
}

/** The text, or as much of its beginning as fits with an ellipsis. */
export function fitText(text: string, size: number, room: number): string {
  if (textWidth(text) * size <= room) return text;
  const letters = [...text];
  while (letters.length > 0 && textWidth(`${letters.join("")}…`) * size > room) letters.pop();
  return letters.length === 0 ? "" : `${letters.join("").trimEnd()}…`;
}
