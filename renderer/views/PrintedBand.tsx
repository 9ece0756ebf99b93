import { useEffect, useMemo, useRef } from "react";
import type { PlanLayout } from "../../shared/planFile.ts";
import { LazyMount } from "../controls/LazyMount.tsx";
import { useWidth } from "../controls/useWidth.ts";
import { RollDrawing } from "../drawing/index.ts";
import { useCommands, useSheet } from "../state/context.ts";
import { showLength } from "../state/lengths.ts";
import { cutName, linkedWith, lyingIn, pieceName } from "../state/links.ts";
import { area, counted, lengthWithUnit, percent, type Unit } from "../state/words.ts";
import { Band } from "./Band.tsx";
import { useOnSheet } from "./hooks.ts";
import { useScale } from "./scale.ts";
import { ZoomTools } from "./ZoomTools.tsx";

type Load = PlanLayout["rolls"][number];

/** Third band: every load of the shown layout to scale, and the cut lengths as a table. */
export function PrintedBand() {
  const { layout, unit, elevations } = useOnSheet();
  const [place, width] = useWidth<HTMLDivElement>(900);
  const { pixelsPerUnit } = useScale(elevations, layout, unit, width);
  const summary =
    layout === null
      ? "No film yet"
      : [
          counted(layout.rolls.length, "load"),
          `${lengthWithUnit(Math.round(layout.totals.filmLength * 10) / 10, unit)} of film`,
          area(layout.totals.filmArea, unit),
          `${percent(layout.totals.wastePercent)} waste`,
        ].join(" · ");
  return (
    <Band
      id="printed"
      title="What is printed"
      summary={summary}
      tools={layout === null ? null : <ZoomTools current={pixelsPerUnit} />}
    >
      <div ref={place} className="printed">
        {layout === null ? <p className="empty">Once there is a layout, its loads are drawn here to scale.</p> : null}
        {layout?.rolls.map((load, place) => (
          <LoadFigure key={load.id} load={load} pixelsPerUnit={pixelsPerUnit} eager={place < 2} />
        ))}
        {layout === null ? null : <CutList layout={layout} unit={unit} />}
      </div>
    </Band>
  );
}

interface LoadFigureProps {
  readonly load: Load;
  readonly pixelsPerUnit: number;
  readonly eager: boolean;
}

function LoadFigure({ load, pixelsPerUnit, eager }: LoadFigureProps) {
  const { layout, unit, job, instance } = useOnSheet();
  const selected = useSheet((state) => state.selected);
  const hovered = useSheet((state) => state.hovered);
  const { select, hover, changeView } = useCommands();
  const figure = useRef<HTMLElement>(null);
  const linked = useMemo(() => linkedWith(layout, selected), [layout, selected]);
  const film = job?.films.find(({ id }) => id === load.film);

  // What was selected in another band is brought into view sideways; the sheet itself is not moved under the hand.
  useEffect(() => {
    const strip = figure.current?.querySelector(".draw-scroll");
    if (strip === null || strip === undefined) return;
    for (const [place, cut] of load.cuts.entries()) {
      for (const piece of cut.pieces) {
        if (!linked.has(pieceName(piece.id, piece.copy)) && !linked.has(cutName(load.id, place + 1))) continue;
        const from = (cut.start + piece.y) * pixelsPerUnit;
        const to = from + piece.along * pixelsPerUnit;
        if (from < strip.scrollLeft || to > strip.scrollLeft + strip.clientWidth) {
          strip.scrollLeft = Math.max(0, (from + to - strip.clientWidth) / 2);
        }
        return;
      }
    }
  }, [linked, load, pixelsPerUnit]);

  if (layout === null) return null;
  return (
    <figure className="load" ref={figure} data-load={load.id}>
      <figcaption>
        <strong>Load {load.id}</strong>
        <span className="aside figures">{loadWords(load, film?.name || load.film, unit)}</span>
      </figcaption>
      <div>
        <LazyMount height={load.width * pixelsPerUnit + 48} eager={eager}>
          <RollDrawing
            layout={layout}
            films={instance?.films ?? []}
            load={load}
            stock={instance?.stock}
            pieces={instance?.pieces}
            unit={unit}
            selectedId={selected}
            onSelect={select}
            hoveredId={hovered}
            onHover={hover}
            pixelsPerUnit={pixelsPerUnit}
            onPixelsPerUnit={(zoom) => changeView({ zoom })}
          />
        </LazyMount>
      </div>
    </figure>
  );
}

function loadWords(load: Load, film: string, unit: Unit): string {
  return [
    film,
    load.stock === null
      ? `new ${lengthWithUnit(load.width, unit)} roll`
      : `stock ${load.stock}, ${lengthWithUnit(load.width, unit)}`,
    load.lot === null ? null : `lot ${load.lot}`,
    `${lengthWithUnit(Math.round(load.used * 10) / 10, unit)} used`,
    counted(load.cuts.length, "cut"),
  ]
    .filter(Boolean)
    .join(" · ");
}

