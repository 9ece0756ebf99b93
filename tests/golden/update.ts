import { existsSync, mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { projectRoot } from "../support/projectRoot.ts";
import { goldens } from "./goldens.ts";

/**
 * Writes every golden file anew and prints what changes, line by line. Look at it before committing, and say in the
 * commit why the files moved.
 */
const folder = join(projectRoot, "tests/golden/files");
mkdirSync(folder, { recursive: true });
const made = goldens();
let changed = 0;
for (const [name, text] of made) {
  const path = join(folder, name);
  const before = existsSync(path) ? readFileSync(path, "utf8") : null;
  if (before === text) continue;
  changed++;
  console.log(before === null ? `new: ${name}` : `changed: ${name}`);
  if (before !== null) printDifference(before.split("\n"), text.split("\n"));
  writeFileSync(path, text);
}
for (const name of readdirSync(folder)) {
  if (made.has(name)) continue;
  changed++;
  console.log(`gone: ${name}`);
  rmSync(join(folder, name));
}
console.log(changed === 0 ? "Nothing changed." : `${changed} golden ${changed === 1 ? "file" : "files"} changed.`);

/** Lines that left and lines that came between the common beginning and the common end. */
function printDifference(before: readonly string[], after: readonly string[]): void {
  let first = 0;
  while (first < Math.min(before.length, after.length) && before[first] === after[first]) first++;
  let last = 0;
  const most = Math.min(before.length, after.length) - first;
  while (last < most && before.at(-1 - last) === after.at(-1 - last)) last++;
  for (const line of before.slice(first, before.length - last)) console.log(`  ${first + 1} - ${line}`);
  for (const line of after.slice(first, after.length - last)) console.log(`  ${first + 1} + ${line}`);
}
