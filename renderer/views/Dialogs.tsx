import { type FormEvent, useEffect, useId, useState } from "react";
import { ExportKind } from "../../shared/host.ts";
import { Button } from "../controls/Button.tsx";
import { Dialog } from "../controls/Dialog.tsx";
import { governs } from "../state/cautions.ts";
import { useCommands, useSheet } from "../state/context.ts";
import type { LeaveTo } from "../state/sheetState.ts";
import { layoutTitle } from "../state/words.ts";
import { useOnSheet } from "./hooks.ts";
import { keyActions } from "./keys.ts";

/** Whatever must be answered before the sheet goes on. */
export function Dialogs() {
  const dialog = useSheet((state) => state.dialog);
  switch (dialog?.kind) {
    case undefined:
      return null;
    case "open":
      return <OpenDialog />;
    case "keys":
      return <KeySheet />;
    case "export":
      return <ExportDialog />;
    case "saveAs":
      return <SaveAsDialog key={dialog.exists ?? "new"} name={dialog.name} exists={dialog.exists} />;
    case "leave":
      return <LeaveDialog then={dialog.then} />;
  }
}

type Listed = Awaited<ReturnType<ReturnType<typeof useCommands>["listJobs"]>>;

function OpenDialog() {
  const { listJobs, go, showDialog } = useCommands();
  const folder = useSheet((state) => state.host?.folder ?? null);
  const [jobs, setJobs] = useState<Listed | null>(null);
  const id = useId();
  useEffect(() => {
    let here = true;
    void listJobs().then((list) => {
      if (here) setJobs(list);
    });
    return () => {
      here = false;
    };
  }, [listJobs]);
  const leave = (then: LeaveTo): void => {
    showDialog(null);
    void go(then);
  };
  return (
    <Dialog title="Open a job" onClose={() => showDialog(null)}>
      <h3>{folder === null ? "Jobs" : `In the folder ${folder}`}</h3>
      {jobs === null ? <p className="aside">Reading the folder.</p> : null}
      {jobs?.length === 0 ? <p className="aside">No job files there yet.</p> : null}
      <ul className="rows">
        {jobs?.map((job) => (
          <li key={job.token} className="row-words">
            <Button weight="bare" onClick={() => leave({ to: "listed", token: job.token })}>
              {job.name}
            </Button>
            <span className="aside">{whenWords(job.changed)}</span>
          </li>
        ))}
      </ul>
      <h3>From elsewhere</h3>
      <div className="field">
        <label className="field-label" htmlFor={id}>
          A job file on this computer
        </label>
        <input
          id={id}
          type="file"
          accept=".json,application/json"
          onChange={(event) => {
            const file = event.target.files?.[0];
            if (file !== undefined) void file.text().then((text) => leave({ to: "file", name: file.name, text }));
          }}
        />
        <p className="field-hint">A file can also be dropped anywhere on the window.</p>
      </div>
      <Button className="dialog-aside" onClick={() => leave({ to: "demo" })}>
        Open the demo job
      </Button>
    </Dialog>
  );
}

function whenWords(changed: string): string {
  const date = new Date(changed);
  return Number.isNaN(date.getTime())
    ? changed
    : date.toLocaleString("en-GB", { dateStyle: "medium", timeStyle: "short" });
}

function SaveAsDialog({ name, exists }: { readonly name: string; readonly exists: string | null }) {
  const { saveAs, showDialog } = useCommands();
  const folder = useSheet((state) => state.host?.folder ?? null);
  const [typed, setTyped] = useState(name);
  const id = useId();
  const asksToReplace = exists !== null && typed === name;
  const submit = (event: FormEvent): void => {
    event.preventDefault();
    if (typed.trim() !== "") void saveAs(typed.trim(), asksToReplace);
  };
  return (
    <Dialog
      title="Save as"
      onClose={() => showDialog(null)}
      closeWord="Cancel"
      actions={
        <Button weight="main" type="submit" form={`${id}-form`}>
          {asksToReplace ? `Replace ${exists}` : "Save"}
        </Button>
      }
    >
      <form id={`${id}-form`} onSubmit={submit}>
        <div className="field">
          <label className="field-label" htmlFor={id}>
            File name
          </label>
          <input className="input" id={id} value={typed} onChange={(event) => setTyped(event.target.value)} />
          <p className={asksToReplace ? "field-said" : "field-hint"} role={asksToReplace ? "alert" : undefined}>
            {asksToReplace
              ? `A file named ${exists} is there already. Replace it, or give another name.`
              : folder === null
                ? "You will be asked where."
                : `In the folder ${folder}.`}
          </p>
        </div>
      </form>
    </Dialog>
  );
}

