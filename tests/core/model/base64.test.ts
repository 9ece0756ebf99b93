import fc from "fast-check";
import { expect, test } from "vitest";
import { base64From, bytesFromBase64 } from "../../../core/model/base64.ts";

test("the examples of RFC 4648, section 10", () => {
  const examples = {
    "": "",
    f: "Zg==",
    fo: "Zm8=",
    foo: "Zm9v",
    foob: "Zm9vYg==",
    fooba: "Zm9vYmE=",
    foobar: "Zm9vYmFy",
  };
  for (const [plain, coded] of Object.entries(examples)) {
    const bytes = Uint8Array.from(plain, (character) => character.charCodeAt(0));
    expect(base64From(bytes)).toBe(coded);
    expect(bytesFromBase64(coded)).toEqual(bytes);
  }
});

test("any bytes come back, and as Node writes them", () => {
  fc.assert(
    fc.property(fc.uint8Array({ maxLength: 300 }), (bytes) => {
      const text = base64From(bytes);
      expect(text).toBe(Buffer.from(bytes).toString("base64"));
      expect(bytesFromBase64(text)).toEqual(new Uint8Array(bytes));
    }),
    { seed: 20261104 },
  );
});
