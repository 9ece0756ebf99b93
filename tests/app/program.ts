import { spawn } from "node:child_process";
import { cpSync, mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { test as base, expect, type Page } from "@playwright/test";
import { projectRoot } from "../support/projectRoot.ts";

export interface Program {
  readonly address: string;
  /** The work folder, with the hand-made job in it. */
  readonly folder: string;
  readonly stop: () => Promise<void>;
}

const firstAddress = /http:\/\/127\.0\.0\.1:\d+\/\S+/;

/** Starts the program as `npm start` does, without a window, on a job of the test data. */
export async function startProgram(job: string): Promise<Program> {
  const folder = mkdtempSync(join(tmpdir(), "lapwright-app-"));
  const path = join(folder, job.replace(/^.*\//, ""));
  cpSync(join(projectRoot, "tests/data", job), path);
  const child = spawn(process.execPath, ["main/launch/start.mjs", path, "--no-window", "--folder", folder], {
    cwd: projectRoot,
    stdio: ["ignore", "pipe", "pipe"],
  });
  let said = "";
  const address = await new Promise<string>((resolve, reject) => {
    const hear = (data: Buffer): void => {
      said += String(data);
      const found = firstAddress.exec(said);
      if (found !== null) resolve(found[0]);
    };
    child.stdout.on("data", hear);
    child.stderr.on("data", hear);
    child.once("close", (code) =>
      reject(new Error(`The program ended with ${code} before it gave an address: ${said}`)),
    );
  });
  return {
    address,
    folder,
    stop: async () => {
      if (child.exitCode === null) {
        const ended = new Promise((resolve) => child.once("close", resolve));
        child.kill("SIGINT");
        await ended;
      }
      rmSync(folder, { recursive: true, force: true });
    },
  };
}

/** Fails a test on any error of the page: a policy broken, a script that threw. */
export function watchPage(page: Page): string[] {
  const faults: string[] = [];
  page.on("pageerror", (fault) => faults.push(fault.message));
  page.on("console", (message) => {
    if (message.type() === "error") faults.push(message.text());
  });
  return faults;
}

interface Fixtures {
  /** The window, opened on the hand-made job and planned. */
  readonly window: Page;
}

export const test = base.extend<Fixtures, { program: Program }>({
  program: [
    // biome-ignore lint/correctness/noEmptyPattern: the runner reads what a fixture needs from this pattern
    async ({}, use) => {
      const program = await startProgram("puppet-booth.job.json");
      await use(program);
      await program.stop();
    },
    { scope: "worker" },
  ],
  window: async ({ page, program }, use) => {
    const faults = watchPage(page);
    await page.goto(program.address);
    await expect(page.getByRole("region", { name: "Planning" })).toContainText("Planned");
    await use(page);
    expect(faults).toEqual([]);
  },
});

export { expect };
