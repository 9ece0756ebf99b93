import { execFileSync, spawn, spawnSync } from "node:child_process";
import { cpus, totalmem } from "node:os";
import { join } from "node:path";
import { type MirrorGroup, mirrorGroups } from "../../core/choosing/mirrorGroups.ts";
import { panellingLimits, widthChoices } from "../../core/choosing/rollWidths.ts";
import { type Instance, seededRandom, ticksTo } from "../../core/index.ts";
import { coverGroup } from "../../core/panelling/coverGroup.ts";
import { dataFile } from "../support/dataFile.ts";
import { instanceOf } from "../support/planJob.ts";
import { projectRoot } from "../support/projectRoot.ts";
import { watchMemory } from "./peakMemory.ts";
import { told } from "./spread.ts";

/** Times the demo and its panelling. Prints what it measured and on what; nothing here passes or fails. */
const seed = 1;
const repeats = Number(process.argv[2] ?? 5);

interface DemoRun {
  readonly status: string;
  readonly firstSeconds: number | null;
  readonly fullSeconds: number;
  readonly layouts: number;
  readonly cost: number | null;
  readonly wastePercent: number | null;
  readonly gapPercent: number | null;
}

function git(...args: string[]): string {
  return execFileSync("git", args, { cwd: projectRoot, encoding: "utf8" }).trim();
}

function printConditions(): void {
  const changed = git("status", "--porcelain") === "" ? "" : " with changes";
  const processors = cpus();
  console.log(`commit   ${git("rev-parse", "--short", "HEAD")}${changed}`);
  console.log(
    `machine  ${processors.length} x ${processors[0]?.model ?? "unknown"}, ${Math.round(totalmem() / 2 ** 30)} GB`,
  );
  console.log(`node     ${process.version} on ${process.platform} ${process.arch}`);
  console.log(`seed     ${seed}, ${repeats} repeats`);
}

/** One cold run of the demo in a process of its own, with the sum of the peak memory of all it started. */
function planDemo(worker: "built" | "source"): Promise<{ run: DemoRun; peak: number | null }> {
  return new Promise((resolve, reject) => {
    const script = join(projectRoot, "tests/bench/planDemo.ts");
    const child = spawn(process.execPath, ["--import", "tsx", script, String(seed), worker], {
      cwd: projectRoot,
      stdio: ["ignore", "pipe", "inherit"],
    });
    const watch = watchMemory(child.pid as number);
    let output = "";
    child.stdout.setEncoding("utf8").on("data", (text: string) => {
      output += text;
    });
    child.on("error", reject);
    child.on("close", (status) => {
      const peak = watch.end();
      if (status === 0) resolve({ run: JSON.parse(output) as DemoRun, peak });
      else reject(new Error(`planning the demo ended with status ${status}`));
    });
  });
}

/** What the window runs is built first, so that the figures are those a user meets. */
function buildWindow(): void {
  // In a process of its own: the launcher is plain JavaScript and builds for the folder it is told.
  const build = `const { buildStale } = await import(process.argv[1]);
    const fault = await buildStale(process.cwd(), console.error);
    if (fault !== null) { console.error(fault); process.exitCode = 1; }`;
  const launcher = join(projectRoot, "main/launch/build.mjs");
  const { status } = spawnSync(process.execPath, ["--input-type=module", "-e", build, launcher], {
    cwd: projectRoot,
    stdio: "inherit",
  });
  if (status !== 0) throw new Error(`the build ended with status ${status}`);
}

async function benchDemo(worker: "built" | "source"): Promise<void> {
  const how = worker === "built" ? "as built for the window" : "from source, as on the command line";
  console.log(`\nThe demo, planned in a worker thread of a fresh process, ${how}`);
  const runs: Awaited<ReturnType<typeof planDemo>>[] = [];
  for (let repeat = 0; repeat < repeats; repeat++) runs.push(await planDemo(worker));
  const first = runs.flatMap(({ run }) => run.firstSeconds ?? []);
  const peaks = runs.flatMap(({ peak }) => peak ?? []);
  console.log(`  first verified layout  ${first.length > 0 ? told(first, "s") : "none came before the end"}`);
  console.log(
    `  full comparison        ${told(
      runs.map(({ run }) => run.fullSeconds),
      "s",
    )}`,
  );
  console.log(`  peak memory, all       ${peaks.length > 0 ? told(peaks, "MB", 0) : "not told by this system"}`);
  const last = runs.at(-1)?.run;
  if (!last) return;
  const shown = (value: number | null): string => (value === null ? "-" : value.toFixed(2));
  console.log(
    `  ended                  ${[...new Set(runs.map(({ run }) => run.status))].join(", ")}, ${last.layouts} layouts`,
  );
  console.log(
    `  chosen                 cost ${shown(last.cost)}, waste ${shown(last.wastePercent)} %, gap ${shown(last.gapPercent)} %`,
  );
}

/** Milliseconds that `work` takes, once warm. The answer is counted so that it cannot be left out. */
function timed(work: () => number): { times: number[]; count: number } {
  let count = work();
  const times = Array.from({ length: repeats }, () => {
    const began = performance.now();
    count = work();
    return performance.now() - began;
  });
  return { times, count };
}

function coveringsOf(
  instance: Instance,
  { source, mirrors }: MirrorGroup,
  limits: ReturnType<typeof panellingLimits>,
): number {
  const run = { random: seededRandom(seed), stop: () => false, report: () => {}, work: null };
  const covered = coverGroup(instance, source, mirrors, limits, run);
  return "coverings" in covered ? covered.coverings.length : 0;
}

/** Each section by itself: the same elevation with one section left, over the part of the outline that lies in its box. */
function alone(group: MirrorGroup, sectionId: string): MirrorGroup {
  const only = <E extends MirrorGroup["source"]>(elevation: E): E => {
    const section = elevation.sections.find(({ id }) => id === sectionId);
    if (!section) throw new Error(`no section ${sectionId} in ${elevation.id}`);
    const { x0, y0, x1, y1 } = section.box;
    const outline = [
      { x: x0, y: y0 },
      { x: x1, y: y0 },
      { x: x1, y: y1 },
      { x: x0, y: y1 },
    ];
    return { ...elevation, outline, box: section.box, sections: [section], fill: [] };
  };
  return { source: only(group.source), mirrors: group.mirrors.map(only) };
}

function benchPanelling(): void {
  const instance = instanceOf(dataFile("demo.job.json"));
  console.log("\nPanelling of the demo: every split that no other beats, in this process, warm");
  for (const choice of widthChoices(instance)) {
    const width =
      choice.rollWidth === null ? "any width" : `${ticksTo(choice.rollWidth, instance.unit)} ${instance.unit}`;
    const limits = panellingLimits(instance, choice, null);
    for (const group of mirrorGroups(instance.elevations)) {
      const names = [group.source, ...group.mirrors].map(({ id }) => id).join(" + ");
      const whole = timed(() => coveringsOf(instance, group, limits));
      console.log(`  ${width}, ${names}: ${told(whole.times, "ms", 1)}, ${whole.count} coverings`);
      for (const { id } of group.source.sections) {
        const part = timed(() => coveringsOf(instance, alone(group, id), limits));
        console.log(`    section ${id} by itself: ${told(part.times, "ms", 1)}, ${part.count} coverings`);
      }
    }
  }
}

printConditions();
buildWindow();
await benchDemo("built");
await benchDemo("source");
benchPanelling();
