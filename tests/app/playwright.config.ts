import { defineConfig } from "@playwright/test";
import { findChromium } from "../support/chromium.ts";

/** The window as people use it: the built program, its loopback host, a real browser. */
const executablePath = process.env.LAPWRIGHT_CHROMIUM ?? findChromium() ?? "";

export default defineConfig({
  testDir: ".",
  outputDir: ".results",
  workers: 1,
  timeout: 120_000,
  expect: { timeout: 60_000 },
  reporter: [["list"]],
  use: {
    viewport: { width: 1280, height: 800 },
    acceptDownloads: true,
    launchOptions: {
      ...(executablePath === "" ? {} : { executablePath }),
      args: [
        "--no-sandbox",
        "--disable-gpu",
        "--disable-quic",
        "--no-first-run",
        "--disable-background-networking",
        "--disable-component-update",
        "--disable-sync",
      ],
    },
  },
});
