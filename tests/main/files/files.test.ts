import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, utimesSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, beforeEach, describe, expect, test } from "vitest";
import { FileFault, fileFault } from "../../../main/files/fileFault.ts";
import { jobFileName, jobStem, safeStem } from "../../../main/files/fileNames.ts";
import { jobTokens } from "../../../main/files/jobTokens.ts";
import { packageRoot } from "../../../main/files/packageRoot.ts";
import { rendererFiles } from "../../../main/files/rendererFiles.ts";
import { isThere, readWhole, writeWhole } from "../../../main/files/wholeFile.ts";
import { jobsIn } from "../../../main/files/workFolder.ts";
import { JobToken } from "../../../shared/host.ts";
import { projectRoot } from "../../support/projectRoot.ts";

let folder: string;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), "lapwright-test-"));
});
afterEach(() => rmSync(folder, { recursive: true }));

describe("names of files", () => {
  test.each([
    ["Clinic wall", "Clinic wall"],
    ["../../etc/passwd", "etc passwd"],
    ["..", "job"],
    [".hidden", "hidden"],
    ["a\u0000b\nc", "a b c"],
    ["con", "job con"],
    ["LPT1.txt", "job LPT1.txt"],
    ["  spaced . ", "spaced"],
    ["bus 54\u2033 \u00fc", "bus 54\u2033 \u00fc"],
    ["", "job"],
    ["x".repeat(500), "x".repeat(60)],
  ])("%j becomes %j", (given, stem) => {
    expect(safeStem(given)).toBe(stem);
  });

  test("job files have one ending", () => {
    expect(jobFileName("bus.job.json")).toBe("bus.job.json");
    expect(jobFileName("bus.json")).toBe("bus.job.json");
    expect(jobFileName("C:\\jobs\\bus.JSON")).toBe("bus.job.json");
    expect(jobStem("/a/b/bus.job.json")).toBe("bus");
  });
});

describe("whole files", () => {
  test("are written with the folders above them, and nothing is left beside them", async () => {
    const path = join(folder, "new", "wall.json");
    await writeWhole(path, "one");
    await writeWhole(path, "two");
    expect(readFileSync(path, "utf8")).toBe("two");
    expect(readdirSync(join(folder, "new"))).toEqual(["wall.json"]);
    expect(await readWhole(path)).toBe("two");
  });

  test("what was there stays when writing fails", async () => {
    const path = join(folder, "taken");
    writeFileSync(path, "old");
    await expect(writeWhole(join(path, "below.json"), "new")).rejects.toThrow(
      /below\.json can't be written: a file stands/,
    );
    expect(readFileSync(path, "utf8")).toBe("old");
  });

  test("faults name the file and not its folder", async () => {
    const missing = await readWhole(join(folder, "none.json")).catch((cause: unknown) => cause);
    expect(missing).toBeInstanceOf(FileFault);
    expect((missing as FileFault).message).toBe("none.json can't be read: there is no such file or folder.");
    await expect(readWhole(folder)).rejects.toThrow(/it is a folder/);
    expect(await isThere(join(folder, "none.json"))).toBe(false);
  });

  test("an error that is not the disk's passes as it is", () => {
    const cause = new TypeError("not a text");
    expect(fileFault(cause, "read", "x")).toBe(cause);
  });
});

describe("the work folder", () => {
  test("is not made by looking", async () => {
    expect(await jobsIn(join(folder, "none"))).toEqual([]);
    expect(existsSync(join(folder, "none"))).toBe(false);
  });

  test("lists jobs, newest first, plans and other files left out", async () => {
    for (const [name, time] of [
      ["old.job.json", 100],
      ["new.job.json", 300],
      ["b.json", 200],
      ["a.json", 200],
      ["bus.plan.json", 400],
      ["notes.txt", 500],
    ] as const) {
      writeFileSync(join(folder, name), "{}");
      utimesSync(join(folder, name), time, time);
    }
    expect((await jobsIn(folder)).map(({ name }) => name)).toEqual([
      "new.job.json",
      "a.json",
      "b.json",
      "old.job.json",
    ]);
  });
});

describe("tokens", () => {
  test("one path has one token, jobs without a path one each", () => {
    const tokens = jobTokens();
    const wall = tokens.keep({ name: "wall", path: "/jobs/wall.json" });
    expect(tokens.keep({ name: "wall", path: "/jobs/./wall.json" })).toBe(wall);
    const [one, two] = [0, 1].map(() => tokens.keep({ name: "demo", path: null }));
    expect(one).not.toBe(two);
    for (const token of [wall, one, two]) expect(JobToken.parse(token)).toBe(token);
    expect(tokens.find("abcdefgh")).toBeNull();
  });
});

test("the package's root is found from any folder of it, and only there", () => {
  expect(`${packageRoot(join(projectRoot, "main", "files"))}/`.replace(/\/+$/, "/")).toBe(
    `${projectRoot}/`.replace(/\/+$/, "/"),
  );
  expect(() => packageRoot(folder)).toThrow(/No package\.json/);
});

test("the renderer's table holds files of known types under their addresses alone", async () => {
  await writeWhole(join(folder, "index.html"), "<!doctype html>");
  await writeWhole(join(folder, "assets", "index-1.js"), "export {};");
  await writeWhole(join(folder, "assets", "secret.pem"), "x");
  const table = rendererFiles(folder);
  expect([...table.keys()].sort()).toEqual(["/", "/assets/index-1.js", "/index.html"]);
  expect(table.get("/assets/index-1.js")?.named).toBe(true);
  rmSync(join(folder, "index.html"));
  expect(() => rendererFiles(folder)).toThrow(/has not been built/);
});
