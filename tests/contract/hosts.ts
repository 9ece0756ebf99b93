import { mkdtemp, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { bridgeOver } from "../../main/electron/bridge.ts";
import { startShell } from "../../main/electron/shell.ts";
import { demoPath } from "../../main/files/demoJob.ts";
import type { ServedFile } from "../../main/files/rendererFiles.ts";
import { startLoopback } from "../../main/loopback/server.ts";
import { type Planner, plannerOn } from "../../main/workers/planRunner.ts";
import { workerFromSource } from "../../main/workers/workerFile.ts";
import { bridgeHost } from "../../renderer/host/bridgeHost.ts";
import { loopbackHost } from "../../renderer/host/loopbackHost.ts";
import type { Host } from "../../shared/host.ts";
import { type FakeElectron, fakeElectron } from "../main/electron/fakeElectron.ts";
import { projectRoot } from "../support/projectRoot.ts";

/** A host under test, seen from where a renderer sits. */
export interface TestedHost {
  readonly host: Host;
  /** Where saved jobs go. */
  readonly folder: string;
  readonly complaints: readonly string[];
  readonly close: () => Promise<void>;
}

export const page: ReadonlyMap<string, ServedFile> = new Map([
  ["/", { type: "text/html; charset=utf-8", bytes: Buffer.from("<!doctype html><title>page</title>"), named: false }],
  ["/assets/page-1a2b.js", { type: "text/javascript; charset=utf-8", bytes: Buffer.from("export {};"), named: true }],
]);

const common = (planner: Planner, folder: string) => ({
  version: "0.0.0",
  planner,
  workFolder: folder,
  demo: demoPath(projectRoot),
  firstJob: null,
  files: page,
});

export const workerPlanner = (): Planner => plannerOn(workerFromSource());

/** The desktop shell on a stand-in for Electron, through its real bridge and the renderer's own end of it. */
export async function electronHost(
  planner = workerPlanner(),
): Promise<TestedHost & { readonly electron: FakeElectron }> {
  const folder = await mkdtemp(join(tmpdir(), "lapwright-test-"));
  const complaints: string[] = [];
  const electron = fakeElectron();
  electron.answers.save = join(folder, "clinic.job.json");
  const options = {
    ...common(planner, folder),
    preload: "preload.cjs",
    complain: (text: string) => complaints.push(text),
  };
  await startShell(electron.parts, options, "linux");
  const [window] = electron.windows();
  if (window === undefined) throw new Error("the shell opened no window");
  return {
    host: bridgeHost(bridgeOver(electron.renderer(window))),
    folder,
    complaints,
    electron,
    close: async () => {
      window.close();
      await rm(folder, { recursive: true });
    },
  };
}

/** The loopback server over real HTTP, through the renderer's own end of it. */
export async function httpHost(
  planner = workerPlanner(),
): Promise<TestedHost & { readonly origin: string; readonly token: string }> {
  const folder = await mkdtemp(join(tmpdir(), "lapwright-test-"));
  const complaints: string[] = [];
  const server = await startLoopback({
    ...common(planner, folder),
    port: 0,
    complain: (text) => complaints.push(text),
  });
  let standing: () => void = () => undefined;
  const listening = new Promise<void>((resolve) => {
    standing = resolve;
  });
  const { host, close } = loopbackHost({ base: server.origin, token: server.token, onConnection: () => standing() });
  await listening;
  return {
    host,
    folder,
    complaints,
    origin: server.origin,
    token: server.token,
    close: async () => {
      close();
      await server.close();
      await rm(folder, { recursive: true });
    },
  };
}
