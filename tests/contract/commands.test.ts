import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { formatMoney } from "../../core/index.ts";
import { checkCommand } from "../../main/cli/checkCommand.ts";
import { planCommand } from "../../main/cli/planCommand.ts";
import type { Terminal } from "../../main/cli/reporting.ts";
import { PlanFile } from "../../shared/planFile.ts";
import { Problem } from "../../shared/problem.ts";
import { runCases } from "./cases.ts";
import { workerPlanner } from "./hosts.ts";
import { brokenJob, clinicWall } from "./jobs.ts";

let folder: string;
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "lapwright-test-"));
});
afterAll(() => rmSync(folder, { recursive: true }));

function written(name: string, content: unknown): string {
  const path = join(folder, name);
  writeFileSync(path, typeof content === "string" ? content : JSON.stringify(content));
  return path;
}

interface Ran {
  readonly status: number;
  readonly out: string;
  readonly err: string;
}

async function run(command: (terminal: Terminal) => Promise<number>, watched = false): Promise<Ran> {
  let out = "";
  let err = "";
  const terminal: Terminal = {
    out: (text) => {
      out += text;
    },
    err: (text) => {
      err += text;
    },
    watched,
  };
  const status = await command(terminal);
  return { status, out, err };
}

const plan = (...args: string[]): Promise<Ran> => run((terminal) => planCommand(args, terminal, workerPlanner()));
const check = (...args: string[]): Promise<Ran> => run((terminal) => checkCommand(args, terminal));

