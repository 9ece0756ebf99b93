import { dirname, join } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";
import { findBrowser, needsNoSandbox, openAppWindow } from "./browser.mjs";
import { buildStale } from "./build.mjs";
import { endAll, endAllNow, startChild } from "./children.mjs";
import { whyNoDisplay } from "./display.mjs";
import { readOptions, usage } from "./options.mjs";
import { fetchRuntime, findRuntime } from "./runtime.mjs";

/**
 * Starts the program as well as this machine allows: in an Electron runtime that is there or can be fetched; else in an
 * app window of an installed browser; else at an address that any browser of this machine can open. Plain JavaScript,
 * so that it needs no build. Whatever it starts ends with it.
 */
const root = dirname(dirname(dirname(fileURLToPath(import.meta.url))));
const onTerminal = process.stderr.isTTY === true;
let lineOpen = false;

const say = (text) => {
  process.stderr.write(`${lineOpen ? "\n" : ""}${text}\n`);
  lineOpen = false;
};
/** On a terminal the line is written over; elsewhere progress is kept to a line for each ten megabytes. */
let lastTen = -1;
const progress = (text) => {
  if (onTerminal) {
    process.stderr.write(`\r\x1b[2K${text}`);
    lineOpen = true;
    return;
  }
  const ten = Math.floor(Number(/([\d.]+) MB/.exec(text)?.[1] ?? 0) / 10);
  if (ten !== lastTen) say(text);
  lastTen = ten;
};

let server = null;
let ending = false;

async function end(code) {
  if (ending) return;
  ending = true;
  try {
    await Promise.all([endAll(), server?.close()]);
  } catch (cause) {
    say(`lapwright: ${cause.message}`);
  }
  process.exit(code);
}

const fail = (cause) => {
  say(`lapwright: ${cause instanceof Error ? cause.message : String(cause)}`);
  void end(1);
};
process.on("uncaughtException", fail);
process.on("unhandledRejection", fail);
process.on("exit", endAllNow);
for (const signal of ["SIGINT", "SIGTERM", "SIGHUP"]) {
  // The usual way to end it, so it counts as done; asked a second time it ends at once.
  process.on(signal, () => (ending ? process.exit(0) : void end(0)));
}

/** Under npm a hard end of npm would leave this running: when the parent is gone, so is the reason to go on. */
function endWithParent() {
  if (process.env.npm_lifecycle_event !== "start" || process.platform === "win32") return;
  const parent = process.ppid;
  setInterval(() => {
    if (process.ppid !== parent) void end(0);
  }, 1000).unref();
}

/** A process's end: its code, or null when a signal ended it, and how long it ran. */
const ended = (child) =>
  new Promise((resolve) => {
    const began = performance.now();
    child.once("error", () => resolve({ code: 1, seconds: 0 }));
    child.once("exit", (code) => resolve({ code, seconds: (performance.now() - began) / 1000 }));
  });

/** Runs the desktop shell until its windows are closed; the reason if it never came up. */
async function runElectron(job) {
  let runtime = findRuntime(root);
  if (runtime === null) {
    say("No Electron runtime is here yet; trying to fetch one ...");
    const fault = await fetchRuntime(root, progress);
    if (ending) return null;
    if (fault !== null) return `no Electron runtime could be fetched: ${fault}`;
    runtime = findRuntime(root);
    if (runtime === null) return "the Electron runtime that was fetched does not start here";
  }
  const noSandbox = needsNoSandbox();
  if (noSandbox) say("Running as root: the Electron window starts without its sandbox.");
  const args = [...(noSandbox ? ["--no-sandbox"] : []), root, ...(job === null ? [] : [job])];
  const { code, seconds } = await ended(startChild(runtime, args, { cwd: root, stdio: "ignore" }));
  if (code === 0 || ending || seconds > 10) {
    await end(code ?? 0);
    return null;
  }
  return `the Electron runtime broke off (code ${code})`;
}

/** Serves the same window on this machine alone. */
async function serveLoopback({ port, job, folder }, gone) {
  const { serve } = await import(pathToFileURL(join(root, "out", "main", "loopback.js")).href);
  const complain = (text) => say(`lapwright: ${text}`);
  try {
    server = await serve({ port, job, workFolder: folder, complain, gone });
  } catch (cause) {
    if (cause.code === "EADDRINUSE") throw new Error(`Port ${port} is taken; choose another, or leave --port out.`);
    if (cause.code === "EACCES") throw new Error(`Port ${port} is not for this user; choose one above 1023.`);
    throw cause;
  }
}

/** Shows the server in an app window until that is closed; the reason if it never came up. */
async function runBrowser() {
  const browser = findBrowser();
  if (browser === null) return "no Chromium-family browser was found";
  if (needsNoSandbox()) say("Running as root: the browser window starts without its sandbox.");
  say(`Opening the window in ${browser}.`);
  const { code } = await ended(openAppWindow(browser, server.address));
  if (server.seen() || ending) {
    await end(0);
    return null;
  }
  return `${browser} ended before it showed the page${code ? ` (code ${code})` : ""}`;
}

async function main() {
  const options = readOptions(process.argv.slice(2));
  if ("fault" in options) {
    say(`${options.fault}\n${usage}`);
    return end(2);
  }
  endWithParent();
  const fault = await buildStale(root, say);
  if (ending) return;
  if (fault !== null) {
    say(`The program could not be built:\n${fault}`);
    return end(1);
  }
  const reasons = [];
  let showsWindow = options.window;
  if (!showsWindow) reasons.push("--no-window was given");
  else {
    const missing = await whyNoDisplay();
    if (missing !== null) {
      reasons.push(missing);
      showsWindow = false;
    }
  }
  if (showsWindow) {
    const reason = await runElectron(options.job);
    if (ending) return;
    reasons.push(reason);
    say(`Going on without Electron: ${reason}.`);
  }
  // A browser on macOS stays when its last window closes; there the end of the page's connection is the sign.
  const closesWithPage = showsWindow && process.platform === "darwin";
  await serveLoopback(options, closesWithPage ? () => void end(0) : undefined);
  if (ending) return;
  if (showsWindow) {
    const reason = await runBrowser();
    if (ending) return;
    reasons.push(reason);
  }
  say(`No window was opened: ${reasons.join("; ")}.`);
  say("Lapwright is ready. Open this address in a browser on this machine, and end it here with Ctrl-C:");
  process.stdout.write(`${server.address}\n`);
}

main().catch(fail);
