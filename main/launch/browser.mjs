import { accessSync, constants } from "node:fs";
import { delimiter, join } from "node:path";
import { ownFolder, startChild } from "./children.mjs";

const onPath = [
  "chromium",
  "chromium-browser",
  "google-chrome-stable",
  "google-chrome",
  "microsoft-edge-stable",
  "microsoft-edge",
  "brave-browser",
  "vivaldi-stable",
];
const macApps = ["Chromium", "Google Chrome", "Microsoft Edge", "Brave Browser", "Vivaldi"];
const windowsApps = [
  "Chromium\\Application\\chrome.exe",
  "Google\\Chrome\\Application\\chrome.exe",
  "Microsoft\\Edge\\Application\\msedge.exe",
  "BraveSoftware\\Brave-Browser\\Application\\brave.exe",
  "Vivaldi\\Application\\vivaldi.exe",
];

function usualPlaces(platform, env) {
  if (platform === "darwin") {
    const folders = ["/Applications", ...(env.HOME ? [join(env.HOME, "Applications")] : [])];
    return folders.flatMap((folder) => macApps.map((app) => join(folder, `${app}.app`, "Contents", "MacOS", app)));
  }
  if (platform === "win32") {
    const folders = [env.ProgramFiles, env["ProgramFiles(x86)"], env.LOCALAPPDATA].filter(Boolean);
    return folders.flatMap((folder) => windowsApps.map((app) => join(folder, app)));
  }
  const folders = [...(env.PATH ?? "").split(delimiter), "/usr/bin", "/usr/local/bin", "/snap/bin"].filter(Boolean);
  return onPath.flatMap((name) => folders.map((folder) => join(folder, name)));
}

function canRun(file) {
  try {
    accessSync(file, constants.X_OK);
    return true;
  } catch {
    return false; // not there, or not for this user
  }
}

/** A browser that can show a page as a window of its own; `LAPWRIGHT_CHROMIUM` names one outright. */
export function findBrowser(platform = process.platform, env = process.env) {
  const named = env.LAPWRIGHT_CHROMIUM;
  return [...(named ? [named] : []), ...usualPlaces(platform, env)].find(canRun) ?? null;
}

/** Whether the browser would refuse to start with its sandbox: it does for the superuser of Linux. */
export const needsNoSandbox = () => process.platform === "linux" && process.getuid?.() === 0;

/** Opens the address as a window without browser controls, in a profile of its own that goes with it. */
export function openAppWindow(browser, address) {
  const args = [
    `--app=${address}`,
    `--user-data-dir=${ownFolder("window")}`,
    "--class=lapwright",
    "--window-size=1280,800",
    "--no-first-run",
    "--no-default-browser-check",
    "--disable-background-networking",
    "--disable-background-mode",
    "--disable-component-update",
    "--disable-sync",
    "--disable-quic",
    "--disable-features=Translate",
    // The flag for tests keeps the browser's bar about the missing sandbox away; the terminal has said it.
    ...(needsNoSandbox() ? ["--no-sandbox", "--test-type"] : []),
  ];
  return startChild(browser, args, { stdio: "ignore" });
}
