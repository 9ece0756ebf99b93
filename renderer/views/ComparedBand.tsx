import { type KeyboardEvent, useMemo, useRef, useState } from "react";
import type { PlanFile, PlanLayout } from "../../shared/planFile.ts";
import { Button } from "../controls/Button.tsx";
import { TradeOff } from "../drawing/index.ts";
import { useCommands, useSheet } from "../state/context.ts";
import { showLength } from "../state/lengths.ts";
import type { SortKey } from "../state/sheetState.ts";
import { boundWords, counted, layoutTitle, layoutWay, money, percent, seamCountOf, type Unit } from "../state/words.ts";
import { Band } from "./Band.tsx";
import { useIsEmpty, useOnSheet } from "./hooks.ts";
import { SearchFold } from "./SearchFold.tsx";
import { ShortfallFold } from "./ShortfallFold.tsx";

/** Second band: every layout as a row and as a mark in the drawn comparison; pointing at either shows that layout. */
export function ComparedBand() {
  const { plan, layout, unit, currency } = useOnSheet();
  const working = useSheet((state) => ["working", "stopping", "waiting"].includes(state.run.status));
  const isEmpty = useIsEmpty();
  const { showLayout } = useCommands();
  const [isOpen, setOpen] = useState(false);
  const layouts = useMemo(() => worthShowing(plan, layout, isOpen), [plan, layout, isOpen]);
  const beaten = plan === null ? 0 : plan.layouts.length - plan.frontier.length;
  const summary =
    plan === null || layout === null
      ? "No layout yet"
      : `${counted(plan.layouts.length, "layout")} · shown: ${layoutTitle(layout, unit)}, ${money(layout.totals.cost.total, currency)}`;
  return (
    <Band id="compared" title="How it could be done" summary={summary}>
      {plan === null || layout === null ? (
        <p className="empty">
          {working && !isEmpty ? "The first layout is being worked out." : "No layout to compare."}
        </p>
      ) : (
        <>
          <div className="compare">
            <div>
              <LayoutTable layouts={layouts} />
              {beaten === 0 ? null : (
                <p className="compare-more">
                  <Button weight="bare" aria-expanded={isOpen} onClick={() => setOpen(!isOpen)}>
                    {isOpen ? "Leave out what is beaten" : `Also show ${counted(beaten, "layout")} that others beat`}
                  </Button>
                  <span className="aside">
                    Beaten: another is no worse in cost, waste and seams, and better in one.
                  </span>
                </p>
              )}
            </div>
            {layouts.length < 2 ? (
              <p className="aside">No other layout found is better in cost, waste or seams.</p>
            ) : (
              <div className="compare-drawn">
                <TradeOff
                  layouts={layouts}
                  frontier={plan.frontier}
                  chosen={plan.chosen}
                  selectedLayout={layout.id}
                  onSelectLayout={showLayout}
                  currency={currency}
                  unit={unit}
                />
              </div>
            )}
          </div>
          <ShortfallFold />
          <SearchFold />
        </>
      )}
    </Band>
  );
}

/** The layouts that a planner chooses from: those that none beats, and the one shown; all of them when asked for. */
function worthShowing(plan: PlanFile | null, shown: PlanLayout | null, all: boolean): readonly PlanLayout[] {
  if (plan === null) return [];
  return all ? plan.layouts : plan.layouts.filter(({ id }) => plan.frontier.includes(id) || id === shown?.id);
}

interface Column {
  readonly key: SortKey;
  readonly head: string;
  readonly by: (layout: PlanLayout) => number | string;
}

const columns: readonly Column[] = [
  { key: "layout", head: "Layout", by: ({ id }) => id },
  { key: "cost", head: "Cost", by: ({ totals }) => totals.cost.total },
  { key: "waste", head: "Waste", by: ({ totals }) => totals.wastePercent },
  { key: "seams", head: "Seams seen", by: seamCountOf },
  { key: "open", head: "Open", by: ({ totals }) => totals.openSeams },
  { key: "panels", head: "Panels", by: ({ totals }) => totals.panelCount },
  { key: "film", head: "Film length", by: ({ totals }) => totals.filmLength },
  { key: "gap", head: "Could save", by: ({ bound }) => (bound.proven ? 0 : bound.gapPercent) },
];

