import { useId } from "react";
import type { Unit } from "../state/words.ts";

interface LengthInputProps {
  readonly label: string;
  readonly text: string;
  readonly unit: Unit;
  readonly onChange: (text: string) => void;
  /** What is wrong with it. */
  readonly said?: string | null;
}

/** A length of a small form: kept as typed until the form's own button takes it, and no part of the job before. */
export function LengthInput({ label, text, unit, onChange, said = null }: LengthInputProps) {
  const id = useId();
  return (
    <div className={said === null ? "field" : "field field-wrong"}>
      <label htmlFor={id} className="field-label">
        {label}
      </label>
      <span className="field-line">
        <input
          id={id}
          className="input input-number"
          value={text}
          autoComplete="off"
          spellCheck={false}
          aria-invalid={said !== null}
          aria-describedby={said === null ? undefined : `${id}-said`}
          onChange={(event) => onChange(event.target.value)}
        />
        <span className="field-unit">{unit}</span>
      </span>
      {said === null ? null : (
        <p className="field-said" id={`${id}-said`} role="alert">
          {said}
        </p>
      )}
    </div>
  );
}
