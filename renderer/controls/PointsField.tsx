import { editLength, type Read, readLength } from "../state/lengths.ts";
import type { Unit } from "../state/words.ts";
import { TypedField } from "./Field.tsx";
import { useAt, useJobUnit, usePut } from "./jobFields.tsx";

interface PointsFieldProps {
  readonly path: string;
  readonly label: string;
  readonly step?: string;
  readonly hint?: string;
  /** What an empty field means. */
  readonly none: string;
}

type Points = [number, number][];

/** "0, 22; 40, 23 1/2" as points; empty, or the word for none, is none. */
export function readPoints(text: string, unit: Unit, none: string): Read<Points | null> {
  const bare = text.trim();
  if (bare === "" || bare.toLowerCase() === none.toLowerCase()) return { value: null };
  const points: Points = [];
  for (const part of bare.split(";")) {
    if (part.trim() === "") continue;
    const [x, y, ...more] = part.split(",").map((one) => readLength(one, unit, true));
    if (x === undefined || y === undefined || more.length > 0) {
      return { why: `‘${part.trim()}’ is not a point: give x and y with a comma between, points parted by ;` };
    }
    if ("why" in x) return x;
    if ("why" in y) return y;
    points.push([x.value, y.value]);
  }
  return points.length < 2 ? { why: "A line has two points at least." } : { value: points };
}

/** The same as it stands in the field. */
export function showPoints(value: unknown, unit: Unit, none: string): string {
  if (value === undefined || value === null) return none;
  const isPoint = (one: unknown): one is Points[number] =>
    Array.isArray(one) && one.length === 2 && one.every((side) => typeof side === "number");
  if (!Array.isArray(value) || !value.every(isPoint)) return JSON.stringify(value);
  return value.map(([x, y]) => `${editLength(x, unit)}, ${editLength(y, unit)}`).join("; ");
}

/** A line through points of the elevation, typed as a list. */
export function PointsField({ path, label, step = label, none, ...rest }: PointsFieldProps) {
  const unit = useJobUnit();
  const value = useAt(path);
  const put = usePut(path, step);
  return (
    <TypedField
      path={path}
      label={label}
      shown={showPoints(value, unit, none)}
      read={(text) => readPoints(text, unit, none)}
      commit={put}
      unit={Array.isArray(value) ? unit : undefined}
      {...rest}
    />
  );
}
