/** What the first bytes of a picture tell before it is decoded; `null` for a size that they do not hold. */
export interface PictureHeader {
  readonly kind: "PNG" | "JPEG";
  readonly width: number | null;
  readonly height: number | null;
}

/** The eight bytes every PNG begins with: ISO/IEC 15948:2004, section 5.2. */
const pngMark = [0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a];

/**
 * Kind and size of a PNG or JPEG picture by its content, whatever its name says; null for anything else.
 *
 * Sources: PNG, ISO/IEC 15948:2004, sections 5.2 and 11.2.2; JPEG, ITU-T T.81 (1992), annex B.
 */
export function pictureHeader(bytes: Uint8Array): PictureHeader | null {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  if (pngMark.every((byte, at) => bytes[at] === byte)) {
    if (bytes.length < 24) return { kind: "PNG", width: null, height: null };
    return { kind: "PNG", width: view.getUint32(16), height: view.getUint32(20) };
  }
  if (bytes[0] !== 0xff || bytes[1] !== 0xd8) return null;
  // Segments, each a marker and its length, up to the frame header that holds the size.
  for (let at = 2; at + 9 <= bytes.length; ) {
    if (bytes[at] !== 0xff) break;
    const marker = bytes[at + 1] as number;
    if (marker === 0xff) {
      at += 1; // a filling byte
      continue;
    }
    const isFrame = marker >= 0xc0 && marker <= 0xcf && marker !== 0xc4 && marker !== 0xc8 && marker !== 0xcc;
    if (isFrame) return { kind: "JPEG", height: view.getUint16(at + 5), width: view.getUint16(at + 7) };
    at += 2 + view.getUint16(at + 2);
  }
  return { kind: "JPEG", width: null, height: null };
}
