/** Reading or writing a file failed for a reason that lies outside the program. The message names the file, never its folder. */
export class FileFault extends Error {
  override readonly name = "FileFault";
  readonly code: string;

  constructor(code: string, message: string) {
    super(message);
    this.code = code;
  }
}

const reasons: Readonly<Record<string, string>> = {
  ENOENT: "there is no such file or folder",
  EACCES: "this user may not open it",
  EPERM: "this user may not change it",
  EROFS: "the disk can only be read",
  ENOSPC: "the disk is full",
  EDQUOT: "the disk quota is used up",
  EISDIR: "it is a folder, not a file",
  ENOTDIR: "a file stands where a folder is needed",
  ENAMETOOLONG: "the name is too long",
  EEXIST: "a file of that name is there already",
  EBUSY: "another program holds it",
  EMFILE: "too many files are open",
  ELOOP: "its links go round in a circle",
};

/** Turns what the system says into words, or gives the error back when it is no fault of the disk. */
export function fileFault(cause: unknown, doing: "read" | "write" | "list", name: string): unknown {
  const code = cause instanceof Error ? (cause as NodeJS.ErrnoException).code : undefined;
  if (code === undefined || !/^E[A-Z]+$/.test(code)) return cause;
  const verb = { read: "can't be read", write: "can't be written", list: "can't be listed" }[doing];
  return new FileFault(code, `${name} ${verb}: ${reasons[code] ?? `the system says ${code}`}.`);
}
