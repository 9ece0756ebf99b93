import type { BrowserWindow, Dialog } from "electron";
import type { Dialogs } from "../handlers/services.ts";

const jobFiles = [{ name: "Lapwright job", extensions: ["json"] }];

/** The system's dialogs, as sheets of one window. */
export function systemDialogs(dialog: Dialog, window: BrowserWindow): Dialogs {
  const first = ({ canceled, filePaths }: { canceled: boolean; filePaths: string[] }): string | null =>
    canceled ? null : (filePaths[0] ?? null);
  return {
    openJob: async () =>
      first(await dialog.showOpenDialog(window, { title: "Open a job", filters: jobFiles, properties: ["openFile"] })),
    saveJob: async (proposedName) => {
      const { canceled, filePath } = await dialog.showSaveDialog(window, {
        title: "Save the job",
        defaultPath: proposedName,
        filters: jobFiles,
        properties: ["createDirectory", "showOverwriteConfirmation"],
      });
      return canceled || filePath === "" ? null : filePath;
    },
    pickFolder: async () =>
      first(
        await dialog.showOpenDialog(window, {
          title: "Folder for the exports",
          buttonLabel: "Write here",
          properties: ["openDirectory", "createDirectory"],
        }),
      ),
  };
}

/** Asks whether a window with unsaved changes may go. */
export function mayLeave(dialog: Dialog, window: BrowserWindow): boolean {
  const choice = dialog.showMessageBoxSync(window, {
    type: "question",
    message: "Close without saving?",
    detail: "The job has changes that have not been saved.",
    buttons: ["Close without saving", "Keep open"],
    defaultId: 1,
    cancelId: 1,
  });
  return choice === 0;
}
