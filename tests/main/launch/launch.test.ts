import { spawn } from "node:child_process";
import { chmodSync, mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { createServer } from "node:net";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { projectRoot } from "../../support/projectRoot.ts";

const launch = join(projectRoot, "main", "launch");
const load = async <T>(name: string): Promise<T> =>
  (await import(/* @vite-ignore */ pathToFileURL(join(launch, name)).href)) as T;

let folder: string;
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "lapwright-test-"));
});
afterAll(() => rmSync(folder, { recursive: true }));

describe("options", () => {
  type Read = { readOptions: (args: string[]) => Record<string, unknown> };

  test("all of them", async () => {
    const { readOptions } = await load<Read>("options.mjs");
    const job = join(folder, "wall.job.json");
    writeFileSync(job, "{}");
    expect(readOptions([])).toEqual({ job: null, port: 0, folder: null, window: true });
    expect(readOptions([job, "--port", "8123", "--no-window", `--folder=${folder}`])).toEqual({
      job,
      port: 8123,
      folder,
      window: false,
    });
  });

  test.each([
    { args: ["--port", "x"], says: /--port takes/ },
    { args: ["--port", "70000"], says: /--port takes/ },
    { args: ["--port"], says: /--port takes/ },
    { args: ["--folder"], says: /--folder takes/ },
    { args: ["--fast"], says: /no option --fast/ },
    { args: ["none.job.json"], says: /can't be read/ },
    { args: ["."], says: /is a folder/ },
    { args: ["a", "b"], says: /One job at a time/ },
  ])("refuses $args", async ({ args, says }) => {
    const { readOptions } = await load<Read>("options.mjs");
    expect(readOptions(args).fault).toMatch(says);
  });
});

describe.skipIf(process.platform === "win32")("a display", () => {
  type Display = { whyNoDisplay: (platform: string, env: Record<string, string>) => Promise<string | null> };

  test("is there when its socket accepts, not when a variable says so", async () => {
    const { whyNoDisplay } = await load<Display>("display.mjs");
    const socket = join(folder, "wayland-9");
    const env = { WAYLAND_DISPLAY: "wayland-9", XDG_RUNTIME_DIR: folder };
    expect(await whyNoDisplay("linux", env)).toMatch(/wayland-9 does not answer/);
    const server = createServer();
    await new Promise<void>((resolve) => server.listen(socket, resolve));
    expect(await whyNoDisplay("linux", env)).toBeNull();
    server.close();
    expect(await whyNoDisplay("linux", { DISPLAY: ":9973" })).toMatch(/:9973 does not answer/);
    expect(await whyNoDisplay("linux", { DISPLAY: "nonsense" })).toMatch(/does not answer/);
    expect(await whyNoDisplay("linux", {})).toBe("there is no display");
  });

  test("is taken for granted where windows always are", async () => {
    const { whyNoDisplay } = await load<Display>("display.mjs");
    expect(await whyNoDisplay("darwin", {})).toBeNull();
  });
});

describe.skipIf(process.platform === "win32")("a browser", () => {
  type Browser = { findBrowser: (platform: string, env: Record<string, string>) => string | null };

  test("is one that this user can run; the one named outright comes first", async () => {
    const { findBrowser } = await load<Browser>("browser.mjs");
    const own = join(folder, "own-browser");
    const onPath = join(folder, "bin", "chromium");
    mkdirSync(join(folder, "bin"));
    for (const file of [own, onPath]) writeFileSync(file, "#!/bin/sh\n");
    chmodSync(own, 0o755);
    expect(findBrowser("linux", { PATH: join(folder, "bin"), LAPWRIGHT_CHROMIUM: own })).toBe(own);
    chmodSync(onPath, 0o755);
    expect(findBrowser("linux", { PATH: join(folder, "bin") })).toBe(onPath);
  });
});

describe.skipIf(process.platform === "win32")("an Electron runtime", () => {
  type Runtime = {
    findRuntime: (root: string, env: Record<string, string>) => string | null;
    fetchRuntime: (root: string, progress: (text: string) => void, patience: number) => Promise<string | null>;
  };
  const root = () => join(folder, "program");
  const inPackage = (name: string): string => join(root(), "node_modules", "electron", name);
  const write = (path: string, text: string): void => {
    mkdirSync(join(path, ".."), { recursive: true });
    writeFileSync(path, text);
    chmodSync(path, 0o755);
  };

  test("is one that starts", async () => {
    const { findRuntime } = await load<Runtime>("runtime.mjs");
    expect(findRuntime(root(), {})).toBeNull();
    write(inPackage("path.txt"), "electron");
    write(inPackage("dist/electron"), "#!/bin/sh\nexit 127\n");
    expect(findRuntime(root(), {})).toBeNull();
    write(inPackage("dist/electron"), "#!/bin/sh\nexit 0\n");
    expect(findRuntime(root(), {})).toBe(inPackage("dist/electron"));
  });

  test.each([
    {
      does: "says no",
      code: "console.error(new Error('getaddrinfo ENOTFOUND x')); process.exit(1);",
      says: /ENOTFOUND/,
    },
    {
      does: "fails",
      code: "console.error(new Error('the archive is torn')); process.exit(1);",
      says: /archive is torn/,
    },
    { does: "does nothing", code: "setInterval(() => {}, 1000);", says: /nothing came/ },
    {
      does: "comes",
      code: "require('fs').writeFileSync(require('os').tmpdir() + '/part', 'x'.repeat(2e6)); setTimeout(() => {}, 1500);",
      says: null,
    },
  ])("is not waited for in vain: the network $does", async ({ code, says }) => {
    const { fetchRuntime } = await load<Runtime>("runtime.mjs");
    write(inPackage("install.js"), code);
    const progress: string[] = [];
    const fault = await fetchRuntime(root(), (text) => progress.push(text), 2500);
    if (says === null) {
      expect(fault).toBeNull();
      expect(progress.join()).toMatch(/2\.0 MB/);
    } else {
      expect(fault).toMatch(says);
    }
  });
});

describe("start", () => {
  /** Runs the command until it has said enough, then ends it with a signal; everything it said, and its exit status. */
  function started(args: string[], enough: RegExp): Promise<{ said: string; status: number | null; address: string }> {
    return new Promise((resolve, reject) => {
      const child = spawn(process.execPath, [join(launch, "start.mjs"), ...args], { cwd: folder });
      let said = "";
      let address = "";
      const hear = (data: Buffer): void => {
        said += data;
        address ||= /http:\/\/127\.0\.0\.1:\d+/.exec(said)?.[0] ?? "";
        if (enough.test(said)) child.kill("SIGTERM");
      };
      child.stdout.on("data", hear);
      child.stderr.on("data", hear);
      child.on("error", reject);
      child.on("close", (status) => resolve({ said, status, address }));
    });
  }

  test("without a window it gives an address and the reason, and ends whole when asked to", async () => {
    const { said, status, address } = await started(["--no-window"], /#token=[\w-]{43}\n/);
    expect(said).toMatch(/No window was opened: --no-window was given\./);
    expect(said).not.toMatch(/^\s+at /m);
    expect(status).toBe(0);
    await expect(fetch(address)).rejects.toThrow();
  });

  test("bad options end it with a line on how it is used", async () => {
    const { said, status } = await started(["--fast"], /^$/);
    expect(said).toMatch(/There is no option --fast\.\nUsage: npm start/);
    expect(status).toBe(2);
  });
});
