import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { solveCommand } from "../../main/cli/solveCommand.ts";
import { projectRoot } from "../support/projectRoot.ts";

const published = join(projectRoot, "tests/data/published-cutting.json");
let folder: string;
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "lapwright-test-"));
});
afterAll(() => rmSync(folder, { recursive: true }));

function written(content: unknown): string {
  const path = join(folder, "instances.json");
  writeFileSync(path, typeof content === "string" ? content : JSON.stringify(content));
  return path;
}

/** A clock that goes on by 250 ms each time it is read. */
function clock(): () => number {
  let now = 0;
  return () => {
    now += 250;
    return now;
  };
}

async function solve(...args: string[]): Promise<{ status: number; out: string; err: string }> {
  let out = "";
  let err = "";
  const terminal = {
    out: (text: string) => {
      out += text;
    },
    err: (text: string) => {
      err += text;
    },
    watched: false,
  };
  const status = await solveCommand(args, terminal, clock());
  return { status, out, err };
}

describe("solve", () => {
  // Fourer, Gay and Kernighan (2003), AMPL, 2nd ed., section 15.2: 47 rolls.
  test("one object with exactly the fields of the form", async () => {
    const { status, out, err } = await solve(published, "--name", "textbook-110", "--seconds", "60");
    expect({ status, err }).toEqual({ status: 0, err: "" });
    const answer = JSON.parse(out);
    const fields = ["name", "kind", "objective", "lowerBound", "provenOptimal", "seconds", "patterns"];
    expect(Object.keys(answer)).toEqual(fields);
    expect(answer).toMatchObject({ name: "textbook-110", objective: 47, lowerBound: 47, provenOptimal: true });
    expect(answer.seconds).toBeGreaterThan(0);
    const lengths = [75, 55, 50, 45, 20];
    const made = [0, 0, 0, 0, 0];
    let rolls = 0;
    for (const { times, counts } of answer.patterns as { times: number; counts: number[] }[]) {
      expect(counts.reduce((sum, count, i) => sum + count * (lengths[i] as number), 0)).toBeLessThanOrEqual(110);
      for (const [i, count] of counts.entries()) made[i] = (made[i] as number) + times * count;
      rolls += times;
    }
    expect(made).toEqual([8, 10, 24, 35, 48]);
    expect(rolls).toBe(47);
  });

  // Gilmore and Gomory (1961), Operations Research 9(6), 849-859.
  test("several stock lengths: patterns say which, costs add up to 170", async () => {
    const { out } = await solve(published, "--name=gilmore-gomory-three-stock-lengths", "--work=1000");
    const { objective, patterns } = JSON.parse(out);
    const costs = [10, 7, 6];
    const cost = (patterns as { stock: number; times: number }[]).reduce(
      (sum, { stock, times }) => sum + times * (costs[stock] as number),
      0,
    );
    expect([objective, cost]).toEqual([170, 170]);
  });

  test("the same work gives the same bytes, with any number of threads, and seconds stay out of them", async () => {
    const args = [published, "--name", "paper-machine-5600", "--work", "5"];
    const first = await solve(...args, "--threads", "1");
    expect(await solve(...args, "--threads", "4")).toEqual(first);
    expect(JSON.parse(first.out).seconds).toBeNull();
  });

  test("a stopped search answers with a plan and a bound that hold", async () => {
    const { status, out } = await solve(published, "--name", "paper-machine-5600", "--work", "1");
    const { objective, lowerBound } = JSON.parse(out);
    expect(status).toBe(0);
    expect(objective).toBeGreaterThanOrEqual(73);
    expect(lowerBound).toBeLessThanOrEqual(73);
  });

  test("a file with one instance needs no name; decimals are read exactly", async () => {
    // 0.1 + 0.2 fills 0.3 to the end, which binary fractions would deny.
    const data = {
      stocks: [{ length: 0.3, cost: 2.5 }],
      items: [
        [0.1, 3],
        [0.2, 3],
      ],
    };
    const path = written([{ name: "tenths", kind: "cutting-stock-1d-variable-stock", ...data }]);
    expect(JSON.parse((await solve(path, "--work", "9")).out)).toMatchObject({ objective: 7.5, provenOptimal: true });
  });

  test("an item that no stock takes: no plan exists, status 3", async () => {
    const items = [
      [9, 1],
      [4, 2],
      [8, 1],
    ];
    const path = written([{ name: "long", kind: "cutting-stock-1d", stock: 7, items }]);
    const { status, out, err } = await solve(path);
    expect({ status, out }).toEqual({ status: 3, out: "" });
    expect(err.trimEnd().split("\n")).toHaveLength(2);
    expect(err).toContain("[0].items[0]: [9,1]: This item is longer than every stock length");
    expect(err).toContain("[0].items[2]: [8,1]");
  });

  test("every problem of an instance at once, as lines or as a list", async () => {
    const items = [[0, 1], [4, 1.5], "x", [4, 2, 6]];
    const path = written([{ name: "bad", kind: "cutting-stock-1d", stock: -7, items }]);
    const { status, out, err } = await solve(path, "--json");
    expect({ status, out }).toEqual({ status: 2, out: "" });
    const paths = (JSON.parse(err) as { path: string }[]).map((problem) => problem.path);
    const at = ["stock", "items[0][0]", "items[1][1]", "items[2][1]", "items[2][0]", "items[3]"];
    expect(paths).toEqual(at.map((one) => `[0].${one}`));
    expect((await solve(path)).err.trimEnd().split("\n")).toHaveLength(at.length);
  });

  test.each([
    ["no name among several", {}, "--name: null: The file holds 2 instances: Name one of 2: a, b"],
    ["a wrong name", { name: "c" }, '--name: "c": The file holds no instance of this name: Name one of 2: a, b'],
    ["a kind without an engine", { name: "b" }, '[1].kind: "jigsaw": There is no engine for this kind yet'],
  ])("%s", async (_, { name }: { name?: string }, says) => {
    const path = written([
      { name: "a", kind: "cutting-stock-1d" },
      { name: "b", kind: "jigsaw", items: [] },
    ]);
    const { status, err } = await solve(path, ...(name === undefined ? [] : ["--name", name]));
    expect(status).toBe(2);
    expect(err).toContain(says);
  });

  test.each([
    ["not there", join("no", "such.json"), "there is no such file"],
    ["no JSON", null, "The file is not JSON"],
  ])("a file that is %s", async (_, path, says) => {
    const { status, err } = await solve(path ?? written("{"));
    expect(status).toBe(2);
    expect(err).toContain(says);
  });

  test("a file without a list, and options that do not fit", async () => {
    expect((await solve(written({ format: "something" }))).err).toContain("The file holds no list of instances");
    const { status, err } = await solve(published, "--work", "2", "--seconds", "1", "--threads", "0");
    expect(status).toBe(2);
    expect(err).toContain("--seconds is given too");
    expect(err).toContain("a whole number from 1 to 64");
  });
});