describe("plan", () => {
  test.each(runCases)("$name", async ({ job, budget, outcome, says, exitStatus }) => {
    const path = written("case.job.json", job);
    const work = "work" in budget ? ["--work", `${budget.work}`] : ["--seconds", `${budget.seconds}`];
    const ran = await plan(path, ...work, "--json");
    expect(ran.status).toBe(exitStatus);
    if (outcome === "planned") {
      expect(PlanFile.parse(JSON.parse(ran.out)).jobName).toBe("Clinic wall");
      expect(ran.out).toMatch(says);
      expect(ran.err).toBe("");
    } else {
      expect(ran.out).toBe("");
      expect(ran.err).toMatch(says);
      expect(Problem.array().min(1).parse(JSON.parse(ran.err))).toEqual(JSON.parse(ran.err));
    }
  });

  test("the same seed and work give the same bytes, with any number of threads", async () => {
    const path = written("wall.job.json", clinicWall);
    const first = await plan(path, "--work", "3", "--json", "--threads", "1");
    const second = await plan(path, "--work=3", "--json", "--threads=4");
    expect(second).toEqual(first);
  });

  test("--help says that the search is one thread", async () => {
    const { status, out, err } = await plan("--help");
    expect({ status, err }).toEqual({ status: 0, err: "" });
    expect(out).toMatch(/^Usage: .*\n(.*\n)*--threads N .*one thread/);
  });

  test("a terminal is told of each improvement in a line, and standard output is the same", async () => {
    const path = written("wall.job.json", clinicWall);
    const args = [path, "--work", "3", "--json"];
    const watched = await run((terminal) => planCommand(args, terminal, workerPlanner()), true);
    const unwatched = await plan(...args);
    expect(watched.out).toBe(unwatched.out);
    expect(unwatched.err).toBe("");
    const chosen = PlanFile.parse(JSON.parse(watched.out)).layouts[0];
    const lines = watched.err.split("\n").slice(0, -1);
    expect(lines.length).toBeGreaterThan(0);
    for (const line of lines)
      expect(line).toMatch(/\d+\.\d s: \$[\d,.]+, (proven least cost|at most [\d.]+ % could be saved) \(/);
    expect(lines.at(-1)).toContain(formatMoney(chosen?.totals.cost.total ?? Number.NaN, "USD"));
  });

  test("reasons are lines without --json", async () => {
    const { status, out, err } = await plan(written("broken.job.json", brokenJob));
    expect(status).toBe(2);
    expect(out).toBe("");
    const lines = err.trimEnd().split("\n");
    expect(lines.length).toBeGreaterThanOrEqual(2);
    for (const line of lines) expect(line).toMatch(/^[\w[\].]+: .+: .+: .+/);
  });

  test("prints the layouts and the chosen one's cut lengths", async () => {
    const { status, out } = await plan(written("wall.job.json", clinicWall), "--work", "2");
    expect(status).toBe(0);
    expect(out).toMatch(/^Clinic wall: \d+ layouts?\nlayout +roll width/);
    expect(out).toMatch(/chosen\n/);
    expect(out).toMatch(/\nCut lengths of .+\nload +from +film/);
    expect(out).toMatch(/wall\/all\/1 copy 1/);
    expect(out).not.toMatch(/ \n/);
  });

  test("writes every file and leaves nothing half done beside them", async () => {
    const out = join(folder, "made", "here");
    const ran = await plan(written("wall.job.json", clinicWall), "--work", "2", "--out", out);
    expect(ran.status).toBe(0);
    expect(readdirSync(out).sort()).toEqual(["wall.cuts.csv", "wall.datum.csv", "wall.plan.json", "wall.rolls.svg"]);
    expect(PlanFile.parse(JSON.parse(readFileSync(join(out, "wall.plan.json"), "utf8"))).seed).toBe(1);
    const checked = await check(join(folder, "wall.job.json"), join(out, "wall.plan.json"));
    expect(checked).toEqual({ status: 0, out: "0 violations\n", err: "" });
  });

  test("a place that can't be written to is bad input", async () => {
    const taken = written("taken", "a file");
    const ran = await plan(written("wall.job.json", clinicWall), "--work", "2", "--out", join(taken, "below"));
    expect(ran.status).toBe(2);
    expect(ran.err).toMatch(/^--out: /);
  });

  test.each([
    { args: [], says: /No JOB\.json is named/ },
    { args: ["a.json", "b.json"], says: /one name too many/ },
    { args: ["a.json", "--fast"], says: /There is no such option/ },
    { args: ["a.json", "--seconds"], says: /--seconds: null: This option takes a value/ },
    { args: ["a.json", "--seconds", "0"], says: /above 0/ },
    { args: ["a.json", "--seconds", "1", "--work", "5"], says: /--seconds is given too/ },
    { args: ["a.json", "--work", "1.5"], says: /whole number/ },
    { args: ["a.json", "--seed", "x"], says: /whole number/ },
    { args: ["a.json", "--threads", "0"], says: /whole number/ },
    { args: ["a.json", "--seed", "1", "--seed", "2"], says: /twice/ },
  ])("refuses $args", async ({ args, says }) => {
    const { status, out, err } = await plan(...args);
    expect({ status, out }).toEqual({ status: 2, out: "" });
    expect(err).toMatch(says);
    expect(err).toMatch(/\nUsage: /);
  });

  test.each(["none.job.json", "."])("refuses the file %s", async (name) => {
    const { status, err } = await plan(join(folder, name));
    expect(status).toBe(2);
    expect(err.trimEnd().split("\n")).toHaveLength(1);
  });

  test("an interruption ends it without a word", async () => {
    const aborting = new AbortController();
    const path = written("wall.job.json", clinicWall);
    const ran = run((terminal) => planCommand([path], terminal, workerPlanner(), aborting.signal));
    aborting.abort();
    expect(await ran).toEqual({ status: 130, out: "", err: "" });
  });
});

describe("check", () => {
  let path: string;
  let good: PlanFile;
  beforeAll(async () => {
    path = written("checked.job.json", clinicWall);
    good = PlanFile.parse(JSON.parse((await plan(path, "--work", "2", "--json")).out));
  });

  test("a plan that breaks rules is bad input, with each rule in a line", async () => {
    const bad = structuredClone(good);
    if (bad.layouts[0] !== undefined) bad.layouts[0].totals.cost.total += 1;
    const file = written("bad.plan.json", bad);
    const lines = await check(path, file);
    expect(lines.status).toBe(2);
    expect(lines.out).toMatch(/^\d+ violations?\n$/);
    expect(lines.err.trimEnd().split("\n")).toHaveLength(Number.parseInt(lines.out, 10));
    const listed = await check(path, file, "--json");
    expect(listed.status).toBe(2);
    expect(Problem.array().parse(JSON.parse(listed.err))).toHaveLength(Number.parseInt(lines.out, 10));
  });

  test.each([
    { name: "no JSON", content: "{", says: /not JSON/ },
    { name: "a job", content: clinicWall, says: /format/ },
    { name: "an empty object", content: {}, says: /format/ },
  ])("refuses $name as a plan", async ({ content, says }) => {
    const { status, out, err } = await check(path, written("odd.plan.json", content));
    expect({ status, out }).toEqual({ status: 2, out: "" });
    expect(err).toMatch(says);
  });

  test("names both files when neither is there", async () => {
    const { status, err } = await check(join(folder, "no.job.json"), join(folder, "no.plan.json"));
    expect(status).toBe(2);
    expect(err.trimEnd().split("\n")).toHaveLength(2);
  });
});
