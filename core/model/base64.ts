/**
 * Bytes as text and back, by RFC 4648 section 4: four characters for three bytes, padded with "=". Written out here since
 * neither a browser's nor Node's own functions may be used in the core.
 */

const alphabet = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
const sixBits = new Map([...alphabet].map((character, value) => [character, value]));

export function base64From(bytes: Uint8Array): string {
  const parts: string[] = [];
  for (let i = 0; i < bytes.length; i += 3) {
    const [a, b, c] = [bytes[i] as number, bytes[i + 1] ?? 0, bytes[i + 2] ?? 0];
    const group = (a << 16) | (b << 8) | c;
    const at = (shift: number) => alphabet[(group >> shift) & 63] as string;
    parts.push(at(18), at(12), i + 1 < bytes.length ? at(6) : "=", i + 2 < bytes.length ? at(0) : "=");
  }
  return parts.join("");
}

/** Characters that are none of the alphabet are passed over, as padding is. Time O(n). */
export function bytesFromBase64(text: string): Uint8Array {
  const bytes = new Uint8Array(Math.ceil((text.length * 3) / 4));
  let [held, bits, count] = [0, 0, 0];
  for (const character of text) {
    const value = sixBits.get(character);
    if (value === undefined) continue;
    held = ((held << 6) | value) & 0xffffff;
    bits += 6;
    if (bits < 8) continue;
    bits -= 8;
    bytes[count++] = (held >> bits) & 255;
  }
  return bytes.slice(0, count);
}
