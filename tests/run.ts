import { spawn, spawnSync } from "node:child_process";
import { existsSync, mkdirSync, readFileSync, rmSync } from "node:fs";
import { join } from "node:path";
import { findChromium } from "./support/chromium.ts";
import { projectRoot } from "./support/projectRoot.ts";
import { sharedFolderAbsent } from "./support/sharedFolderReason.ts";
import {
  type Counts,
  countPlaywright,
  countVitest,
  failedStage,
  type PlaywrightReport,
  sum,
  summaryLine,
  type VitestReport,
} from "./support/testCounts.ts";

/**
 * The test command. Runs every stage, also after one failed, shows each tool's own output as it comes and counts from
 * the tools' reports; the last line is the sum. With `--static` it stops after types, lint and import rules.
 */
const reports = join(projectRoot, "tests/.cache");
const typedFolders = ["shared", "core", "main", "renderer", "tests"];

/** Which test files make up which stage. A file belongs to the first that names its folder. */
const kinds: readonly { readonly name: string; readonly folders: readonly string[] }[] = [
  { name: "imports", folders: ["imports"] },
  { name: "property", folders: ["property"] },
  { name: "published", folders: ["published"] },
  { name: "golden", folders: ["golden"] },
  { name: "contract", folders: ["contract"] },
  { name: "component", folders: ["component"] },
  { name: "unit", folders: [""] }, // tests/core, tests/main, ... : whatever none of the above took
];

const tools = {
  types: "node_modules/typescript/bin/tsc",
  lint: "node_modules/@biomejs/biome/bin/biome",
  vitest: "node_modules/vitest/vitest.mjs",
  playwright: "node_modules/@playwright/test/cli.js",
};

/** Runs a tool with its output shown as it comes; its exit status, or 1 when a signal ended it. */
function run(tool: keyof typeof tools, args: readonly string[], more: NodeJS.ProcessEnv = {}): Promise<number> {
  return new Promise((resolve, reject) => {
    const child = spawn(process.execPath, [join(projectRoot, tools[tool]), ...args], {
      cwd: projectRoot,
      stdio: ["ignore", "inherit", "inherit"],
      env: { ...process.env, ...more },
    });
    child.on("error", reject);
    child.on("close", (status) => resolve(status ?? 1));
  });
}

const heading = (title: string): void => console.log(`\n== ${title}`);
const onePass: Counts = { passed: 1, failed: 0, skipped: 0, wrong: [] };

async function types(): Promise<Counts> {
  const counts: Counts[] = [];
  for (const folder of typedFolders) {
    const status = await run("types", ["-p", folder]);
    counts.push(status === 0 ? onePass : failedStage(`the types of ${folder}/ do not fit`));
  }
  return sum(counts);
}

async function lint(): Promise<Counts> {
  const status = await run("lint", ["check", "--error-on-warnings", "."]);
  return status === 0 ? onePass : failedStage("the linter or the formatter finds fault");
}

function readReport<T>(file: string): T | null {
  return existsSync(file) ? (JSON.parse(readFileSync(file, "utf8")) as T) : null;
}

/** Folder under tests/ that a test file of a report stands in. */
const folderOf = (file: string): string => /[\\/]tests[\\/]([^\\/]+)[\\/]/.exec(file)?.[1] ?? "";

async function vitest(only: string | null): Promise<[name: string, counts: Counts][]> {
  const file = join(reports, "vitest.json");
  rmSync(file, { force: true });
  const config = ["--config", "tests/vitest.config.ts"];
  const reporters = ["--reporter=default", "--reporter=json", `--outputFile.json=${file}`];
  const status = await run("vitest", ["run", ...config, ...reporters, ...(only === null ? [] : [`tests/${only}/`])]);
  const report = readReport<VitestReport>(file);
  if (report === null) return [["vitest", failedStage("vitest left no report")]];
  const named = kinds.flatMap(({ folders }) => folders).filter((folder) => folder !== "");
  const counts = kinds
    .filter(({ name }) => only === null || name === only)
    .map(({ name, folders }): [string, Counts] => {
      const belongs = (path: string): boolean =>
        name === "unit" ? !named.includes(folderOf(path)) : folders.includes(folderOf(path));
      return [name, countVitest(report, sharedFolderAbsent, belongs)];
    });
  const unexplained = status !== 0 && sum(counts.map(([, c]) => c)).failed === 0;
  return unexplained ? [...counts, ["vitest", failedStage(`vitest ended with status ${status}`)]] : counts;
}

/** Installs a browser where none is found, and says so. */
function installChromium(): void {
  const debianAsRoot = process.getuid?.() === 0 && existsSync("/etc/debian_version");
  const command = debianAsRoot
    ? "apt-get update && apt-get install -y --no-install-recommends chromium"
    : `"${process.execPath}" "${join(projectRoot, tools.playwright)}" install chromium`;
  console.log(`No Chromium was found. The app tests need one, so it is being installed now:\n  ${command}`);
  spawnSync(command, { shell: true, cwd: projectRoot, stdio: ["ignore", "inherit", "inherit"] });
}

async function app(): Promise<Counts> {
  if (findChromium() === null) installChromium();
  const chromium = findChromium();
  if (chromium === null) {
    return failedStage("no Chromium is there and none could be installed; LAPWRIGHT_CHROMIUM may name one");
  }
  console.log(`Chromium: ${chromium}`);
  const file = join(reports, "playwright.json");
  rmSync(file, { force: true });
  const status = await run(
    "playwright",
    ["test", "--config", "tests/app/playwright.config.ts", "--reporter=list,json"],
    {
      LAPWRIGHT_CHROMIUM: chromium,
      PLAYWRIGHT_JSON_OUTPUT_FILE: file,
    },
  );
  const report = readReport<PlaywrightReport>(file);
  if (report === null) return failedStage("Playwright left no report");
  const counts = countPlaywright(report, sharedFolderAbsent);
  return status !== 0 && counts.failed === 0
    ? sum([counts, failedStage(`Playwright ended with status ${status}`)])
    : counts;
}

async function main(): Promise<void> {
  const staticOnly = process.argv.includes("--static");
  mkdirSync(reports, { recursive: true });
  const stages: [name: string, counts: Counts][] = [];
  heading("types");
  stages.push(["types", await types()]);
  heading("lint and format");
  stages.push(["lint", await lint()]);
  heading(
    staticOnly ? "import rules" : "import rules, unit, property, published, golden, contract and component tests",
  );
  stages.push(...(await vitest(staticOnly ? "imports" : null)));
  if (!staticOnly) {
    heading("app tests in Chromium");
    stages.push(["app", await app()]);
  }
  heading("all stages");
  for (const [name, counts] of stages) {
    console.log(`${name.padEnd(10)} ${counts.passed} / ${counts.passed + counts.failed + counts.skipped}`);
    for (const why of counts.wrong) console.log(`${"".padEnd(10)} ${why}`);
  }
  const total = sum(stages.map(([, counts]) => counts));
  console.log(`\n${summaryLine(total)}`);
  process.exitCode = total.failed > 0 ? 1 : 0;
}

await main();
