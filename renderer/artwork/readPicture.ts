import type { Picture } from "../../core/index.ts";
import { pictureHeader } from "./pictureHeader.ts";

/** A picture ready to be read and to be shown. */
export interface DecodedPicture {
  readonly name: string;
  readonly picture: Picture;
  /** The same, smaller, as text that an image can be drawn from. */
  readonly href: string;
}

/** Longest side kept, in pixels: at 30 ft still eleven pixels an inch, finer than seams are read. */
const longest = 4096;
/** Longest side of what is drawn under the panels. */
const longestShown = 1600;
const mostBytes = 100_000_000;
/** Decoding takes four bytes a pixel at once. */
const mostPixels = 80_000_000;

/** Decodes a PNG or JPEG file in the browser; or tells, in words for people, why not. */
export async function readPicture(file: File): Promise<DecodedPicture | { readonly why: string }> {
  const { name } = file;
  if (file.size === 0) return { why: `${name} is empty.` };
  if (file.size > mostBytes) {
    return { why: `${name} has ${megabytes(file.size)}; at most ${megabytes(mostBytes)} are taken. ${smaller}` };
  }
  const header = pictureHeader(new Uint8Array(await file.arrayBuffer()));
  if (header === null) return { why: `${name} is no PNG or JPEG picture. Export the artwork as one of the two.` };
  const { kind, width, height } = header;
  if (width === 0 || height === 0) return { why: `${name} is a ${kind} picture without a single pixel.` };
  if (width !== null && height !== null && width * height > mostPixels) {
    return { why: `${name} measures ${width} by ${height} pixels, more than can be decoded here. ${smaller}` };
  }
  let bitmap: ImageBitmap;
  try {
    bitmap = await createImageBitmap(file);
  } catch {
    // The browser's own words tell no more than that it could not.
    return { why: `${name} can't be decoded: the file is damaged, or of a kind of ${kind} that is not read here.` };
  }
  try {
    const { data, width, height } = drawn(bitmap, longest).pixels();
    return { name, picture: { width, height, data }, href: drawn(bitmap, longestShown, "white").text() };
  } finally {
    bitmap.close();
  }
}

const smaller = `Export it smaller: ${longest} pixels on its longer side are all that is looked at.`;

const megabytes = (bytes: number): string => `${Math.round(bytes / 100_000) / 10} MB`;

/** The bitmap on a canvas of its own, at most so many pixels long. */
function drawn(bitmap: ImageBitmap, most: number, ground?: string) {
  const scale = Math.min(1, most / Math.max(bitmap.width, bitmap.height));
  const canvas = document.createElement("canvas");
  canvas.width = Math.max(1, Math.round(bitmap.width * scale));
  canvas.height = Math.max(1, Math.round(bitmap.height * scale));
  const context = canvas.getContext("2d", { willReadFrequently: ground === undefined });
  if (context === null) throw new Error("The browser gives no canvas to draw the picture on.");
  if (ground !== undefined) {
    context.fillStyle = ground;
    context.fillRect(0, 0, canvas.width, canvas.height);
  }
  context.imageSmoothingQuality = "high";
  context.drawImage(bitmap, 0, 0, canvas.width, canvas.height);
  return {
    pixels: () => context.getImageData(0, 0, canvas.width, canvas.height),
    text: () => canvas.toDataURL("image/jpeg", 0.8),
  };
}
