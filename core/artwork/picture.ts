/**
 * A picture as a browser decodes it: rows from the top, each from the left, four bytes a pixel (red, green, blue, alpha),
 * in sRGB, colours not multiplied by alpha. What is transparent counts as white, as film is.
 */
export interface Picture {
  readonly width: number;
  readonly height: number;
  /** 4 · width · height bytes. */
  readonly data: Uint8ClampedArray | Uint8Array;
}

/** A place in a picture, in pixels from its upper left corner, right and down; not whole. */
export interface Pixel {
  readonly x: number;
  readonly y: number;
}
