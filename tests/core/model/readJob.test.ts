import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { jsonFault } from "../../../core/model/jsonFault.ts";
import { nearestKey } from "../../../core/model/nearestKey.ts";
import { largestFile, readJob, readJobText } from "../../../core/model/readJob.ts";
import { upgradeJob } from "../../../shared/upgrades.ts";

const example = () => JSON.parse(readFileSync(new URL("../../data/puppet-booth.job.json", import.meta.url), "utf8"));
const pathsOf = (data: unknown) => readJob(data).problems.map(({ path }) => path);

test("the worked example is read without a word", () => {
  const { job, problems, warnings } = readJob(example());
  expect([problems, warnings]).toEqual([[], []]);
  expect(job?.elevations[0]?.breaks?.[0]).toMatchObject({ type: "gap", width: 0, mustSplit: false });
});

test("every fault is told, each at its place and with what was found", () => {
  const data = example();
  data.units = "cm";
  data.elevations[0].count = 0;
  data.elevations[0].keepClear[0].id = "a/b";
  data.elevations[2].sections[0].box = [1, 2, 3];
  data.elevations[2].sections[1].id = "fill-a";
  data.elevations[2].bleed = { left: -1 };
  data.elevations[3].outline = [[1, 2]];
  data.pieces[0].count = 1.5;
  data.pieces[0].layer = 0;
  data.films[0].rollWidths = [0, "x"];
  data.films[0].lay = "oneway";
  delete data.rules.bleed;
  data.rules.overlap = Number.NaN;
  data.rules.cutGap = Number.POSITIVE_INFINITY;
  const { job, problems } = readJob(data);
  expect(job).toBe(null);
  expect(problems.map(({ path, value }) => [path, value])).toEqual([
    ["units", "cm"],
    ["elevations[0].count", 0],
    ["elevations[0].keepClear[0].id", "a/b"],
    ["elevations[2].sections[0].box", [1, 2, 3]],
    ["elevations[2].sections[1].id", "fill-a"],
    ["elevations[2].bleed.left", -1],
    ["elevations[3].outline", [[1, 2]]],
    ["pieces[0].count", 1.5],
    ["pieces[0].layer", 0],
    ["films[0].rollWidths[0]", 0],
    ["films[0].rollWidths[1]", "x"],
    ["films[0].lay", "oneway"],
    ["rules.bleed", null],
    ["rules.overlap", "NaN"],
    ["rules.cutGap", "Infinity"],
  ]);
  const box = problems.find(({ path }) => path.endsWith("box"));
  expect(box?.mend).toBe("Give a box as [left, bottom, right, top].");
  const lay = problems.find(({ path }) => path.endsWith("lay"));
  expect(lay?.mend).toBe('Give one of "one-way", "two-way", "any".');
});

describe("what is wrong besides fields that can't be read is told with them", () => {
  test("faults of either kind in one file", () => {
    const data = example();
    data.rules.bleed = "three";
    data.films[1].lay = "sideways";
    data.elevations[1].mirrorOf = "Z";
    data.elevations[2].sections[1].box = [0, 11, 40, 20];
    data.elevations[3].keepClear = [{ id: "k", box: [0, 0, 1], rule: "never" }];
    data.elevations[3].fill[0].film = "h";
    data.pieces.push({ ...data.pieces[0] });
    expect(pathsOf(data)).toEqual([
      "elevations[3].keepClear[0].box",
      "films[1].lay",
      "rules.bleed",
      "elevations[1].mirrorOf",
      "elevations[2].sections",
      "pieces[1].id",
      "elevations[3].fill[0].film",
    ]);
  });
  test("nothing that a stand-in alone brings about", () => {
    const faults: [string, unknown][] = [
      ["films.0.id", "a:b"],
      ["films.0", 7],
      ["films", "none"],
      ["elevations.0.id", ""],
      ["elevations.0", null],
      ["elevations", {}],
      ["elevations.2.outline", [[0, 0]]],
      ["elevations.2.outline.1", ["x"]],
      ["elevations.2.sections", 5],
      ["elevations.2.sections.0.box", [0, 0, 40]],
      ["elevations.0.breaks.0.to", null],
      ["elevations.0.bleed", { left: -1 }],
      ["elevations.0.count", 0],
      ["films.0.edgeMargin", "1"],
      ["rules", null],
      ["rules.overlap", Number.NaN],
      ["rules.trimOverlap", undefined],
      ["units", "cm"],
      ["stock.0.width", -1],
      ["pieces.0.film", 3],
    ];
    for (const [place, value] of faults) {
      const data = example();
      const steps = place.split(".");
      const last = steps.pop() ?? "";
      steps.reduce((inner, step) => inner[step], data)[last] = value;
      expect(pathsOf(data), place).toHaveLength(1);
    }
  });
});

test("unknown keys stay, with the nearest known key where one is near", () => {
  const data = example();
  data.elevations[0].keepclear = [];
  data.elevations[0].sections = [{ id: "s", box: [0, 0, 70, 20], maxAcros: 4 }];
  data.rules.note = { by: "planner" };
  const { job, warnings } = readJob(data);
  expect(warnings.map(({ path, mend }) => [path, mend])).toEqual([
    ["elevations[0].sections[0].maxAcros", "Rename it to maxAcross."],
    ["elevations[0].keepclear", "Rename it to keepClear."],
    ["rules.note", "Leave it, or remove it if it was meant to do something."],
  ]);
  expect(warnings[1]?.why).toContain("keepclear: did you mean keepClear?");
  expect(job?.rules.note).toEqual({ by: "planner" });
});

