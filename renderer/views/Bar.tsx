import { Button } from "../controls/Button.tsx";
import { useCommands, useSheet } from "../state/context.ts";
import { isEdited, type Theme } from "../state/sheetState.ts";

const themes: readonly (readonly [Theme, string])[] = [
  ["system", "As system"],
  ["light", "Light"],
  ["dark", "Dark"],
];

/** The head of the sheet: which job it is, and what can be done with it as a whole. */
export function Bar() {
  const document = useSheet((state) => state.document);
  const theme = useSheet((state) => state.view.theme);
  const last = useSheet((state) => state.history.done.at(-1)?.label ?? null);
  const next = useSheet((state) => state.history.undone.at(-1)?.label ?? null);
  const hasPlan = useSheet((state) => state.shown !== null && state.shown.job === state.document?.job);
  const commands = useCommands();
  const edited = isEdited(document);
  const jobName = typeof document?.job.name === "string" ? document.job.name : "";
  return (
    <header className="bar">
      <div className="bar-title">
        <h1 title={jobName || document?.name}>{jobName || document?.name || "Lapwright"}</h1>
        {document === null ? null : (
          <span className="bar-file" title={document.name}>
            {document.name}
            <span className={edited ? "mark-edited" : "aside"}>
              {edited ? "edited, not saved" : document.onDisk ? "saved" : "not on disk"}
            </span>
          </span>
        )}
      </div>
      <nav className="bar-actions" aria-label="Job">
        <div className="group">
          <Button onClick={() => void commands.newJob(document?.job.units === "mm" ? "mm" : "in")}>New</Button>
          <Button onClick={() => void commands.open()} shortcut="Ctrl+O">
            Open
          </Button>
          <Button
            onClick={() => void commands.save()}
            disabled={!edited && document?.onDisk === true}
            shortcut="Ctrl+S"
          >
            Save
          </Button>
          <Button onClick={() => void commands.askSaveAs()} disabled={document === null} shortcut="Ctrl+Shift+S">
            Save as
          </Button>
        </div>
        <div className="group">
          <Button
            onClick={commands.undo}
            disabled={last === null}
            title={last === null ? "Nothing to undo" : `Undo: ${last}`}
            shortcut="Ctrl+Z"
          >
            Undo
          </Button>
          <Button
            onClick={commands.redo}
            disabled={next === null}
            title={next === null ? "Nothing to redo" : `Redo: ${next}`}
            shortcut="Ctrl+Shift+Z"
          >
            Redo
          </Button>
        </div>
        <div className="group">
          <Button
            weight="main"
            disabled={!hasPlan}
            onClick={() => commands.showDialog({ kind: "export" })}
            shortcut="Ctrl+E"
            title="Plan, cut list and roll map of the layout shown"
          >
            Export
          </Button>
        </div>
        <div className="group">
          <label className="theme">
            <span className="only-heard">Light or dark</span>
            <select
              className="input"
              value={theme}
              onChange={(event) => commands.changeView({ theme: event.target.value as Theme })}
            >
              {themes.map(([value, word]) => (
                <option key={value} value={value}>
                  {word}
                </option>
              ))}
            </select>
          </label>
          <Button onClick={() => commands.showDialog({ kind: "keys" })} title="Keys" shortcut="?">
            Keys
          </Button>
        </div>
      </nav>
    </header>
  );
}
