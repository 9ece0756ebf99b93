import { beforeEach, describe, expect, test, vi } from "vitest";
import { bridgeOver } from "../../../main/electron/bridge.ts";
import { callChannel } from "../../../main/electron/channels.ts";
import { isPage, pageAddress } from "../../../main/electron/page.ts";
import { type ShellOptions, startShell } from "../../../main/electron/shell.ts";
import { hostCalls } from "../../../shared/host.ts";
import { page } from "../../contract/hosts.ts";
import { clinicWall } from "../../contract/jobs.ts";
import { type FakeElectron, type FakeWindow, fakeElectron } from "./fakeElectron.ts";

const stopped = vi.fn();
const complaints: string[] = [];
const options: ShellOptions = {
  version: "0.0.0",
  planner: { start: () => ({ stop: stopped, ended: new Promise(() => undefined) }) },
  preload: "/program/preload.cjs",
  files: page,
  workFolder: "/nowhere",
  demo: "/nowhere/demo.job.json",
  firstJob: null,
  complain: (text) => complaints.push(text),
};

let electron: FakeElectron;
let window: FakeWindow;
beforeEach(async () => {
  stopped.mockClear();
  complaints.length = 0;
  electron = fakeElectron();
  await startShell(electron.parts, options, "linux");
  window = electron.windows()[0] as FakeWindow;
});

/** An event that a page may have prevented. */
const preventable = (more: object = {}) => ({ preventDefault: vi.fn(), ...more });
const ask = (frame?: { url: string } | null, ...args: unknown[]) =>
  electron.renderer(window, frame).invoke(callChannel, ...args) as Promise<Record<string, unknown>>;

describe("the window", () => {
  test("is sandboxed, isolated and without Node", () => {
    expect(electron.app.sandboxed).toBe(true);
    expect(window.options.webPreferences).toMatchObject({
      preload: "/program/preload.cjs",
      sandbox: true,
      contextIsolation: true,
      nodeIntegration: false,
      nodeIntegrationInWorker: false,
      nodeIntegrationInSubFrames: false,
      webSecurity: true,
      webviewTag: false,
    });
  });

  test("shows the program's own page", () => {
    expect(window.webContents.mainFrame.url).toBe(pageAddress);
    expect(window.shown).toBe(true);
  });

  test("opens no other window", () => {
    expect(window.webContents.openHandler?.({ url: pageAddress })).toEqual({ action: "deny" });
    const contents = { setWindowOpenHandler: vi.fn() };
    electron.app.emit("web-contents-created", {}, contents);
    expect(contents.setWindowOpenHandler.mock.calls[0]?.[0]()).toEqual({ action: "deny" });
  });

  test("goes nowhere else", () => {
    for (const [url, times] of [
      ["https://elsewhere.example/", 1],
      ["file:///etc/passwd", 1],
      ["lapwright://other/", 1],
      ["lapwright://user@window/", 1],
      [pageAddress, 0],
    ] as const) {
      const event = preventable({ url });
      window.webContents.emit("will-navigate", event);
      expect(event.preventDefault, url).toHaveBeenCalledTimes(times);
    }
    for (const name of ["will-redirect", "will-attach-webview"]) {
      const event = preventable();
      window.webContents.emit(name, event);
      expect(event.preventDefault).toHaveBeenCalledTimes(1);
    }
  });

  test("is asked before unsaved changes are lost", () => {
    for (const leave of [true, false]) {
      electron.answers.leave = leave;
      const event = preventable();
      window.webContents.emit("will-prevent-unload", event);
      expect(event.preventDefault).toHaveBeenCalledTimes(leave ? 1 : 0);
    }
  });

  test("gets no permission", () => {
    const answer = vi.fn();
    electron.permissions.request?.({}, "media", answer);
    expect(answer).toHaveBeenCalledWith(false);
    expect(electron.permissions.check?.()).toBe(false);
  });
});

describe("the page", () => {
  test("comes from the table, with the strict policy", async () => {
    const answer = await electron.request(pageAddress);
    expect(answer.status).toBe(200);
    expect(await answer.text()).toContain("<title>page</title>");
    expect(answer.headers.get("content-security-policy")).toContain("default-src 'none'");
    expect(electron.schemes).toEqual([
      { scheme: "lapwright", privileges: { standard: true, secure: true, supportFetchAPI: true } },
    ]);
  });

  test.each(["lapwright://window/../../etc/passwd", "lapwright://other/", "lapwright://window/none.js"])(
    "nothing else does: %s",
    async (url) => {
      expect((await electron.request(url)).status).toBe(404);
    },
  );

  test("nothing is written to it", async () => {
    expect((await electron.request(pageAddress, "POST")).status).toBe(404);
  });

  test.each(["", "about:blank", "https://window/", "lapwright:window"])("%j is not the page", (address) => {
    expect(isPage(address)).toBe(false);
  });
});