test("null stands for left out wherever a field may be left out", () => {
  const data = { ...example(), pieces: null, stock: null, elevations: null };
  data.films = [{ ...data.films[0], name: null, lay: null, rollLength: null, maxRun: null, lengthFactor: null }];
  const { job, problems } = readJob(data);
  expect(problems).toEqual([]);
  expect([job?.elevations, job?.films[0]?.lay, job?.films[0]?.lengthFactor]).toEqual([[], "one-way", 1]);
  expect(pathsOf({ ...example(), units: null })).toEqual(["units"]);
});

test("things that are no job, and other versions", () => {
  for (const data of [null, undefined, [], 3, "x"]) expect(pathsOf(data)).toEqual(["job"]);
  expect(pathsOf({ format: "lapwright-plan" })).toEqual(["format"]);
  expect(readJob({ format: "lapwright-plan" }).problems[0]?.why).toBe("This is a plan, not a job.");
  expect(pathsOf({ ...example(), version: 2 })).toEqual(["version"]);
  expect(pathsOf({ ...example(), version: "1" })).toEqual(["version"]);
  const { format, ...unnamed } = example();
  expect([format, pathsOf(unnamed)]).toEqual(["lapwright-job", ["format"]]);
});

test("an outline of 10,000 points is read, one of 10,001 is refused with the limit", () => {
  const outlined = (points: number) => {
    const data = example();
    data.pieces[0].outline = Array.from({ length: points }, (_, i) => [i, i % 2]);
    return readJob(data).problems;
  };
  expect(outlined(10_000)).toEqual([]);
  expect(outlined(10_001)[0]).toMatchObject({ path: "pieces[0].outline", value: "list of 10001" });
  expect(outlined(10_001)[0]?.why).toContain("10,000");
});

describe("text", () => {
  const whyOf = (text: string) => readJobText(text).problems[0]?.why ?? "";
  const faults: [string, number, number][] = [
    ['{\n "a": 1,\n}', 3, 1],
    ["[1 2]", 1, 4],
    ['{"a" 1}', 1, 6],
    ['{"a":"x\ny"}', 1, 8],
    ["[1]]", 1, 4],
    ["{'a':1}", 1, 2],
    ['{"a":1', 1, 7],
    ['{"a":01}', 1, 7],
    ["[1,]", 1, 4],
    ["[NaN]", 1, 2],
    ['["\\x"]', 1, 3],
    ['{"a":1}\n{', 2, 1],
  ];
  test.each(faults)("%j breaks at line %i, column %i", (text, line, column) => {
    expect(jsonFault(text)).toMatchObject({ line, column });
    expect(whyOf(text)).toContain(`line ${line}, column ${column}`);
  });
  test("what is JSON has no fault", () => {
    for (const text of ["{}", "[]", ' [1, -2.5e+3, "\\u00e9\\n", true, {"a": [null, {}]}]\n', "7"]) {
      expect(() => JSON.parse(text)).not.toThrow();
      expect(jsonFault(text)).toBe(null);
    }
  });
  test("an empty file and a byte order mark", () => {
    expect(whyOf(" \n")).toBe("The file is empty.");
    expect(readJobText(`\uFEFF${JSON.stringify(example())}`).problems).toEqual([]);
  });
  test("20 MB is the limit, counted in bytes of the file", () => {
    const text = JSON.stringify(example());
    expect(readJobText(text + " ".repeat(largestFile - text.length)).problems).toEqual([]);
    expect(whyOf(text + " ".repeat(largestFile - text.length + 1))).toBe("The file is over 20 MB.");
    expect(whyOf(`"${"é".repeat(largestFile / 2)}"`)).toBe("The file is over 20 MB.");
  });
});

test.each([
  ["keepclear", "keepClear"],
  ["keep_clear", "keepClear"],
  ["colorEdges", "colourEdges"],
  ["brekas", "breaks"],
  ["note", null],
  ["x".repeat(200), null],
])("nearest to %s: %s", (key, expected) => {
  expect(nearestKey(key, ["id", "keepClear", "breaks", "colourEdges", "obstacles"])).toBe(expected);
});

describe("upgrades", () => {
  test("version 1 passes unchanged, what is newer is refused", () => {
    const document = { version: 1, extra: true };
    expect(upgradeJob(document)).toEqual({ ok: true, document });
    expect(upgradeJob({ version: 9 })).toMatchObject({ ok: false, problem: { path: "version", value: 9 } });
  });
  test("steps are taken in order, and a missing one is a fault of the program", () => {
    const steps = {
      1: (document: object) => ({ ...document, version: 2, first: true }),
      2: (document: object) => ({ ...document, version: 3, second: "first" in document }),
    };
    expect(upgradeJob({ version: 1, kept: 7 }, steps, 3)).toEqual({
      ok: true,
      document: { version: 3, kept: 7, first: true, second: true },
    });
    expect(() => upgradeJob({ version: 1 }, {}, 2)).toThrow("no step from version 1 to 2");
  });
});
