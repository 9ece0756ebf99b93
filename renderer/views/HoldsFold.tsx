import { useState } from "react";
import { Button } from "../controls/Button.tsx";
import { Fold } from "../controls/Fold.tsx";
import { LengthField } from "../controls/jobFields.tsx";
import { useCommands, useSheet } from "../state/context.ts";
import { listIn, sectionIds, titleOf } from "../state/entries.ts";
import {
  addHold,
  groupOf,
  groupWords,
  type HoldMade,
  type HoldSeen,
  holdsOn,
  holdWords,
  removeHold,
} from "../state/holds.ts";
import { counted, type Unit } from "../state/words.ts";

/** What is settled beforehand for an elevation: every hold that binds it, to be changed and released, and new ones. */
export function HoldsFold({ elevation }: { readonly elevation: string }) {
  const job = useSheet((state) => state.document?.job ?? null);
  if (job === null) return null;
  const holds = holdsOn(job, elevation);
  const group = groupOf(job, elevation);
  const unit: Unit = job.units === "mm" ? "mm" : "in";
  // What is wrong with several holds together stands at their list.
  const place = listIn(job.elevations).findIndex(({ id }) => id === elevation);
  return (
    <Fold title="Holds" aside={holds.length === 0 ? "none" : counted(holds.length, "hold")} open>
      <div data-path={`elevations[${place}].holds`} tabIndex={-1}>
        {group === null || group.members.length < 2 ? null : (
          <p className="aside">{groupWords(job, group)} share their panels: a hold binds them all.</p>
        )}
        {holds.length === 0 ? (
          <p className="aside">
            Nothing is held: seams, widths and directions are the search's choice. Select a seam or a panel to hold it.
          </p>
        ) : (
          <ul className="rows">
            {holds.map((seen) => (
              <HoldRow key={seen.path} seen={seen} elevation={elevation} unit={unit} />
            ))}
          </ul>
        )}
      </div>
      <DirectionHold elevation={elevation} />
    </Fold>
  );
}

interface HoldRowProps {
  readonly seen: HoldSeen;
  readonly elevation: string;
  readonly unit: Unit;
}

function HoldRow({ seen, elevation, unit }: HoldRowProps) {
  const job = useSheet((state) => state.document?.job ?? null);
  const { edit, select } = useCommands();
  const owner = listIn(job?.elevations)[seen.owner];
  const words = seen.hold === null ? "A hold that can't be read" : holdWords(seen.hold, unit);
  const release = (): void => edit(`Release: ${words}`, (draft) => removeHold(draft, seen));
  const isHere = owner?.id === elevation;
  return (
    <li className="hold" data-path={seen.path} tabIndex={-1}>
      <p className="hold-words figures">{words}</p>
      {seen.hold === null || !isHere ? null : <HoldFields path={seen.path} hold={seen.hold} />}
      <div className="row-words">
        <Button weight="bare" aria-label={`Release: ${words}`} onClick={release}>
          Release
        </Button>
        {isHere || owner === undefined ? null : (
          <Button weight="bare" onClick={() => select(`elevation:${String(owner.id)}`)}>
            Change it on {titleOf(owner, seen.owner)}
          </Button>
        )}
      </div>
    </li>
  );
}

/** The lengths of a hold, editable in the view in which they stand in the job. */
function HoldFields({ path, hold }: { readonly path: string; readonly hold: HoldMade }) {
  switch (hold.kind) {
    case "seam":
      return (
        <div className="fields">
          <LengthField signed path={`${path}.at`} label="Seam at" step="Place of a held seam" />
        </div>
      );
    case "noSeam":
      return (
        <div className="fields">
          <LengthField signed path={`${path}.from`} label="No seam from" step="Start of a stretch without seams" />
          <LengthField signed path={`${path}.to`} label="No seam up to" step="End of a stretch without seams" />
        </div>
      );
    case "width":
      return (
        <div className="fields">
          <LengthField path={`${path}.width`} label="Across" step="Held width of a panel" />
        </div>
      );
    case "direction":
      return null;
  }
}

/** Settles which way panels run, in one section or in all. */
function DirectionHold({ elevation }: { readonly elevation: string }) {
  const job = useSheet((state) => state.document?.job ?? null);
  const { edit } = useCommands();
  const [section, setSection] = useState("");
  const sections = sectionIds(listIn(job?.elevations), elevation);
  const hold = (direction: "vertical" | "horizontal"): void =>
    edit(`Hold panels ${direction}`, (draft) =>
      addHold(draft, elevation, { kind: "direction", direction, section: section === "" ? null : section }),
    );
  return (
    <fieldset className="hold-direction">
      <legend>Hold a direction</legend>
      {sections.length < 2 ? null : (
        <label className="field">
          <span className="field-label">In</span>
          <select className="input" value={section} onChange={(event) => setSection(event.target.value)}>
            <option value="">all sections</option>
            {sections.map((id) => (
              <option key={id} value={id}>
                {id}
              </option>
            ))}
          </select>
        </label>
      )}
      <div className="row-buttons">
        <Button onClick={() => hold("vertical")}>Hold vertical</Button>
        <Button onClick={() => hold("horizontal")}>Hold horizontal</Button>
      </div>
    </fieldset>
  );
}
