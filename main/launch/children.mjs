import { spawn, spawnSync } from "node:child_process";
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";

/**
 * What one start of the program has brought into the world: processes and folders. Everything goes with it, whichever
 * way it ends.
 */
const children = new Set();
const folders = new Set();
const onWindows = process.platform === "win32";

/**
 * Starts a process at the head of a group of its own, so that whatever it starts can be ended with it. A
 * process that has ended stays in the list: what it started may outlive it for a moment and still write to its folder.
 */
export function startChild(command, args, options = {}) {
  const child = spawn(command, args, { detached: !onWindows, windowsHide: true, ...options });
  children.add(child);
  child.once("error", () => children.delete(child));
  return child;
}

/** Ends a process with all that it started. */
export function endChild(child, signal = "SIGTERM") {
  if (child.pid === undefined) return;
  if (onWindows) {
    if (child.exitCode !== null) return;
    spawnSync("taskkill", ["/pid", String(child.pid), "/t", "/f"], { stdio: "ignore" });
    return;
  }
  try {
    process.kill(-child.pid, signal);
  } catch (cause) {
    if (cause.code !== "ESRCH") throw cause; // ESRCH: the whole group is gone already
  }
}

/** An empty folder that this user alone can open, removed at the end. */
export function ownFolder(name) {
  const folder = mkdtempSync(join(tmpdir(), `lapwright-${name}-`));
  folders.add(folder);
  return folder;
}

export function removeFolder(folder) {
  folders.delete(folder);
  rmSync(folder, { recursive: true, force: true, maxRetries: 10, retryDelay: 50 });
}

const ended = (child) =>
  new Promise((resolve) => {
    if (child.exitCode !== null || child.signalCode !== null || child.pid === undefined) resolve();
    else child.once("exit", resolve);
  });

const pause = (milliseconds) => new Promise((resolve) => setTimeout(resolve, milliseconds));

/** Ends everything: first by asking, after two seconds by force. */
export async function endAll() {
  const running = [...children];
  for (const child of running) endChild(child);
  await Promise.race([Promise.all(running.map(ended)), pause(2000)]);
  endAllNow();
}

/** The same at once, for the last moment. */
export function endAllNow() {
  for (const child of children) endChild(child, "SIGKILL");
  children.clear();
  for (const folder of [...folders]) removeFolder(folder);
}
