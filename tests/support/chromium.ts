import { spawnSync } from "node:child_process";
import { existsSync } from "node:fs";
import { chromium } from "@playwright/test";

const usualPlaces = [
  "/usr/bin/chromium",
  "/usr/bin/chromium-browser",
  "/usr/bin/google-chrome",
  "/Applications/Google Chrome.app/Contents/MacOS/Google Chrome",
];

const answers = (path: string): boolean =>
  existsSync(path) && spawnSync(path, ["--version"], { timeout: 20_000, stdio: "ignore" }).status === 0;

/**
 * The first Chromium that is there and answers: the one that `LAPWRIGHT_CHROMIUM` names, the system's, Playwright's own.
 * Null when there is none. A path that was named but does not answer is an error, not a reason to look further.
 */
export function findChromium(): string | null {
  const named = process.env.LAPWRIGHT_CHROMIUM;
  if (named) {
    if (!answers(named)) throw new Error(`LAPWRIGHT_CHROMIUM names ${named}, which does not start.`);
    return named;
  }
  return [...usualPlaces, chromium.executablePath()].find(answers) ?? null;
}
