import { type FormEvent, useId, useState } from "react";
import { Button } from "../controls/Button.tsx";
import { LengthField } from "../controls/jobFields.tsx";
import { useCommands, useSheet } from "../state/context.ts";
import { listIn } from "../state/entries.ts";

/** Marks that part the steps of a path in the job, so that a kind with one of them can't be edited by its place. */
const noPath = /[.[\]]/;

/** What seams keep from obstacles by their kind: one row for each kind met in the job or ruled already. */
export function Clearances() {
  const job = useSheet((state) => state.document?.job ?? null);
  const { edit } = useCommands();
  const [kind, setKind] = useState("");
  const [fault, setFault] = useState<string | null>(null);
  const id = useId();
  const ruled = ruledIn(job?.rules);
  const met = listIn(job?.elevations).flatMap(({ obstacles }) =>
    listIn(obstacles).map((obstacle) => String(obstacle.kind ?? "other")),
  );
  const unruled = [...new Set(met)].filter((one) => !(one in ruled)).sort();
  const add = (event: FormEvent): void => {
    event.preventDefault();
    const named = kind.trim();
    const why =
      named === ""
        ? "Name a kind of obstacle."
        : named in ruled
          ? `‘${named}’ has a clearance already.`
          : noPath.test(named)
            ? "A kind has no dot and no bracket in its name here."
            : null;
    setFault(why);
    if (why !== null) return;
    edit(`Clearance round a ${named}`, (draft) => {
      const rules = draft.rules as Record<string, unknown>;
      rules.clearances = { ...ruledIn(rules), [named]: draft.units === "mm" ? 25 : 1 };
    });
    setKind("");
  };
  const remove = (one: string): void =>
    edit(`No clearance round a ${one}`, (draft) => {
      const rules = draft.rules as Record<string, unknown>;
      const { [one]: _, ...left } = ruledIn(rules);
      if (Object.keys(left).length === 0) delete rules.clearances;
      else rules.clearances = left;
    });
  return (
    <div className="clearances" data-path="rules.clearances" tabIndex={-1}>
      {Object.keys(ruled).length === 0 ? <p className="aside">None, unless an obstacle gives its own.</p> : null}
      {Object.keys(ruled).map((one) => (
        <div className="row-fields clearance" key={one}>
          {noPath.test(one) ? (
            <span className="figures">
              Round a {one}: {String(ruled[one])}
            </span>
          ) : (
            <LengthField path={`rules.clearances.${one}`} label={`Round a ${one}`} step={`Clearance round a ${one}`} />
          )}
          <Button weight="bare" aria-label={`Remove the clearance round a ${one}`} onClick={() => remove(one)}>
            Remove
          </Button>
        </div>
      ))}
      <form className="row-add" onSubmit={add}>
        <label htmlFor={id} className="only-heard">
          Kind of obstacle to keep clear of
        </label>
        <input
          id={id}
          className="input"
          list={`${id}-kinds`}
          value={kind}
          placeholder={unruled[0] ?? "handle"}
          autoComplete="off"
          aria-invalid={fault !== null}
          aria-describedby={fault === null ? undefined : `${id}-said`}
          onChange={(event) => setKind(event.target.value)}
        />
        <datalist id={`${id}-kinds`}>
          {unruled.map((one) => (
            <option key={one} value={one} />
          ))}
        </datalist>
        <Button type="submit">Add a kind</Button>
      </form>
      {fault === null ? null : (
        <p className="field-said" id={`${id}-said`} role="alert">
          {fault}
        </p>
      )}
    </div>
  );
}

/** The clearances ruled so far, by kind. */
function ruledIn(rules: unknown): Record<string, unknown> {
  const { clearances } = (typeof rules === "object" && rules !== null ? rules : {}) as Record<string, unknown>;
  return typeof clearances === "object" && clearances !== null ? (clearances as Record<string, unknown>) : {};
}
