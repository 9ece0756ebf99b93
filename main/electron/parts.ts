/** The parts of Electron that the shell uses, handed in so that they can be stood in for. */
export type ElectronParts = Pick<
  typeof import("electron"),
  "app" | "BrowserWindow" | "dialog" | "ipcMain" | "Menu" | "protocol" | "session"
>;
