/** What no file name holds on one of the three systems, control characters included. */
// biome-ignore lint/suspicious/noControlCharactersInRegex: control characters are exactly what is looked for
const forbidden = /[<>:"/\\|?*\u0000-\u001f\u007f]+/g;
const reserved = /^(con|prn|aux|nul|com\d|lpt\d)$/i;

/** Longest stem in characters, so that with any ending the name stays under the 255 bytes of common file systems. */
const longestStem = 60;

/**
 * A file name's stem that every system takes, made of any text: no folders, no dots in front, none of the names that
 * Windows keeps to itself; "job" when nothing is left.
 */
export function safeStem(text: string): string {
  const plain = text.normalize("NFC").replace(forbidden, " ").replace(/\s+/g, " ").trim();
  const cut = [...plain].slice(0, longestStem).join("");
  const stem = cut.replace(/^[.\s]+|[.\s]+$/g, "");
  if (stem === "") return "job";
  return reserved.test(stem.split(".")[0] ?? "") ? `job ${stem}` : stem;
}

/** The stem of a job's file name: without folders and without `.job.json` or `.json`. */
export function jobStem(fileName: string): string {
  const last = fileName.split(/[\\/]/).pop() ?? fileName;
  return safeStem(last.replace(/(\.job)?\.json$/i, ""));
}

/** The full name a job is kept under. */
export const jobFileName = (name: string): string => `${jobStem(name)}.job.json`;
