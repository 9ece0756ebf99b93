import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { solveCommand } from "../../main/cli/solveCommand.ts";
import { dataFile } from "../support/dataFile.ts";
import { projectRoot } from "../support/projectRoot.ts";

/** Rectangles in strips with printed least heights; citations stand beside the figures in the data file. */
interface Example {
  readonly id: string;
  readonly data: { readonly stripWidth: number; readonly items: readonly (readonly [number, number, number])[] };
  readonly answer: { readonly height: number };
}
interface Placement {
  readonly item: number;
  readonly copy: number;
  readonly x: number;
  readonly y: number;
  readonly w: number;
  readonly h: number;
  readonly turn: number;
}

const published = join(projectRoot, "tests/data/published-strips.json");
const { examples } = dataFile<{ examples: readonly Example[] }>("published-strips.json");
let folder: string;
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "lapwright-test-"));
});
afterAll(() => rmSync(folder, { recursive: true }));

function written(content: unknown): string {
  const path = join(folder, "instances.json");
  writeFileSync(path, JSON.stringify(content));
  return path;
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
  const status = await solveCommand(args, terminal, () => 0);
  return { status, out, err };
}

/** The answer, held against the instance by comparing every pair. */
function holdsFor({ data: { stripWidth, items } }: Example, placements: readonly Placement[]): number {
  const due = items.flatMap(([w, h, count], item) =>
    Array.from({ length: count }, (_, k) => `${item} ${k + 1} ${w} ${h}`),
  );
  expect(placements.map(({ item, copy, w, h }) => `${item} ${copy} ${w} ${h}`).sort()).toEqual(due.sort());
  for (const [i, a] of placements.entries()) {
    expect(a.turn).toBe(0);
    expect(Math.min(a.x, a.y)).toBeGreaterThanOrEqual(0);
    expect(a.x + a.w).toBeLessThanOrEqual(stripWidth);
    for (const b of placements.slice(i + 1)) {
      expect(a.x + a.w <= b.x || b.x + b.w <= a.x || a.y + a.h <= b.y || b.y + b.h <= a.y).toBe(true);
    }
  }
  return Math.max(...placements.map(({ y, h }) => y + h));
}

describe("solve for rectangles in a strip", () => {
  // Moroń (1925); Duijvestijn (1978), Journal of Combinatorial Theory B 25, 240-243; Iori, Martello and Monaci (2003);
  // Hopper and Turton (2001); Burke, Kendall and Whitwell (2004); Bengtsson (1982): see the data file.
  test.each(examples.map((example) => [example.id, example.answer.height, example] as const))(
    "%s takes %d, proved",
    async (id, height, example) => {
      const { status, out, err } = await solve(published, "--name", id, "--work", "400000");
      expect({ status, err }).toEqual({ status: 0, err: "" });
      const { objective, lowerBound, provenOptimal, placements } = JSON.parse(out);
      expect({ objective, lowerBound, provenOptimal }).toEqual({
        objective: height,
        lowerBound: height,
        provenOptimal: true,
      });
      expect(holdsFor(example, placements)).toBe(height);
    },
  );

  test("the same work and seed give the same bytes; a stopped search answers with what holds", async () => {
    const args = [published, "--name", "C3-P3", "--work", "6", "--seed", "7"];
    const first = await solve(...args, "--threads", "1");
    expect(await solve(...args, "--threads", "4")).toEqual(first);
    const { objective, lowerBound, provenOptimal, seconds, placements } = JSON.parse(first.out);
    expect({ seconds, lowerBound }).toEqual({ seconds: null, lowerBound: 30 });
    expect(provenOptimal).toBe(objective === 30);
    const example = examples.find(({ id }) => id === "C3-P3") as Example;
    expect(holdsFor(example, placements)).toBe(objective);
  });

  test("a strip is what an instance without a kind is; turns where they are allowed; decimals are read exactly", async () => {
    // Three widths of 0.1 fill 0.3 to the end, which binary fractions would deny.
    const items = [
      [0.3, 0.1, 1],
      [0.1, 0.3, 3],
    ];
    const upright = written([{ name: "tenths", stripWidth: 0.3, items }]);
    expect(JSON.parse((await solve(upright)).out)).toMatchObject({ kind: "rectangular strip", objective: 0.4 });
    const turning = written([{ name: "tall", stripWidth: 3, rotation: true, items: [[5, 2, 1]] }]);
    const { objective, placements } = JSON.parse((await solve(turning)).out);
    expect(objective).toBe(5);
    expect(placements).toEqual([{ item: 0, copy: 1, x: 0, y: 0, w: 2, h: 5, turn: 90 }]);
  });

  test("nothing to lay takes no height", async () => {
    const { out } = await solve(written([{ name: "none", stripWidth: 3, items: [[2, 2, 0]] }]));
    expect(JSON.parse(out)).toMatchObject({ objective: 0, lowerBound: 0, provenOptimal: true, placements: [] });
  });

  test("an item wider than the strip: no plan exists, status 3", async () => {
    const items = [
      [9, 1, 1],
      [2, 8, 1],
      [9, 9, 0],
    ];
    const { status, out, err } = await solve(written([{ name: "wide", stripWidth: 7, items }]));
    expect({ status, out }).toEqual({ status: 3, out: "" });
    expect(err.trimEnd().split("\n")).toHaveLength(1);
    expect(err).toContain("[0].items[0]: [9,1,1]: This item is wider than the strip");
  });

  test("every problem of an instance at once", async () => {
    const items = [[0, 1, 1], [4, -1, 1.5], "x", [4, 2, 6, 1]];
    const { status, err } = await solve(written([{ name: "bad", stripWidth: "7", rotation: 1, items }]), "--json");
    expect(status).toBe(2);
    const at = ["stripWidth", "rotation", "items[0][0]", "items[1][2]", "items[1][1]"];
    const ofText = ["items[2][2]", "items[2][0]", "items[2][1]"];
    const paths = (JSON.parse(err) as { path: string }[]).map(({ path }) => path);
    expect(paths).toEqual([...at, ...ofText, "items[3]"].map((one) => `[0].${one}`));
  });
});
