import { type FormEvent, useId, useState } from "react";
import { Button } from "../controls/Button.tsx";
import { useJobUnit } from "../controls/jobFields.tsx";
import { useCommands, useSheet } from "../state/context.ts";
import { readLength } from "../state/lengths.ts";
import { freeId, rectangle } from "../state/newJob.ts";

/** A job with nothing to cover yet: what to do first. */
export function EmptyJob() {
  return (
    <div className="empty">
      <p>
        <strong>Nothing to cover yet.</strong> Give the first elevation a name and a size, open a job file, or drop one
        on the window.
      </p>
      <AddElevation />
    </div>
  );
}

/** Adds a rectangular elevation: the everyday wall, pane or trailer side. */
export function AddElevation() {
  const unit = useJobUnit();
  const job = useSheet((state) => state.document?.job ?? null);
  const { edit, select } = useCommands();
  const [fault, setFault] = useState<string | null>(null);
  const id = useId();

  const add = (event: FormEvent<HTMLFormElement>): void => {
    event.preventDefault();
    const form = new FormData(event.currentTarget);
    const title = String(form.get("name") ?? "").trim();
    const across = readLength(String(form.get("across") ?? ""), unit);
    const up = readLength(String(form.get("up") ?? ""), unit);
    const wrong =
      title === ""
        ? "An elevation needs a name."
        : "why" in across
          ? `Width: ${across.why}`
          : "why" in up
            ? `Height: ${up.why}`
            : across.value <= 0 || up.value <= 0
              ? "Width and height are greater than nothing."
              : null;
    setFault(wrong);
    if (wrong !== null || "why" in across || "why" in up) return;
    const entries = (Array.isArray(job?.elevations) ? job.elevations : []) as { id?: unknown }[];
    const films = (Array.isArray(job?.films) ? job.films : []) as { id?: unknown }[];
    const added = freeId(
      title,
      entries.map((entry) => String(entry.id)),
    );
    edit(`Add elevation ${title}`, (draft) => {
      const list = Array.isArray(draft.elevations) ? draft.elevations : [];
      draft.elevations = list;
      list.push({
        id: added,
        name: title,
        count: 1,
        film: films[0]?.id ?? null,
        outline: rectangle(across.value, up.value),
        // Costs nothing as long as there are no breaks, and is what one wants once there are.
        findSections: true,
      });
    });
    event.currentTarget.reset();
    select(`elevation:${added}`);
  };

  return (
    <form className="add-elevation" onSubmit={add}>
      <div className="field">
        <label className="field-label" htmlFor={`${id}-name`}>
          Name
        </label>
        <input className="input" id={`${id}-name`} name="name" placeholder="Waiting-room wall" autoComplete="off" />
      </div>
      <div className="field">
        <label className="field-label" htmlFor={`${id}-across`}>
          Width
        </label>
        <input className="input input-number" id={`${id}-across`} name="across" autoComplete="off" />
      </div>
      <div className="field">
        <label className="field-label" htmlFor={`${id}-up`}>
          Height
        </label>
        <input
          className="input input-number"
          id={`${id}-up`}
          name="up"
          autoComplete="off"
          aria-describedby={`${id}-hint`}
        />
      </div>
      <Button type="submit">Add elevation</Button>
      <p
        className={fault === null ? "field-hint" : "field-said"}
        id={`${id}-hint`}
        role={fault === null ? undefined : "alert"}
      >
        {fault ??
          `Lengths as typed: 174, 14'6", 53 1/2 or 1346 mm. A bare number is in ${unit === "mm" ? "millimetres" : "inches"}.`}
      </p>
    </form>
  );
}
