import { existsSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { projectRoot } from "../support/projectRoot.ts";
import { cyclesIn, faultOf, rooms } from "./importRules.ts";
import { type Import, importsOf, sourceFiles, specifiersIn } from "./readImports.ts";

const production = ["core", "shared", "main", "renderer"] as const;
const configuration = "electron.vite.config.ts";

function importsUnder(folder: string): Import[] {
  return sourceFiles(projectRoot, folder).flatMap((file) => importsOf(projectRoot, file));
}

describe("each folder imports only what the house plan allows it", () => {
  for (const folder of production) {
    test(folder, () => {
      const imports = importsUnder(folder);
      expect(imports.length).toBeGreaterThan(0);
      expect(imports.map(faultOf).filter((fault) => fault !== null)).toEqual([]);
    });
  }

  test(configuration, () => {
    const imports = existsSync(join(projectRoot, configuration)) ? importsOf(projectRoot, configuration) : [];
    expect(imports.map(faultOf).filter((fault) => fault !== null)).toEqual([]);
  });
});

test("no file imports itself by a detour, types included", () => {
  expect(cyclesIn([...production, "tests"].flatMap(importsUnder))).toEqual([]);
});

test("the core compiles without a DOM and without Node", () => {
  const { compilerOptions } = JSON.parse(readFileSync(join(projectRoot, "core/tsconfig.json"), "utf8")) as {
    compilerOptions: { lib: string[]; types: string[] };
  };
  expect(compilerOptions).toMatchObject({ lib: ["ES2023"], types: [] });
});

describe("the rules themselves", () => {
  const edge = (from: string, to: string): Import => ({
    from,
    to,
    inProject: to.includes("/") || to.endsWith(".ts"),
    typesOnly: false,
  });

  test.each([
    ["core/panelling/a.ts", "core/nesting/b.ts"],
    ["core/nesting/a.ts", "core/rolls/b.ts"],
    ["core/verifying/a.ts", "core/geometry/box.ts"],
    ["core/costing/a.ts", "core/verifying/verifyPlan.ts"],
    ["core/model/a.ts", "core/panelling/b.ts"],
    ["core/panelling/a.ts", "core/solve.ts"],
    ["core/solve.ts", "core/index.ts"],
    ["core/units/a.ts", "renderer/a.ts"],
    ["core/units/a.ts", "node:fs"],
    ["core/panelling/a.ts", "javascript-lp-solver"],
    ["core/units/a.ts", "zod"],
    ["shared/a.ts", "core/index.ts"],
    ["renderer/a.tsx", "core/units/ticks.ts"],
    ["renderer/a.tsx", "main/files/b.ts"],
    ["renderer/a.tsx", "electron"],
    ["renderer/a.tsx", "node:path"],
    ["main/cli/a.ts", "core/solve.ts"],
    ["main/cli/a.ts", "renderer/a.tsx"],
    ["main/cli/a.ts", "electron"],
    ["main/cli/a.ts", "highs"],
    ["core/programme/a.ts", "highs"],
    ["main/cli/a.ts", "tests/support/b.ts"],
  ])("%s must not import %s", (from, to) => {
    expect(faultOf(edge(from, to))).toContain(from);
  });

  test.each([
    ["core/rolls/a.ts", "core/nesting/b.ts"],
    ["core/verifying/checks/a.ts", "core/model/plan.ts"],
    ["core/verifying/verifyPlan.ts", "core/verifying/checks/a.ts"],
    ["core/solve.ts", "core/verifying/verifyPlan.ts"],
    ["core/model/a.ts", "shared/jobFile.ts"],
    ["core/programme/a.ts", "javascript-lp-solver"],
    ["renderer/a.tsx", "core/index.ts"],
    ["main/electron/a.ts", "electron"],
    ["main/cli/a.ts", "node:fs"],
    ["main/workers/a.ts", "highs"],
  ])("%s may import %s", (from, to) => {
    expect(faultOf(edge(from, to))).toBeNull();
  });

  test("the verifier may know the types of boxes and points, not the functions on them", () => {
    const shapes = edge("core/verifying/a.ts", "core/geometry/box.ts");
    expect(faultOf({ ...shapes, typesOnly: true })).toBeNull();
    expect(faultOf({ ...shapes, to: "core/geometry/region.ts", typesOnly: true })).not.toBeNull();
  });

  test("every room is shut against every other but for the listed doors", () => {
    const open = rooms.flatMap((here) =>
      rooms
        .filter((there) => there !== here && faultOf(edge(`core/${here}/a.ts`, `core/${there}/b.ts`)) === null)
        .map((there) => `${here} -> ${there}`),
    );
    expect(open).toEqual([
      "panelling -> programme",
      "nesting -> patterns",
      "nesting -> programme",
      "rolls -> nesting",
      "rolls -> programme",
    ]);
  });

  test("a cycle of three files is found", () => {
    expect(cyclesIn([edge("a/1.ts", "a/2.ts"), edge("a/2.ts", "a/3.ts"), edge("a/3.ts", "a/1.ts")])).toEqual([
      ["a/1.ts", "a/2.ts", "a/3.ts", "a/1.ts"],
    ]);
  });

  test("all forms of import are read, and comments are not", () => {
    const text = readFileSync(join(projectRoot, "tests/data/forms-of-import.txt"), "utf8");
    expect(
      specifiersIn(text)
        .map(({ specifier }) => specifier)
        .sort(),
    ).toEqual(["./a.ts", "./b.ts", "./c.ts", "./d.css", "./e.ts", "./f.ts", "./i.ts"]);
  });
});
