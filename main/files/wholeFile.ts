import { mkdir, open, stat } from "node:fs/promises";
import { basename, dirname } from "node:path";
import writeFileAtomic from "write-file-atomic";
import { FileFault, fileFault } from "./fileFault.ts";

/** A few bytes over what a job may have, so that the reader itself can say by how much a file is too large. */
export const largestRead = 64_000_000;

/**
 * Reads a whole text file as UTF-8.
 *
 * @throws FileFault when it is not there, may not be read, is no plain file or has more than `largestRead` bytes
 */
export async function readWhole(path: string): Promise<string> {
  const name = basename(path);
  try {
    const file = await open(path, "r");
    try {
      const found = await file.stat();
      if (found.isDirectory()) throw new FileFault("EISDIR", `${name} can't be read: it is a folder, not a file.`);
      if (found.size > largestRead)
        throw new FileFault("EFBIG", `${name} has ${found.size} bytes; at most 20 MB are read.`);
      return await file.readFile("utf8");
    } finally {
      await file.close();
    }
  } catch (cause) {
    throw fileFault(cause, "read", name);
  }
}

/**
 * Writes a whole text file, or leaves what was there: the text goes to a neighbouring file, is flushed to the disk and
 * takes the name in one step. The folder is made when it is missing.
 *
 * @throws FileFault when the folder or the file can't be written
 */
export async function writeWhole(path: string, text: string): Promise<void> {
  try {
    await makeFolder(dirname(path));
    await writeFileAtomic(path, text, { encoding: "utf8" });
  } catch (cause) {
    throw fileFault(cause, "write", basename(path));
  }
}

/** Makes a folder with those above it. A file where the folder should be is told apart from one of the wanted name. */
async function makeFolder(path: string): Promise<void> {
  try {
    await mkdir(path, { recursive: true });
  } catch (cause) {
    const taken = (cause as NodeJS.ErrnoException).code === "EEXIST";
    throw taken ? Object.assign(new Error("a file is in the way", { cause }), { code: "ENOTDIR" }) : cause;
  }
}

/** Whether anything stands under that name. */
export async function isThere(path: string): Promise<boolean> {
  try {
    await stat(path);
    return true;
  } catch (cause) {
    if ((cause as NodeJS.ErrnoException).code === "ENOENT") return false;
    throw fileFault(cause, "read", basename(path));
  }
}
