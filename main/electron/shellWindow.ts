import type { BrowserWindow, BrowserWindowConstructorOptions, Dialog } from "electron";
import { type HandledHost, handledHost } from "../handlers/handledHost.ts";
import type { Services } from "../handlers/services.ts";
import { eventChannel } from "./channels.ts";
import { mayLeave, systemDialogs } from "./dialogs.ts";
import { isPage, pageAddress } from "./page.ts";

export const windowOptions = (preload: string): BrowserWindowConstructorOptions => ({
  width: 1280,
  height: 800,
  minWidth: 800,
  minHeight: 560,
  show: false,
  title: "Lapwright",
  webPreferences: {
    preload,
    sandbox: true,
    contextIsolation: true,
    nodeIntegration: false,
    nodeIntegrationInWorker: false,
    nodeIntegrationInSubFrames: false,
    webSecurity: true,
    webviewTag: false,
    navigateOnDragDrop: false,
    spellcheck: false,
  },
});

/** A window and the host that answers it alone. */
export interface ShellWindow {
  readonly window: BrowserWindow;
  readonly host: HandledHost;
}

/** Ties a fresh window to a host of its own and keeps it on the program's page. */
export function shellWindow(
  window: BrowserWindow,
  dialog: Dialog,
  services: Omit<Services, "kind" | "dialogs" | "emit">,
): ShellWindow {
  const { webContents } = window;
  const host = handledHost({
    ...services,
    kind: "electron",
    dialogs: systemDialogs(dialog, window),
    emit: (event, body) => {
      if (!window.isDestroyed()) webContents.send(eventChannel, { event, body });
    },
  });
  const stopRuns = (): void => void host.stopRuns();
  webContents.setWindowOpenHandler(() => ({ action: "deny" }));
  // A reload of the page itself is no navigation in this sense; every other address is turned away.
  webContents.on("will-navigate", (event) => {
    if (!isPage(event.url)) event.preventDefault();
  });
  webContents.on("will-redirect", (event) => event.preventDefault());
  webContents.on("will-attach-webview", (event) => event.preventDefault());
  webContents.on("will-prevent-unload", (event) => {
    if (mayLeave(dialog, window)) event.preventDefault(); // prevents the prevention: the window goes
  });
  webContents.on("did-start-navigation", ({ isMainFrame, isSameDocument }) => {
    if (isMainFrame && !isSameDocument) stopRuns();
  });
  webContents.on("render-process-gone", stopRuns);
  window.on("closed", stopRuns);
  window.once("ready-to-show", () => window.show());
  return { window, host };
}

/** Loads the program's page. */
export const showPage = ({ window }: ShellWindow): Promise<void> => window.loadURL(pageAddress);
