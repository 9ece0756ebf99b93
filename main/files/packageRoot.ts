import { existsSync, readFileSync } from "node:fs";
import { dirname, join } from "node:path";

const isRoot = (folder: string): boolean => {
  const file = join(folder, "package.json");
  return existsSync(file) && (JSON.parse(readFileSync(file, "utf8")) as { name?: unknown }).name === "lapwright";
};

/**
 * The folder that the program's own package.json stands in, found upward from `start`: the same from the sources, from
 * the bundle and inside a packaged app.
 *
 * @throws Error when no folder above `start` is that of this package
 */
export function packageRoot(start: string = import.meta.dirname): string {
  for (let folder = start; ; folder = dirname(folder)) {
    if (isRoot(folder)) return folder;
    if (dirname(folder) === folder) throw new Error(`No package.json of lapwright above ${start}`);
  }
}

/** The version that package.json gives. */
export function packageVersion(root: string): string {
  return (JSON.parse(readFileSync(join(root, "package.json"), "utf8")) as { version: string }).version;
}
