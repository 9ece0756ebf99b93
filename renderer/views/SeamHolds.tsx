import { type FormEvent, useState } from "react";
import type { JobJson } from "../../shared/host.ts";
import type { PlanLayout } from "../../shared/planFile.ts";
import { Button } from "../controls/Button.tsx";
import { LengthInput } from "../controls/LengthInput.tsx";
import { useCommands, useSheet } from "../state/context.ts";
import {
  addHold,
  groupOf,
  groupWords,
  type HoldMade,
  heldSection,
  holdOfSeam,
  holdWords,
  removeHold,
} from "../state/holds.ts";
import { foundAtRoot, keepFound } from "../state/keepFound.ts";
import { editLength, readLength } from "../state/lengths.ts";
import { lengthWithUnit, type Unit } from "../state/words.ts";
import { useOnSheet } from "./hooks.ts";

type Seam = PlanLayout["seams"][number];

/** How far to either side a stretch without seams reaches to begin with; a starting value of our own, typed over at will. */
const reachAtFirst = { in: 3, mm: 75 } as const;

/** Settles a seam where it lies, or keeps seams away from there; what is settled stays when the job is planned again. */
export function SeamHolds({ seam }: { readonly seam: Seam }) {
  const job = useSheet((state) => state.document?.job ?? null);
  const { edit } = useCommands();
  const { layout } = useOnSheet();
  if (job === null) return null;
  const unit: Unit = job.units === "mm" ? "mm" : "in";
  if (seam.section?.startsWith("fill-") || seam.between.some((side) => seam.border && side.startsWith("fill-"))) {
    return (
      <p className="aside">A fill is worked out with its depth; its seams are not held. Change the fill instead.</p>
    );
  }
  const found = foundAtRoot(job, layout, seam.elevation);
  if (seam.border && found.length > 0) {
    return (
      <p>
        It lies between sections that were found.{" "}
        <Button onClick={() => edit("Keep the sections found", (draft) => keepFound(draft, layout, seam.elevation))}>
          Keep these sections
        </Button>
      </p>
    );
  }
  const held = holdOfSeam(job, seam);
  const group = groupOf(job, seam.elevation);
  const shared = group === null || group.members.length < 2 ? null : groupWords(job, group);
  // What is settled for a section that was found makes the sections found the job's own, in the same step.
  const section = found.length > 0 ? seam.section : heldSection(job, seam.elevation, seam.section);
  const hold = (draft: JobJson, made: HoldMade): void => {
    keepFound(draft, layout, seam.elevation);
    addHold(draft, seam.elevation, made);
  };
  const place = lengthWithUnit(seam.at, unit);
  return (
    <>
      <h4>Hold</h4>
      {held === null ? (
        <Button
          onClick={() =>
            edit(`Hold the seam at ${place}`, (draft) =>
              hold(draft, { kind: "seam", axis: seam.axis, at: seam.at, section }),
            )
          }
        >
          Hold this seam here
        </Button>
      ) : (
        <p className="held figures">
          <strong>Held at {place}.</strong>{" "}
          <Button
            weight="bare"
            onClick={() =>
              edit(`Release: ${held.hold === null ? "a hold" : holdWords(held.hold, unit)}`, (draft) =>
                removeHold(draft, held),
              )
            }
          >
            Release this seam
          </Button>
        </p>
      )}
      {shared === null ? null : <p className="aside">{shared} share their panels: a hold binds them all.</p>}
      {held === null ? <NoSeamHere seam={seam} section={section} unit={unit} hold={hold} /> : null}
    </>
  );
}

interface NoSeamHereProps {
  readonly seam: Seam;
  readonly section: string | null;
  readonly unit: Unit;
  readonly hold: (draft: JobJson, made: HoldMade) => void;
}

function NoSeamHere({ seam, section, unit, hold }: NoSeamHereProps) {
  const { edit } = useCommands();
  const [from, setFrom] = useState(editLength(seam.at - reachAtFirst[unit], unit));
  const [to, setTo] = useState(editLength(seam.at + reachAtFirst[unit], unit));
  const [fault, setFault] = useState<{ at: "from" | "to"; says: string } | null>(null);
  const take = (event: FormEvent): void => {
    event.preventDefault();
    const [low, high] = [readLength(from, unit, true), readLength(to, unit, true)];
    if ("why" in low) return setFault({ at: "from", says: low.why });
    if ("why" in high) return setFault({ at: "to", says: high.why });
    if (low.value > high.value) return setFault({ at: "to", says: "It ends before it begins." });
    setFault(null);
    const stretch = { kind: "noSeam", axis: seam.axis, from: low.value, to: high.value, section } as const;
    edit(`No seam from ${lengthWithUnit(low.value, unit)} to ${lengthWithUnit(high.value, unit)}`, (draft) =>
      hold(draft, stretch),
    );
  };
  return (
    <form className="fields hold-form" aria-label="Keep seams away from here" onSubmit={take}>
      <LengthInput
        label={seam.axis === "x" ? "No upright seam from" : "No level seam from"}
        text={from}
        unit={unit}
        onChange={setFrom}
        said={fault?.at === "from" ? fault.says : null}
      />
      <LengthInput label="to" text={to} unit={unit} onChange={setTo} said={fault?.at === "to" ? fault.says : null} />
      <Button type="submit">No seam near here</Button>
    </form>
  );
}