const exportKinds: readonly (readonly [ExportKind, string, string])[] = [
  ["plan", "Plan", "every layout with all its numbers, to be opened or checked again (JSON)"],
  ["cutList", "Cut list", "one row for each piece, with the counter's readings (CSV)"],
  ["datumSheet", "Datum sheet", "distances of lettering and seams from the edges of the body, both sides (CSV)"],
  ["rollMap", "Roll map", "every load of this layout, true to scale (SVG)"],
];

function ExportDialog() {
  const { exportLayout, showDialog } = useCommands();
  const { layout, unit } = useOnSheet();
  const [kinds, setKinds] = useState<readonly ExportKind[]>(ExportKind.options);
  if (layout === null) return null;
  return (
    <Dialog
      title="Export"
      onClose={() => showDialog(null)}
      closeWord="Cancel"
      actions={
        <Button weight="main" disabled={kinds.length === 0} onClick={() => void exportLayout(layout.id, [...kinds])}>
          Export
        </Button>
      }
    >
      <p>
        Layout shown: <strong>{layoutTitle(layout, unit)}</strong>. The plan is checked once more before anything is
        written.
      </p>
      <fieldset className="checks">
        <legend>What</legend>
        {exportKinds.map(([kind, word, what]) => (
          <label key={kind} className="check">
            <input
              type="checkbox"
              checked={kinds.includes(kind)}
              onChange={(event) =>
                setKinds(event.target.checked ? [...kinds, kind] : kinds.filter((one) => one !== kind))
              }
            />
            <span>
              <strong>{word}</strong>: {what}
            </span>
          </label>
        ))}
      </fieldset>
      <p className="aside">{governs}</p>
    </Dialog>
  );
}

function LeaveDialog({ then }: { readonly then: LeaveTo }) {
  const { leave, showDialog, save } = useCommands();
  const name = useSheet((state) => state.document?.name ?? "");
  return (
    <Dialog
      title="Unsaved work"
      onClose={() => showDialog(null)}
      closeWord="Stay here"
      actions={
        <>
          <Button onClick={() => void leave(then)}>Leave without saving</Button>
          <Button
            weight="main"
            onClick={() => {
              showDialog(null);
              void save();
            }}
          >
            Save first
          </Button>
        </>
      }
    >
      <p>
        {name} was edited and not saved. Leaving drops those edits; save first to keep them, then open the other job.
      </p>
    </Dialog>
  );
}

function KeySheet() {
  const { showDialog, changeView } = useCommands();
  const singleKeys = useSheet((state) => state.view.singleKeys);
  return (
    <Dialog title="Keys" onClose={() => showDialog(null)} wide>
      <label className="check">
        <input
          type="checkbox"
          checked={singleKeys}
          onChange={(event) => changeView({ singleKeys: event.target.checked })}
        />
        <span>Single keys without Ctrl (1 to 4, brackets, + and −, T, ?)</span>
      </label>
      <table className="table keys">
        <thead>
          <tr>
            <th scope="col">Key</th>
            <th scope="col">What it does</th>
          </tr>
        </thead>
        <tbody>
          {keyActions.map(({ keys, does }) => (
            <tr key={keys}>
              <td>
                <kbd>{keys}</kbd>
              </td>
              <td className="table-prose">{does}</td>
            </tr>
          ))}
          <tr>
            <td>
              <kbd>Arrows</kbd>
            </td>
            <td className="table-prose">
              In a drawing: the next panel, seam, zone or piece. In the comparison: another layout
            </td>
          </tr>
          <tr>
            <td>
              <kbd>Enter</kbd>
            </td>
            <td className="table-prose">Select what the arrows point at; in a field, take the value</td>
          </tr>
          <tr>
            <td>
              <kbd>Esc</kbd>
            </td>
            <td className="table-prose">Nothing selected; in a field, the old value; in a dialog, back</td>
          </tr>
        </tbody>
      </table>
    </Dialog>
  );
}
