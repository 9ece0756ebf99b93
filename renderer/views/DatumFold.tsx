import { Fragment, useMemo, useState } from "react";
import {
  type DatumRow,
  datumSheet,
  type Elevation,
  type Instance,
  planFromFile,
  type Side,
  type Ticks,
  ticksTo,
} from "../../core/index.ts";
import type { PlanFile, PlanLayout } from "../../shared/planFile.ts";
import { governs } from "../state/cautions.ts";
import { showLength } from "../state/lengths.ts";
import { lengthWithUnit, type Unit } from "../state/words.ts";
import { useOnSheet } from "./hooks.ts";

const sides: readonly Side[] = ["left", "right", "bottom", "top"];
const breakWords = { gap: "gap", moulding: "moulding", bodyLine: "body line" } as const;

/** Where lettering and seams lie on the body, as a fitter measures them, two sides of one body beside each other. */
export function DatumFold() {
  const { plan, layout, instance, unit } = useOnSheet();
  const [isOpen, setOpen] = useState(false);
  if (plan === null || layout === null || instance === null) return null;
  return (
    <details className="fold datum" open={isOpen} onToggle={(event) => setOpen(event.currentTarget.open)}>
      <summary className="fold-title">
        <h3>Datum sheet</h3>
        <span className="aside">
          lettering and seams from the edges of the body, to {unit === "mm" ? "1 mm" : "1/16 in"}
        </span>
      </summary>
      {isOpen ? <DatumTables plan={plan} layout={layout} instance={instance} unit={unit} /> : null}
    </details>
  );
}

interface DatumTablesProps {
  readonly plan: PlanFile;
  readonly layout: PlanLayout;
  readonly instance: Instance;
  readonly unit: Unit;
}

function DatumTables({ plan, layout, instance, unit }: DatumTablesProps) {
  const rows = useMemo(() => {
    const [read] = planFromFile({ ...plan, layouts: [layout] }).layouts;
    return read === undefined ? [] : datumSheet(instance, read);
  }, [plan, layout, instance]);
  const tables = tablesOf(instance.elevations, rows);
  return (
    <div className="fold-body">
      <p className="aside">
        Rounded to the nearest mark of the tape. Measure the body first: it need not be as drawn. Export writes the same
        as CSV. {governs}
      </p>
      {tables.length === 0 ? <p className="aside">There is no lettering, no logo and no seam to measure.</p> : null}
      {tables.map(({ elevation, other, shown }) => (
        <DatumTable
          key={elevation.id}
          name={elevation.name || elevation.id}
          other={other === null ? null : other.name || other.id}
          rows={shown}
          unit={unit}
        />
      ))}
    </div>
  );
}

interface SheetTable {
  readonly elevation: Elevation;
  /** The elevation whose measures stand beside; null without one. */
  readonly other: Elevation | null;
  readonly shown: readonly DatumRow[];
}

/** One table for each elevation; of two sides the second shows only what the first has no match for. */
function tablesOf(elevations: readonly Elevation[], rows: readonly DatumRow[]): SheetTable[] {
  const told = new Set<string>();
  const tables: SheetTable[] = [];
  for (const elevation of elevations) {
    const shown = rows.filter(
      (row) => row.elevation === elevation.id && !told.has(`${elevation.id} ${row.kind} ${row.id}`),
    );
    for (const { kind, otherSide } of shown) {
      if (otherSide !== null) told.add(`${otherSide.elevation} ${kind} ${otherSide.id}`);
    }
    const beside = shown.find(({ otherSide }) => otherSide !== null)?.otherSide?.elevation;
    const other = elevations.find(({ id }) => id === beside) ?? null;
    if (shown.length > 0) tables.push({ elevation, other, shown });
  }
  return tables;
}

interface DatumTableProps {
  readonly name: string;
  readonly other: string | null;
  readonly rows: readonly DatumRow[];
  readonly unit: Unit;
}

function DatumTable({ name, other, rows, unit }: DatumTableProps) {
  const length = (ticks: Ticks | null | undefined): string =>
    ticks === null || ticks === undefined ? "–" : showLength(ticksTo(ticks, unit), unit);
  return (
    <div className="table-scroll">
      <table className="table datum-table">
        <caption>
          {name}
          {other === null ? null : (
            <span className="aside">
              {" "}
              beside {other}, whose left and right are changed over so that figures compare
            </span>
          )}
        </caption>
        <thead>
          <tr>
            <th scope="col" rowSpan={other === null ? 1 : 2}>
              Measured
            </th>
            {sides.map((side) => (
              <th
                key={side}
                scope={other === null ? "col" : "colgroup"}
                colSpan={other === null ? 1 : 2}
                className="number"
              >
                from {side}, {unit}
              </th>
            ))}
            {other === null ? null : (
              <th scope="col" rowSpan={2} className="number">
                Differ by
              </th>
            )}
            <th scope="col" rowSpan={other === null ? 1 : 2}>
              Nearest break
            </th>
          </tr>
          {other === null ? null : (
            <tr>
              {sides.map((side) => (
                <Fragment key={side}>
                  <th scope="col" className="number">
                    here
                  </th>
                  <th scope="col" className="number">
                    there
                  </th>
                </Fragment>
              ))}
            </tr>
          )}
        </thead>
        <tbody>
          {rows.map(({ kind, id, label, fromEdges, nearestBreak, otherSide }) => (
            <tr key={`${kind} ${id}`}>
              <th scope="row">
                {label || id} <span className="aside">{kind === "seam" ? "" : kind}</span>
              </th>
              {sides.map((side) => (
                <Fragment key={side}>
                  <td className="number figures">{length(fromEdges[side])}</td>
                  {other === null ? null : <td className="number figures">{length(otherSide?.fromEdges[side])}</td>}
                </Fragment>
              ))}
              {other === null ? null : (
                <td className="number figures">
                  {otherSide === null ? (
                    "only here"
                  ) : otherSide.difference === 0 ? (
                    "0"
                  ) : (
                    <strong>{lengthWithUnit(ticksTo(otherSide.difference, unit), unit)}</strong>
                  )}
                </td>
              )}
              <td className="figures datum-break">{nearestBreak === null ? "–" : breakText(nearestBreak, unit)}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}

function breakText({ id, type, side, distance }: NonNullable<DatumRow["nearestBreak"]>, unit: Unit): string {
  const words = `${breakWords[type]} ${id}`;
  if (distance === 0) return `on ${words}`;
  return side === "through"
    ? `${words} runs through it`
    : `${words}, ${lengthWithUnit(ticksTo(distance, unit), unit)} ${sideWords[side]}`;
}

const sideWords = { left: "to the left", right: "to the right", bottom: "below", top: "above" } as const;
