import { readFileSync } from "node:fs";
import { join } from "node:path";
import { projectRoot } from "./projectRoot.ts";

/** A JSON file of tests/data, as the type the caller knows it to have. */
export function dataFile<T>(name: string): T {
  return JSON.parse(readFileSync(join(projectRoot, "tests/data", name), "utf8")) as T;
}
