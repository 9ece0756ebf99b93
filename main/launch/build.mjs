import { createHash } from "node:crypto";
import { existsSync, mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { stripVTControlCharacters } from "node:util";
import { startChild } from "./children.mjs";

const sources = ["core", "shared", "main", "renderer", "electron.vite.config.ts", "tsconfig.json", "package-lock.json"];
const results = [
  "out/main/electron.js",
  "out/main/loopback.js",
  "out/main/planWorker.js",
  "out/preload/preload.cjs",
  "out/renderer/index.html",
];

function* filesUnder(root, path) {
  const full = join(root, path);
  if (!existsSync(full)) return;
  const entries = readdirSync(full, { withFileTypes: true, recursive: true });
  for (const entry of entries) if (entry.isFile()) yield join(entry.parentPath, entry.name);
}

/** One text for all that the bundles are made of: it changes when any source does, whatever the clock says. */
function stampOf(root) {
  const hash = createHash("sha256");
  for (const source of sources) {
    const single = /\.(ts|json)$/.test(source);
    const files = single ? [join(root, source)] : [...filesUnder(root, source)].sort();
    for (const file of files) hash.update(file.slice(root.length)).update("\0").update(readFileSync(file)).update("\0");
  }
  return hash.digest("hex");
}

const pause = (milliseconds) => new Promise((resolve) => setTimeout(resolve, milliseconds));

function isAlive(pid) {
  try {
    process.kill(pid, 0);
    return true;
  } catch (cause) {
    return cause.code === "EPERM";
  }
}

/** Two starts at one time must not write the same bundle: the second waits for the first. */
async function locked(file, task) {
  for (;;) {
    try {
      writeFileSync(file, String(process.pid), { flag: "wx" });
      break;
    } catch (cause) {
      if (cause.code !== "EEXIST") throw cause;
      const holder = existsSync(file) ? Number(readFileSync(file, "utf8")) : 0;
      if (holder > 0 && isAlive(holder)) await pause(200);
      else rmSync(file, { force: true });
    }
  }
  try {
    return await task();
  } finally {
    rmSync(file, { force: true });
  }
}

/** What the tool said, without colours and without where in its own files it was when it said so. */
const plainWords = (said) =>
  stripVTControlCharacters(said)
    .split("\n")
    .filter((line) => !/^\s+at .*[:)]/.test(line))
    .join("\n")
    .trim();

function runBuild(root) {
  const tool = join(root, "node_modules", "electron-vite", "bin", "electron-vite.js");
  if (!existsSync(tool)) return Promise.resolve("The packages are not installed; run `npm ci` first.");
  return new Promise((resolve) => {
    const child = startChild(process.execPath, [tool, "build"], { cwd: root, stdio: ["ignore", "pipe", "pipe"] });
    let said = "";
    child.stdout.on("data", (data) => (said += data));
    child.stderr.on("data", (data) => (said += data));
    child.once("error", (cause) => resolve(cause.message));
    child.once("close", (code) =>
      resolve(code === 0 ? null : plainWords(said) || `The build ended with code ${code}.`),
    );
  });
}

/**
 * Builds the bundles if any source has changed since they were made.
 *
 * @param {string} root the program's folder
 * @param {(text: string) => void} say
 * @returns {Promise<string | null>} what went wrong, in the build's own words; null when the bundles stand
 */
export async function buildStale(root, say) {
  const out = join(root, "out");
  mkdirSync(out, { recursive: true });
  return locked(join(out, ".building"), async () => {
    const stampFile = join(out, ".stamp");
    const stamp = stampOf(root);
    const fresh = existsSync(stampFile) && readFileSync(stampFile, "utf8") === stamp;
    if (fresh && results.every((result) => existsSync(join(root, result)))) return null;
    say("Building the program ...");
    rmSync(stampFile, { force: true });
    const fault = await runBuild(root);
    if (fault === null) writeFileSync(stampFile, stamp);
    return fault;
  });
}
