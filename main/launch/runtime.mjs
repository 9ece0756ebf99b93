import { spawnSync } from "node:child_process";
import { existsSync, readdirSync, readFileSync, statSync } from "node:fs";
import { join } from "node:path";
import { endChild, ownFolder, removeFolder, startChild } from "./children.mjs";

const packageFolder = (root) => join(root, "node_modules", "electron");

/** Binaries that may be there, the user's own first. Asking the package itself would start a download. */
function candidates(root, env) {
  const folder = packageFolder(root);
  const named = join(folder, "path.txt");
  const usual =
    { darwin: "Electron.app/Contents/MacOS/Electron", win32: "electron.exe" }[process.platform] ?? "electron";
  const inside = existsSync(named) ? readFileSync(named, "utf8").trim() : usual;
  const own = env.ELECTRON_OVERRIDE_DIST_PATH;
  return [...(own ? [join(own, inside), join(own, usual)] : []), join(folder, "dist", inside)];
}

/** A runtime that really starts: one without its system libraries fails here and not in front of the user. */
export function findRuntime(root, env = process.env) {
  for (const binary of candidates(root, env)) {
    if (!existsSync(binary)) continue;
    const { status } = spawnSync(binary, ["--no-sandbox", "--version"], { timeout: 8000, stdio: "ignore" });
    if (status === 0) return binary;
  }
  return null;
}

function bytesUnder(folder) {
  if (!existsSync(folder)) return 0;
  let bytes = 0;
  for (const entry of readdirSync(folder, { recursive: true, withFileTypes: true })) {
    if (!entry.isFile()) continue;
    try {
      bytes += statSync(join(entry.parentPath, entry.name)).size;
    } catch (cause) {
      if (cause.code !== "ENOENT") throw cause; // moved on between the two looks
    }
  }
  return bytes;
}

/** Plain words for what an installer that failed wrote. */
function reasonIn(said) {
  const code = /\b(ENOTFOUND|EAI_AGAIN|ECONNREFUSED|ECONNRESET|ETIMEDOUT|ENETUNREACH|EHOSTUNREACH)\b/.exec(said)?.[1];
  if (code !== undefined) return `the network says no (${code})`;
  if (/\bfetch failed\b/.test(said)) return "the network says no";
  const answer = /\bResponse code (\d{3})|\bstatus(?: code)?:? (\d{3})/i.exec(said);
  if (answer !== null) return `the download was answered with ${answer[1] ?? answer[2]}`;
  const line = said
    .split("\n")
    .map((text) => text.trim())
    .find((text) => /error/i.test(text));
  return line === undefined ? "the installer failed" : line.replace(/^(\w*Error:\s*)+/, "").slice(0, 120);
}

/**
 * Fetches a runtime with the package's own installer and shows how far it is. Progress is what grows on the disk: the
 * installer is given a temporary folder of its own to watch.
 *
 * @param {(text: string) => void} progress told how much is there whenever that has changed
 * @param {number} patience milliseconds without progress after which it is given up
 * @returns {Promise<string | null>} why there is none; null when it is there
 */
export async function fetchRuntime(root, progress, patience = 30_000) {
  const installer = join(packageFolder(root), "install.js");
  if (!existsSync(installer)) return "the electron package is not installed";
  const folder = ownFolder("download");
  const env = { ...process.env, TMPDIR: folder, TMP: folder, TEMP: folder, ELECTRON_GET_NO_PROGRESS: "1" };
  const child = startChild(process.execPath, [installer], { cwd: root, env, stdio: ["ignore", "pipe", "pipe"] });
  let said = "";
  child.stdout.on("data", (data) => (said += data));
  child.stderr.on("data", (data) => (said += data));
  let bytes = 0;
  let grewAt = performance.now();
  const fault = await new Promise((resolve) => {
    const watch = setInterval(() => {
      const now = bytesUnder(folder) + bytesUnder(join(packageFolder(root), "dist"));
      if (now !== bytes) {
        bytes = now;
        grewAt = performance.now();
        progress(`Fetching the Electron runtime: ${(bytes / 1e6).toFixed(1)} MB on disk`);
      } else if (performance.now() - grewAt > patience) {
        finish(`nothing came for ${Math.round(patience / 1000)} s`);
        endChild(child, "SIGKILL");
      }
    }, 500);
    const finish = (reason) => {
      clearInterval(watch);
      resolve(reason);
    };
    child.once("error", (cause) => finish(cause.message));
    child.once("close", (code) => finish(code === 0 ? null : reasonIn(said)));
  });
  removeFolder(folder);
  return fault;
}
