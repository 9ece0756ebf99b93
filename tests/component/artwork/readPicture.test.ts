import { afterEach, expect, test, vi } from "vitest";
import { readPicture } from "../../../renderer/artwork/readPicture.ts";

afterEach(() => vi.unstubAllGlobals());

/** The first bytes of a PNG of such a size. */
function head(width: number, height: number): Uint8Array<ArrayBuffer> {
  const bytes = new Uint8Array(33);
  bytes.set([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a, 0, 0, 0, 13, 0x49, 0x48, 0x44, 0x52]);
  const view = new DataView(bytes.buffer);
  view.setUint32(16, width);
  view.setUint32(20, height);
  return bytes;
}

const whyOf = async (content: BlobPart[], name = "van.png"): Promise<string> => {
  const read = await readPicture(new File(content, name));
  return "why" in read ? read.why : "read";
};

test("what is no picture, or one that can't be taken, says what it is and what would help", async () => {
  const decode = vi.fn(async () => Promise.reject(new Error("damaged")));
  vi.stubGlobal("createImageBitmap", decode);
  expect(await whyOf([])).toBe("van.png is empty.");
  expect(await whyOf(["%PDF-1.7"], "van.pdf")).toBe(
    "van.pdf is no PNG or JPEG picture. Export the artwork as one of the two.",
  );
  expect(await whyOf([head(0, 40)])).toBe("van.png is a PNG picture without a single pixel.");
  expect(await whyOf([head(10_000, 8_001)])).toBe(
    "van.png measures 10000 by 8001 pixels, more than can be decoded here. " +
      "Export it smaller: 4096 pixels on its longer side are all that is looked at.",
  );
  // None of these was given to the browser to decode.
  expect(decode).not.toHaveBeenCalled();
  expect(await whyOf([head(10_000, 8_000)])).toMatch(/^van\.png can't be decoded: the file is damaged/);
  expect(decode).toHaveBeenCalledOnce();
});

test("a file beyond all measure is not even read", async () => {
  const file = new File(["x"], "wall.png");
  Object.defineProperty(file, "size", { value: 120_400_000 });
  const read = vi.spyOn(file, "arrayBuffer");
  expect(await readPicture(file)).toEqual({
    why:
      "wall.png has 120.4 MB; at most 100 MB are taken. " +
      "Export it smaller: 4096 pixels on its longer side are all that is looked at.",
  });
  expect(read).not.toHaveBeenCalled();
});