describe("the call channel", () => {
  test("answers the window's main frame on the program's page alone", async () => {
    expect(await ask(undefined, "hostInfo", {})).toMatchObject({ ok: true, output: { kind: "electron" } });
    for (const frame of [null, { url: pageAddress }, { url: "https://elsewhere.example/" }]) {
      expect(await ask(frame, "hostInfo", {})).toMatchObject({ ok: false });
    }
    window.webContents.mainFrame.url = "https://elsewhere.example/";
    expect(await ask(undefined, "hostInfo", {})).toMatchObject({ ok: false });
  });

  test.each([
    ["none", {}],
    ["__proto__", {}],
    ["toString", {}],
    [5, {}],
    ["readJob", { job: 5 }],
    ["readJob", undefined],
  ])("refuses the call %j with %j", async (name, input) => {
    const answer = await ask(undefined, name, input);
    expect(answer).toMatchObject({ ok: false, refusal: { refused: expect.any(String), problems: expect.any(Array) } });
    expect(complaints).toEqual([]);
  });

  test("a broken promise is told to the terminal, not to the page", async () => {
    const broken = fakeElectron();
    const planner = {
      start: () => {
        throw new Error("in /home/someone/secret");
      },
    };
    await startShell(broken.parts, { ...options, planner }, "linux");
    const opened = broken.windows()[0] as FakeWindow;
    const request = { runId: "a", job: {}, seed: 1, budget: { work: 1 } };
    const answer = await broken.renderer(opened).invoke(callChannel, "startPlan", request);
    expect(answer).toMatchObject({ ok: false });
    expect(JSON.stringify(answer)).not.toContain("secret");
    expect(complaints).toEqual(["in /home/someone/secret"]);
  });
});

describe("the bridge", () => {
  test("has one function for each call of the contract, and `on`", () => {
    const bridge = bridgeOver(electron.renderer(window));
    expect(Object.keys(bridge).sort()).toEqual([...Object.keys(hostCalls), "on"].sort());
  });

  test("passes events on until it is told not to", async () => {
    const bridge = bridgeOver(electron.renderer(window));
    const heard = vi.fn();
    const off = bridge.on("planDone", heard);
    const body = { runId: "a", seconds: 1, outcome: { status: "stopped" } };
    window.webContents.send("lapwright:event", { event: "planDone", body });
    window.webContents.send("lapwright:event", { event: "planProgress", body: {} });
    off();
    window.webContents.send("lapwright:event", { event: "planDone", body });
    expect(heard.mock.calls).toEqual([[body]]);
  });

  test("makes an error whose message is the refusal", async () => {
    const bridge = bridgeOver(electron.renderer(window));
    const refusal = await bridge.openListed({ token: "abcdefgh" }).catch((cause: Error) => cause.message);
    expect(JSON.parse(refusal as string)).toMatchObject({ refused: expect.any(String), problems: [] });
  });
});

describe("dialogs", () => {
  test("null when the user turns away, everywhere", async () => {
    const bridge = bridgeOver(electron.renderer(window));
    expect(await bridge.openByDialog({})).toBeNull();
    expect(await bridge.saveJobAs({ name: "clinic", job: clinicWall })).toBeNull();
    expect(electron.proposed).toEqual(["clinic.job.json"]);
  });
});

describe("one program", () => {
  test("a second start hands its job over and ends", async () => {
    const second = fakeElectron({ second: true });
    expect(await startShell(second.parts, { ...options, firstJob: "/jobs/bus.json" }, "linux")).toBe(false);
    expect(second.app.handedOver).toEqual({ job: "/jobs/bus.json" });
    expect(second.app.quits).toBe(1);
    expect(second.windows()).toEqual([]);
  });

  test("the first brings its window forward, or opens one for the job", () => {
    window.minimized = true;
    electron.app.emit("second-instance", {}, [], "", { job: null });
    expect(window).toMatchObject({ minimized: false, focused: 1 });
    electron.app.emit("second-instance", {}, [], "", { job: "/jobs/bus.json" });
    expect(electron.windows()).toHaveLength(2);
  });

  test("ends with its last window", () => {
    electron.app.emit("window-all-closed");
    expect(electron.app.quits).toBe(1);
  });

  test("opens a window anew when there is none", () => {
    window.close();
    electron.app.emit("activate");
    expect(electron.windows()).toHaveLength(1);
  });
});

test.each([
  { how: "closed", leave: () => window.close() },
  { how: "gone", leave: () => window.webContents.emit("render-process-gone") },
  {
    how: "reloaded",
    leave: () => window.webContents.emit("did-start-navigation", { isMainFrame: true, isSameDocument: false }),
  },
])("runs of a window that is $how are stopped", async ({ leave }) => {
  await ask(undefined, "startPlan", { runId: "a", job: clinicWall, seed: 1, budget: { work: 1 } });
  leave();
  expect(stopped).toHaveBeenCalledTimes(1);
});

test("macOS keeps the menu that its editing keys need", async () => {
  expect(electron.menus).toEqual([null]);
  const mac = fakeElectron();
  await startShell(mac.parts, options, "darwin");
  expect(mac.menus).toEqual([[{ role: "appMenu" }, { role: "editMenu" }, { role: "windowMenu" }]]);
});
