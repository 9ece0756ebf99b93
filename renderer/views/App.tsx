import { type DragEvent, useEffect, useState } from "react";
import { useStore } from "zustand";
import { SheetContext, useCommands } from "../state/context.ts";
import type { Sheet } from "../state/sheet.ts";
import { isEdited } from "../state/sheetState.ts";
import { Announcer } from "./Announcer.tsx";
import { Bar } from "./Bar.tsx";
import { ComparedBand } from "./ComparedBand.tsx";
import { CoveredBand } from "./CoveredBand.tsx";
import { Dialogs } from "./Dialogs.tsx";
import { runKey } from "./keys.ts";
import { Notices } from "./Notices.tsx";
import { PrintedBand } from "./PrintedBand.tsx";
import { RunStrip } from "./RunStrip.tsx";
import { SideColumn } from "./SideColumn.tsx";

/** The whole window: one sheet with three bands, and one column at its side. */
export function App({ sheet }: { readonly sheet: Sheet }) {
  return (
    <SheetContext value={sheet}>
      <Titled sheet={sheet} />
      <Keys sheet={sheet} />
      <Window />
    </SheetContext>
  );
}

function Titled({ sheet }: { readonly sheet: Sheet }) {
  const document = useStore(sheet.store, (state) => state.document);
  const theme = useStore(sheet.store, (state) => state.view.theme);
  const edited = isEdited(document);
  useEffect(() => {
    window.document.title = document === null ? "Lapwright" : `${edited ? "• " : ""}${document.name} – Lapwright`;
  }, [document, edited]);
  useEffect(() => {
    const root = window.document.documentElement;
    if (theme === "system") delete root.dataset.theme;
    else root.dataset.theme = theme;
  }, [theme]);
  useEffect(() => {
    const keep = (): void => sheet.commands.keepDraftNow();
    window.addEventListener("pagehide", keep);
    window.document.addEventListener("visibilitychange", keep);
    return () => {
      window.removeEventListener("pagehide", keep);
      window.document.removeEventListener("visibilitychange", keep);
    };
  }, [sheet]);
  return null;
}

function Keys({ sheet }: { readonly sheet: Sheet }) {
  useEffect(() => {
    const press = (event: KeyboardEvent): void => {
      runKey(event, sheet.commands, sheet.store.getState());
    };
    window.addEventListener("keydown", press);
    return () => window.removeEventListener("keydown", press);
  }, [sheet]);
  return null;
}

function Window() {
  const { go, notice } = useCommands();
  const [over, setOver] = useState(false);

  const holdsFile = (event: DragEvent): boolean => [...event.dataTransfer.types].includes("Files");
  const drop = (event: DragEvent): void => {
    if (!holdsFile(event)) return;
    event.preventDefault();
    setOver(false);
    const [file, ...others] = event.dataTransfer.files;
    if (file === undefined) return;
    if (others.length > 0) notice("One job at a time: drop a single file.", "attention");
    else void file.text().then((text) => go({ to: "file", name: file.name, text }));
  };

  return (
    // biome-ignore lint/a11y/noStaticElementInteractions: dropping a file is an extra; the Open dialog does the same by key
    <div
      className={over ? "window window-drop" : "window"}
      onDragOver={(event) => {
        if (!holdsFile(event)) return;
        event.preventDefault();
        setOver(true);
      }}
      onDragLeave={(event) => {
        if (event.relatedTarget === null) setOver(false);
      }}
      onDrop={drop}
    >
      <nav className="skips" aria-label="Skip">
        <a href="#covered">To what is covered</a>
        <a href="#compared">To how it could be done</a>
        <a href="#printed">To what is printed</a>
        <a href="#details">To the details</a>
      </nav>
      <Bar />
      <RunStrip />
      <Notices />
      <div className="sheet">
        <main className="bands">
          <CoveredBand />
          <ComparedBand />
          <PrintedBand />
        </main>
        <SideColumn />
      </div>
      <Announcer />
      <Dialogs />
    </div>
  );
}
