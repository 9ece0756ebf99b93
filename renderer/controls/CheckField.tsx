import { useId } from "react";
import { useAt, usePut } from "./jobFields.tsx";

interface CheckFieldProps {
  readonly path: string;
  readonly label: string;
  readonly step?: string;
  readonly hint?: string;
}

/** Yes or no at a place of the job; no is taken out of the job again, as it is what the job means without it. */
export function CheckField({ path, label, step = label, hint }: CheckFieldProps) {
  const id = useId();
  const value = useAt(path);
  const put = usePut(path, step);
  return (
    <div className="field-check">
      <label className="check">
        <input
          type="checkbox"
          data-path={path}
          checked={value === true}
          aria-describedby={hint === undefined ? undefined : `${id}-hint`}
          onChange={(event) => put(event.target.checked ? true : undefined)}
        />
        <span>{label}</span>
      </label>
      {hint === undefined ? null : (
        <p className="field-hint" id={`${id}-hint`}>
          {hint}
        </p>
      )}
    </div>
  );
}
