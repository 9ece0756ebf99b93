import { join } from "node:path";
import { app, BrowserWindow, dialog, ipcMain, Menu, protocol, session } from "electron";
import { demoPath } from "../files/demoJob.ts";
import { packageRoot, packageVersion } from "../files/packageRoot.ts";
import { rendererFiles } from "../files/rendererFiles.ts";
import { defaultWorkFolder } from "../files/workFolder.ts";
import { plannerOn } from "../workers/planRunner.ts";
import { startShell } from "./shell.ts";

/** The entry of the desktop program: finds its own files and runs the shell on them. */
const root = packageRoot();
const complain = (text: string): void => {
  process.stderr.write(`lapwright: ${text}\n`);
};
// Unpackaged, the first argument is the program's own folder.
const [job] = process.argv.slice(app.isPackaged ? 1 : 2).filter((argument) => !argument.startsWith("-"));

for (const signal of ["SIGINT", "SIGTERM", "SIGHUP"] as const) process.on(signal, () => app.quit());

startShell(
  { app, BrowserWindow, dialog, ipcMain, Menu, protocol, session },
  {
    version: packageVersion(root),
    planner: plannerOn(join(root, "out", "main", "planWorker.js")),
    preload: join(root, "out", "preload", "preload.cjs"),
    files: rendererFiles(join(root, "out", "renderer")),
    workFolder: defaultWorkFolder(),
    demo: demoPath(root),
    firstJob: job ?? null,
    complain,
  },
).catch((cause: unknown) => {
  complain(cause instanceof Error ? cause.message : String(cause));
  app.exit(1);
});
