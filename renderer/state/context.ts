import { createContext, useContext } from "react";
import { useStore } from "zustand";
import type { Commands, Sheet } from "./sheet.ts";
import type { SheetState } from "./sheetState.ts";

/** The one sheet of this window, handed down to every view. */
export const SheetContext = createContext<Sheet | null>(null);

function useSheetItself(): Sheet {
  const sheet = useContext(SheetContext);
  if (sheet === null) throw new Error("A view stands outside the sheet.");
  return sheet;
}

/** A part of the sheet's state; the view is drawn again when that part changes. Select stored objects, make none. */
export function useSheet<T>(select: (state: SheetState) => T): T {
  return useStore(useSheetItself().store, select);
}

export const useCommands = (): Commands => useSheetItself().commands;
