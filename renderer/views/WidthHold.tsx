import { type FormEvent, useState } from "react";
import type { PlanLayout } from "../../shared/planFile.ts";
import { Button } from "../controls/Button.tsx";
import { LengthInput } from "../controls/LengthInput.tsx";
import { useCommands, useSheet } from "../state/context.ts";
import { addHold, heldSection, holdOfPanel, holdWords, removeHold } from "../state/holds.ts";
import { keepFound } from "../state/keepFound.ts";
import { editLength, readLength } from "../state/lengths.ts";
import { lengthWithUnit, type Unit } from "../state/words.ts";
import { useOnSheet } from "./hooks.ts";

type Panel = PlanLayout["panels"][number];

/** Settles how much a panel measures across the roll. */
export function WidthHold({ panel }: { readonly panel: Panel }) {
  const job = useSheet((state) => state.document?.job ?? null);
  const { edit } = useCommands();
  const { layout } = useOnSheet();
  const unit: Unit = job?.units === "mm" ? "mm" : "in";
  const [width, setWidth] = useState(editLength(panel.across, unit));
  const [fault, setFault] = useState<string | null>(null);
  if (job === null) return null;
  const held = holdOfPanel(job, panel);
  if (held?.hold?.kind === "width") {
    const { hold } = held;
    return (
      <p className="held figures">
        <strong>Held at {lengthWithUnit(hold.width, unit)} across.</strong>{" "}
        <Button
          weight="bare"
          onClick={() => edit(`Release: ${holdWords(hold, unit)}`, (draft) => removeHold(draft, held))}
        >
          Release this width
        </Button>
      </p>
    );
  }
  const take = (event: FormEvent): void => {
    event.preventDefault();
    const read = readLength(width, unit);
    if ("why" in read) return setFault(read.why);
    if (read.value <= 0) return setFault("A panel is wider than nothing.");
    setFault(null);
    const axis = panel.direction === "vertical" ? "x" : "y";
    edit(`Hold a panel at ${lengthWithUnit(read.value, unit)}`, (draft) => {
      // A section that was found becomes the job's own, or nothing could be settled for it.
      keepFound(draft, layout, panel.elevation);
      const section = heldSection(draft, panel.elevation, panel.section);
      addHold(draft, panel.elevation, { kind: "width", axis, at: middleOf(panel), width: read.value, section });
    });
  };
  return (
    <form className="fields hold-form" aria-label="Hold the width of this panel" onSubmit={take}>
      <LengthInput label="Width to hold" text={width} unit={unit} onChange={setWidth} said={fault} />
      <Button type="submit">Hold this width</Button>
    </form>
  );
}

/** A place that the panel keeps however its edges move a little: the middle of its window across the roll. */
function middleOf({ direction, window: [x0, y0, x1, y1] }: Panel): number {
  return direction === "vertical" ? (x0 + x1) / 2 : (y0 + y1) / 2;
}
