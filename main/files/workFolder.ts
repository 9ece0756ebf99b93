import { readdir, stat } from "node:fs/promises";
import { homedir } from "node:os";
import { join } from "node:path";
import { fileFault } from "./fileFault.ts";

/** Where jobs are kept when no dialog asks: made with the first save, never before. */
export const defaultWorkFolder = (): string => join(homedir(), "Lapwright");

/** Most files that a list shows. */
const mostListed = 1000;

export interface FolderEntry {
  readonly name: string;
  readonly path: string;
  /** When it was last written, milliseconds since 1970. */
  readonly changed: number;
}

/** Job files of the folder, newest first, equal times by name; empty when there is no such folder yet. */
export async function jobsIn(folder: string): Promise<FolderEntry[]> {
  try {
    const names = (await readdir(folder)).filter((name) => /\.json$/i.test(name) && !/\.plan\.json$/i.test(name));
    const entries = await Promise.all(
      names.map(async (name): Promise<FolderEntry | null> => {
        const path = join(folder, name);
        const found = await stat(path).catch(() => null); // gone between the two looks: no longer there to list
        return found?.isFile() ? { name, path, changed: found.mtimeMs } : null;
      }),
    );
    return entries
      .filter((entry) => entry !== null)
      .sort((a, b) => b.changed - a.changed || (a.name < b.name ? -1 : 1))
      .slice(0, mostListed);
  } catch (cause) {
    if ((cause as NodeJS.ErrnoException).code === "ENOENT") return [];
    throw fileFault(cause, "list", "The work folder");
  }
}
