import { readFactor, showNumber } from "../state/lengths.ts";
import { TypedField } from "./Field.tsx";
import { useAt, usePut } from "./jobFields.tsx";

interface FactorFieldProps {
  readonly path: string;
  readonly label: string;
  readonly hiddenLabel?: boolean;
  readonly step?: string;
  readonly hint?: string;
  /** What the job takes when nothing stands there. */
  readonly otherwise?: number;
}

/** How many times something counts: a plain number, not below nothing. */
export function FactorField({ path, label, step = label, otherwise, ...rest }: FactorFieldProps) {
  const value = useAt(path) ?? otherwise;
  const put = usePut(path, step);
  return (
    <TypedField
      path={path}
      label={label}
      shown={typeof value === "number" ? showNumber(value, 4) : String(value ?? "")}
      read={readFactor}
      commit={put}
      unit="×"
      numeric
      {...rest}
    />
  );
}
