import { useId } from "react";
import type { Unit } from "../../core/index.ts";
import { useCommands, useSheet } from "../state/context.ts";
import { editLength, type Read, readCount, readLength, readMoney, showNumber } from "../state/lengths.ts";
import { putAt, valueAt } from "../state/path.ts";
import { TypedField, useFaults } from "./Field.tsx";

/** Fields bound to one place of the job: what they show is what stands there, what they change is one named step. */

interface JobFieldProps {
  readonly path: string;
  readonly label: string;
  readonly hiddenLabel?: boolean;
  /** Name of the edit in undo and redo; the label when left out. */
  readonly step?: string;
  readonly hint?: string;
}

export function useJobUnit(): Unit {
  return useSheet((state) => (state.document?.job.units === "mm" ? "mm" : "in"));
}

/** What stands at a place of the job now. */
export function useAt(path: string): unknown {
  return useSheet((state) => (state.document === null ? undefined : valueAt(state.document.job, path)));
}

/** Puts a value there as one named step to undo; `undefined` takes it out. */
export function usePut(path: string, step: string): (value: unknown) => void {
  const { edit } = useCommands();
  return (value) => edit(step, (draft) => putAt(draft, path, value));
}

/** What stands in the job where no number does, as it would be typed. */
const asTyped = (value: unknown): string =>
  value === undefined || value === null ? "" : typeof value === "string" ? value : JSON.stringify(value);

interface NumberFieldProps extends JobFieldProps {
  /** An empty field means none: null in the job. The word says what none means ("no limit"). */
  readonly none?: string;
  /** What the job takes when nothing stands there. */
  readonly otherwise?: number;
  /** A place on the elevation, which may lie left of or below its origin. */
  readonly signed?: boolean;
}

function withNone<T>(none: string | undefined, read: (text: string) => Read<T>): (text: string) => Read<T | null> {
  return (text) => {
    const bare = text.trim().toLowerCase();
    if (none !== undefined && (bare === "" || bare === none.toLowerCase() || bare === "none")) return { value: null };
    return read(text);
  };
}

export function LengthField(props: NumberFieldProps) {
  const { path, label, step = label, none, otherwise, signed = false, ...rest } = props;
  const unit = useJobUnit();
  const value = useAt(path) ?? otherwise;
  const put = usePut(path, step);
  const shown = typeof value === "number" ? editLength(value, unit) : value == null ? (none ?? "") : asTyped(value);
  return (
    <TypedField
      path={path}
      label={label}
      shown={shown}
      read={withNone(none, (text) => readLength(text, unit, signed))}
      commit={put}
      unit={typeof value === "number" ? unit : undefined}
      numeric
      {...rest}
    />
  );
}

export function CountField({ path, label, step = label, none, otherwise, ...rest }: NumberFieldProps) {
  const value = useAt(path) ?? otherwise;
  const put = usePut(path, step);
  const shown = typeof value === "number" ? String(value) : value == null ? (none ?? "") : asTyped(value);
  return (
    <TypedField
      path={path}
      label={label}
      shown={shown}
      read={withNone(none, readCount)}
      commit={put}
      numeric
      {...rest}
    />
  );
}

interface MoneyFieldProps extends NumberFieldProps {
  /** Per what the price is shown; the job keeps it per unit of length or area. */
  readonly per: "area" | "length" | "each";
}

/** Prices are quoted per square foot or metre, and per foot or metre of seam; the file keeps them per in2, mm2, in, mm. */
const perShown: Record<Unit, Record<MoneyFieldProps["per"], { factor: number; word: string }>> = {
  in: { area: { factor: 144, word: "/ ft²" }, length: { factor: 12, word: "/ ft" }, each: { factor: 1, word: "each" } },
  mm: {
    area: { factor: 1_000_000, word: "/ m²" },
    length: { factor: 1000, word: "/ m" },
    each: { factor: 1, word: "each" },
  },
};

export function MoneyField({ path, label, step = label, per, otherwise = 0, ...rest }: MoneyFieldProps) {
  const unit = useJobUnit();
  const currency = useSheet((state) => state.document && valueAt(state.document.job, "rules.currency"));
  const value = useAt(path) ?? otherwise;
  const put = usePut(path, step);
  const { factor, word } = perShown[unit][per];
  return (
    <TypedField
      path={path}
      label={label}
      shown={typeof value === "number" ? showNumber(value * factor, 4) : asTyped(value)}
      read={readMoney}
      commit={(typed) => put(Number((typed / factor).toPrecision(15)))}
      unit={`${typeof currency === "string" && currency !== "" ? currency : "USD"} ${word}`}
      numeric
      {...rest}
    />
  );
}

export function TextField({ path, label, step = label, ...rest }: JobFieldProps) {
  const value = useAt(path);
  const put = usePut(path, step);
  return (
    <TypedField
      path={path}
      label={label}
      shown={asTyped(value)}
      read={(text) => ({ value: text.trim() })}
      commit={put}
      {...rest}
    />
  );
}

/** A list of lengths in one field, parted by semicolons or commas: the roll widths a film comes in. */
export function LengthListField({ path, label, step = label, ...rest }: JobFieldProps) {
  const unit = useJobUnit();
  const value = useAt(path);
  const put = usePut(path, step);
  const shown = Array.isArray(value)
    ? value.map((one) => (typeof one === "number" ? editLength(one, unit) : asTyped(one))).join("; ")
    : asTyped(value);
  const read = (text: string): Read<number[]> => {
    const lengths: number[] = [];
    for (const part of text.split(/[;,]/)) {
      if (part.trim() === "") continue;
      const length = readLength(part, unit);
      if ("why" in length) return length;
      lengths.push(length.value);
    }
    return lengths.length === 0 ? { why: "A film comes in at least one roll width." } : { value: lengths };
  };
  return <TypedField path={path} label={label} shown={shown} read={read} commit={put} unit={unit} numeric {...rest} />;
}

interface ChoiceFieldProps extends JobFieldProps {
  /** Value in the job and the word for it; null stands for nothing chosen. */
  readonly choices: readonly (readonly [value: string | null, word: string])[];
  readonly otherwise?: string | null;
}

export function ChoiceField({ path, label, hiddenLabel, step = label, choices, otherwise, hint }: ChoiceFieldProps) {
  const id = useId();
  const stands = useAt(path);
  const value = stands === undefined ? otherwise : stands;
  const put = usePut(path, step);
  const said = useFaults(path)[0];
  const known = choices.some(([one]) => one === value);
  return (
    <div className={said === undefined ? "field" : "field field-wrong"}>
      <label htmlFor={id} className={hiddenLabel === true ? "only-heard" : "field-label"}>
        {label}
      </label>
      <select
        id={id}
        data-path={path}
        className="input"
        value={known ? ((value ?? "") as string) : "unknown"}
        aria-invalid={said !== undefined}
        aria-describedby={said === undefined ? undefined : `${id}-said`}
        onChange={(event) => {
          const chosen = choices.find(([one]) => (one ?? "") === event.target.value);
          if (chosen !== undefined) put(chosen[0]);
        }}
      >
        {known ? null : <option value="unknown">{asTyped(value) || "not chosen"}</option>}
        {choices.map(([one, word]) => (
          <option key={one ?? ""} value={one ?? ""}>
            {word}
          </option>
        ))}
      </select>
      {said === undefined ? (
        hint === undefined ? null : (
          <p className="field-hint">{hint}</p>
        )
      ) : (
        <p className="field-said" id={`${id}-said`}>
          {said}
        </p>
      )}
    </div>
  );
}