function LayoutTable({ layouts }: { readonly layouts: readonly PlanLayout[] }) {
  const { plan, layout, unit, currency } = useOnSheet();
  const sort = useSheet((state) => state.view.sort);
  const { showLayout, changeView } = useCommands();
  const body = useRef<HTMLTableSectionElement>(null);
  const rows = useMemo(() => {
    const by = columns.find(({ key }) => key === sort.by)?.by ?? seamCountOf;
    const way = sort.descending ? -1 : 1;
    return [...layouts].sort((a, b) => {
      const [x, y] = [by(a), by(b)];
      const order = typeof x === "string" ? x.localeCompare(String(y), "en", { numeric: true }) : x - Number(y);
      return way * order || (a.id < b.id ? -1 : 1);
    });
  }, [layouts, sort]);
  if (plan === null || layout === null) return null;

  const move = (event: KeyboardEvent, place: number): void => {
    const steps: Record<string, number> = { ArrowDown: 1, ArrowUp: -1, Home: -place, End: rows.length - 1 - place };
    const step = steps[event.key];
    if (step === undefined) return;
    event.preventDefault();
    const next = rows[Math.max(0, Math.min(rows.length - 1, place + step))];
    if (next === undefined) return;
    showLayout(next.id);
    body.current?.querySelector<HTMLButtonElement>(`[data-layout="${CSS.escape(next.id)}"]`)?.focus();
  };

  return (
    <div className="table-scroll">
      <table className="table layouts">
        <caption className="only-heard">Layouts compared. Up and down show another layout.</caption>
        <thead>
          <tr>
            {columns.map(({ key, head }) => (
              <th
                key={key}
                scope="col"
                className={key === "layout" ? undefined : "number"}
                aria-sort={sort.by !== key ? "none" : sort.descending ? "descending" : "ascending"}
              >
                <button
                  type="button"
                  className="sort"
                  onClick={() => changeView({ sort: { by: key, descending: sort.by === key && !sort.descending } })}
                >
                  {head}
                  <span aria-hidden="true">{sort.by !== key ? "" : sort.descending ? " ↓" : " ↑"}</span>
                </button>
              </th>
            ))}
          </tr>
        </thead>
        <tbody ref={body}>
          {rows.map((row, place) => (
            <LayoutRow
              key={row.id}
              row={row}
              isShown={row.id === layout.id}
              isChosen={row.id === plan.chosen}
              isBeaten={!plan.frontier.includes(row.id)}
              unit={unit}
              currency={currency}
              onShow={() => showLayout(row.id)}
              onKeyDown={(event) => move(event, place)}
            />
          ))}
        </tbody>
      </table>
    </div>
  );
}

interface LayoutRowProps {
  readonly row: PlanLayout;
  readonly isShown: boolean;
  readonly isChosen: boolean;
  readonly isBeaten: boolean;
  readonly unit: Unit;
  readonly currency: string;
  readonly onShow: () => void;
  readonly onKeyDown: (event: KeyboardEvent) => void;
}

function LayoutRow({ row, isShown, isChosen, isBeaten, unit, currency, onShow, onKeyDown }: LayoutRowProps) {
  const { totals, bound } = row;
  return (
    // The whole row can be pointed at; the keyboard goes by the button in its first cell.
    <tr className={[isShown ? "row-shown" : "", isBeaten ? "row-beaten" : ""].join(" ").trim()} onClick={onShow}>
      <th scope="row">
        <button
          type="button"
          className="row-button"
          data-layout={row.id}
          aria-pressed={isShown}
          tabIndex={isShown ? 0 : -1}
          onClick={onShow}
          onKeyDown={onKeyDown}
        >
          <span className="figures">{layoutTitle(row, unit)}</span>
          <span className="aside"> {layoutWay(row)}</span>
          {isChosen ? <span className="tag">costs least</span> : null}
          {isBeaten ? <span className="tag tag-soft">beaten</span> : null}
        </button>
      </th>
      <td className="number">{money(totals.cost.total, currency)}</td>
      <td className="number">{percent(totals.wastePercent)}</td>
      <td className="number" title={seamWords(row)}>
        {seamCountOf(row)}
      </td>
      <td className="number">{totals.openSeams}</td>
      <td className="number">{totals.panelCount}</td>
      <td className="number figures">
        {showLength(Math.round(totals.filmLength * 10) / 10, unit)} <span className="unit">{unit}</span>
      </td>
      <td className="number" title={boundWords(row, unit, currency)}>
        {bound.proven ? "0, proven" : `≤ ${percent(bound.gapPercent)}`}
      </td>
    </tr>
  );
}

function seamWords({ totals }: PlanLayout): string {
  return [
    `${totals.openSeams} open`,
    `${totals.bodyLineSeams} on body lines`,
    `${totals.colourEdgeSeams} along colour edges`,
    `and ${totals.breakSeams} hidden in breaks, not counted`,
  ].join(", ");
}
