import { type ReactNode, useEffect, useId, useRef, useState } from "react";
import { useSheet } from "../state/context.ts";
import type { Read } from "../state/lengths.ts";
import { isWithin } from "../state/path.ts";

interface TypedFieldProps<T> {
  /** Where it stands in the job; problems with this path show here, and lead here. */
  readonly path: string;
  readonly label: string;
  /** The label is read out but not drawn, where a table's head already says it. */
  readonly hiddenLabel?: boolean;
  readonly shown: string;
  readonly read: (text: string) => Read<T>;
  readonly commit: (value: T) => void;
  readonly unit?: ReactNode;
  readonly hint?: string;
  readonly numeric?: boolean;
  readonly suggestions?: readonly string[];
}

/** What the engine has to say about the value at a path. */
export function useFaults(path: string): readonly string[] {
  const problems = useSheet((state) => state.reading.problems);
  return problems.filter((problem) => isWithin(problem.path, path)).map(({ why, mend }) => `${why} ${mend}`);
}

/**
 * A value that is typed. What stands in the job changes on Enter or when the field is left, not with every key, so that
 * one edit is one step to undo; Escape puts the old text back. Text that can't be read stays, with the reason under it.
 */
export function TypedField<T>(props: TypedFieldProps<T>) {
  const { path, label, hiddenLabel = false, shown, read, commit, unit, hint, numeric = false, suggestions } = props;
  const [text, setText] = useState(shown);
  const [fault, setFault] = useState<string | null>(null);
  const typing = useRef(false);
  const id = useId();
  const faults = useFaults(path);
  useEffect(() => {
    typing.current = false;
    setText(shown);
    setFault(null);
  }, [shown]);

  const finish = (): void => {
    if (!typing.current) return;
    if (text.trim() === shown.trim()) {
      typing.current = false;
      setText(shown);
      setFault(null);
      return;
    }
    const result = read(text);
    if ("why" in result) {
      setFault(result.why);
      return;
    }
    typing.current = false;
    setFault(null);
    setText(shown); // the job's own form of the value follows from the store when it changed
    commit(result.value);
  };

  const said = fault ?? faults[0] ?? null;
  return (
    <div className={["field", hiddenLabel ? "field-bare" : "", said === null ? "" : "field-wrong"].join(" ").trim()}>
      <label htmlFor={id} className={hiddenLabel ? "only-heard" : "field-label"}>
        {label}
      </label>
      <span className="field-line">
        <input
          id={id}
          data-path={path}
          className={numeric ? "input input-number" : "input"}
          value={text}
          autoComplete="off"
          spellCheck={false}
          list={suggestions === undefined ? undefined : `${id}-list`}
          aria-invalid={said !== null}
          aria-describedby={said !== null ? `${id}-said` : hint === undefined ? undefined : `${id}-hint`}
          onChange={(event) => {
            typing.current = true;
            setText(event.target.value);
          }}
          onBlur={finish}
          onKeyDown={(event) => {
            if (event.key === "Enter") finish();
            if (event.key === "Escape" && typing.current) {
              event.stopPropagation();
              typing.current = false;
              setText(shown);
              setFault(null);
            }
          }}
        />
        {unit === undefined ? null : <span className="field-unit">{unit}</span>}
      </span>
      {suggestions === undefined ? null : (
        <datalist id={`${id}-list`}>
          {suggestions.map((one) => (
            <option key={one} value={one} />
          ))}
        </datalist>
      )}
      {said !== null ? (
        <p className="field-said" id={`${id}-said`}>
          {said}
        </p>
      ) : hint === undefined ? null : (
        <p className="field-hint" id={`${id}-hint`}>
          {hint}
        </p>
      )}
    </div>
  );
}