const turnWords: Record<number, string> = {
  0: "as drawn",
  90: "quarter turn",
  180: "head to foot",
  270: "three quarters",
};

/** Every piece in the order of the film, with the counter's reading where its cut starts and stops. */
function CutList({ layout, unit }: { readonly layout: PlanLayout; readonly unit: Unit }) {
  const selected = useSheet((state) => state.selected);
  const hovered = useSheet((state) => state.hovered);
  const { select, hover } = useCommands();
  const linked = useMemo(() => linkedWith(layout, selected), [layout, selected]);
  const pointed = useMemo(() => linkedWith(layout, hovered), [layout, hovered]);
  const byLoad = useMemo(() => {
    const groups = new Map<string, ReturnType<typeof rowOf>[]>();
    for (const lying of lyingIn(layout))
      groups.set(lying.load.id, [...(groups.get(lying.load.id) ?? []), rowOf(lying)]);
    return [...groups];
  }, [layout]);
  return (
    <section aria-labelledby="cut-list-title">
      <h3 id="cut-list-title">Cut lengths</h3>
      {byLoad.map(([load, rows]) => (
        <LazyMount key={load} height={rows.length * 28 + 60} eager={rows.length < 60}>
          <div className="table-scroll">
            <table className="table cuts">
              <caption>Load {load}</caption>
              <thead>
                <tr>
                  <th scope="col" className="number column-narrow">
                    Cut
                  </th>
                  <th scope="col" className="number">
                    From, {unit}
                  </th>
                  <th scope="col" className="number">
                    To, {unit}
                  </th>
                  <th scope="col" className="number">
                    Cut length, {unit}
                  </th>
                  <th scope="col" className="column-wide">
                    Piece
                  </th>
                  <th scope="col" className="number column-narrow">
                    Copy
                  </th>
                  <th scope="col" className="number">
                    Across, {unit}
                  </th>
                  <th scope="col" className="number">
                    Along, {unit}
                  </th>
                  <th scope="col">Lies</th>
                </tr>
              </thead>
              <tbody>
                {rows.map((row) => {
                  const lit = linked.has(row.piece) || linked.has(row.cut);
                  const near = pointed.has(row.piece) || pointed.has(row.cut);
                  return (
                    <tr
                      key={row.piece}
                      data-row={row.piece}
                      className={[lit ? "row-shown" : "", near ? "row-near" : ""].join(" ").trim()}
                      onPointerEnter={() => hover(row.piece)}
                      onPointerLeave={() => hover(null)}
                    >
                      <td className="number">
                        {row.isFirst ? (
                          <button
                            type="button"
                            className="row-button"
                            aria-label={`Cut ${row.number} of load ${load}`}
                            aria-pressed={selected === row.cut}
                            onClick={() => select(selected === row.cut ? null : row.cut)}
                          >
                            {row.number}
                          </button>
                        ) : (
                          <span className="aside">{row.number}</span>
                        )}
                      </td>
                      <td className="number figures">{row.isFirst ? showLength(row.start, unit) : ""}</td>
                      <td className="number figures">{row.isFirst ? showLength(row.stop, unit) : ""}</td>
                      <td className="number figures">{row.isFirst ? showLength(row.length, unit) : ""}</td>
                      <th scope="row">
                        <button
                          type="button"
                          className="row-button"
                          aria-label={`${row.id}, copy ${row.copy}`}
                          aria-pressed={selected === row.piece}
                          onClick={() => select(selected === row.piece ? null : row.piece)}
                        >
                          {row.id}
                        </button>
                      </th>
                      <td className="number">{row.copy}</td>
                      <td className="number figures">{showLength(row.across, unit)}</td>
                      <td className="number figures">{showLength(row.along, unit)}</td>
                      <td>{turnWords[row.turn] ?? `${row.turn}°`}</td>
                    </tr>
                  );
                })}
              </tbody>
            </table>
          </div>
        </LazyMount>
      ))}
    </section>
  );
}

function rowOf({
  load,
  cut,
  cutNumber,
  piece,
}: ReturnType<typeof lyingIn> extends Generator<infer Lying> ? Lying : never) {
  return {
    id: piece.id,
    copy: piece.copy,
    piece: pieceName(piece.id, piece.copy),
    cut: cutName(load.id, cutNumber),
    number: cutNumber,
    isFirst: cut.pieces[0] === piece,
    start: cut.start,
    stop: cut.start + cut.length,
    length: cut.length,
    across: piece.across,
    along: piece.along,
    turn: piece.turn,
  };
}
