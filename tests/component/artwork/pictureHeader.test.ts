import { expect, test } from "vitest";
import { pictureHeader } from "../../../renderer/artwork/pictureHeader.ts";

const bytes = (...parts: (string | readonly number[])[]): Uint8Array =>
  Uint8Array.from(parts.flatMap((part) => (typeof part === "string" ? [...part].map((c) => c.charCodeAt(0)) : part)));

const png = [0x89, ..."PNG\r\n\x1a\n"].map((c) => (typeof c === "number" ? c : c.charCodeAt(0)));

test("a PNG tells its size in its first chunk", () => {
  const whole = bytes(png, [0, 0, 0, 13], "IHDR", [0, 0, 4, 1], [0, 0, 0, 2], [8, 2, 0, 0, 0]);
  expect(pictureHeader(whole)).toEqual({ kind: "PNG", width: 1025, height: 2 });
  expect(pictureHeader(whole.slice(0, 20))).toEqual({ kind: "PNG", width: null, height: null });
  // As a part of a longer buffer.
  expect(pictureHeader(bytes([9, 9], [...whole]).subarray(2))).toEqual({ kind: "PNG", width: 1025, height: 2 });
});

test("a JPEG tells its size in its frame header, behind whatever stands before it", () => {
  const application = [0xff, 0xe1, 0, 6, 1, 2, 3, 4];
  const tables = [0xff, 0xc4, 0, 4, 0, 0];
  const frame = [0xff, 0xff, 0xc2, 0, 11, 8, 1, 2, 3, 4, 1];
  const whole = bytes([0xff, 0xd8], application, tables, frame, [0, 0]);
  expect(pictureHeader(whole)).toEqual({ kind: "JPEG", height: 258, width: 772 });
  expect(pictureHeader(whole.slice(0, 12))).toEqual({ kind: "JPEG", width: null, height: null });
});

test("anything else is no picture, whatever its name may be", () => {
  expect(pictureHeader(bytes("GIF89a"))).toBeNull();
  expect(pictureHeader(bytes('{"format":"lapwright-job"}'))).toBeNull();
  expect(pictureHeader(new Uint8Array(0))).toBeNull();
});
