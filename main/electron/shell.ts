import type { Session } from "electron";
import type { ServedFile } from "../files/rendererFiles.ts";
import type { HandledHost } from "../handlers/handledHost.ts";
import type { Services } from "../handlers/services.ts";
import { answerCalls } from "./calls.ts";
import { registerPageScheme, servePage } from "./page.ts";
import type { ElectronParts } from "./parts.ts";
import { shellWindow, showPage, windowOptions } from "./shellWindow.ts";

export interface ShellOptions extends Omit<Services, "kind" | "dialogs" | "emit"> {
  readonly preload: string;
  readonly files: ReadonlyMap<string, ServedFile>;
  readonly complain: (text: string) => void;
}

/** What one start of the program hands to the one that is running already. */
interface SecondStart {
  readonly job: string | null;
}

/** No page gets a camera, a place, a notice or anything else that a browser may ask a person for. */
function denyPermissions(session: Session): void {
  session.setPermissionRequestHandler((_, __, answer) => answer(false));
  session.setPermissionCheckHandler(() => false);
  session.setDevicePermissionHandler(() => false);
}

/** macOS takes the usual editing keys from the menu; elsewhere the page has them by itself. */
function setMenu({ Menu }: Pick<ElectronParts, "Menu">, platform: NodeJS.Platform): void {
  const roles = [{ role: "appMenu" }, { role: "editMenu" }, { role: "windowMenu" }] as const;
  Menu.setApplicationMenu(platform === "darwin" ? Menu.buildFromTemplate([...roles]) : null);
}

/**
 * Runs the desktop shell: one program however often it is started, a window per job named at a start, each with a host of
 * its own behind the one checked call channel.
 *
 * @returns true when this start became the program, false when it handed over to the one that runs
 */
export async function startShell(
  parts: ElectronParts,
  options: ShellOptions,
  platform: NodeJS.Platform = process.platform,
): Promise<boolean> {
  const { app, BrowserWindow, dialog, ipcMain, protocol, session } = parts;
  const handOver: SecondStart = { job: options.firstJob };
  if (!app.requestSingleInstanceLock(handOver)) {
    app.quit();
    return false;
  }
  registerPageScheme(protocol);
  app.enableSandbox();

  const hosts = new Map<number, HandledHost>();
  const open = (firstJob: string | null): void => {
    const made = shellWindow(new BrowserWindow(windowOptions(options.preload)), dialog, { ...options, firstJob });
    const { id } = made.window.webContents;
    hosts.set(id, made.host);
    made.window.on("closed", () => hosts.delete(id));
    showPage(made).catch((cause: Error) => options.complain(`The window's page did not load: ${cause.message}`));
  };

  app.on("second-instance", (_, __, ___, data) => {
    const { job } = data as SecondStart;
    const [window] = BrowserWindow.getAllWindows();
    if (job !== null || window === undefined) return open(job);
    if (window.isMinimized()) window.restore();
    window.focus();
  });
  app.on("window-all-closed", () => app.quit());
  app.on("activate", () => {
    if (BrowserWindow.getAllWindows().length === 0) open(null);
  });
  app.on("web-contents-created", (_, contents) => contents.setWindowOpenHandler(() => ({ action: "deny" })));

  await app.whenReady();
  denyPermissions(session.defaultSession);
  setMenu(parts, platform);
  servePage(protocol, options.files);
  answerCalls(ipcMain, (id) => hosts.get(id), options.complain);
  open(options.firstJob);
  return true;
}
