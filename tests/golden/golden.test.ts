import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";
import { projectRoot } from "../support/projectRoot.ts";
import { goldens } from "./goldens.ts";

const folder = join(projectRoot, "tests/golden/files");
const made = goldens();

test("every golden file is made by something", () => {
  expect(readdirSync(folder).sort()).toEqual([...made.keys()].sort());
});

test.each([...made])("%s, to the byte", (name, text) => {
  expect(text).toBe(readFileSync(join(folder, name), "utf8"));
});

test("the same plan gives the same bytes", () => {
  expect(goldens()).toEqual(made);
});
