import { useMemo } from "react";
import type { Elevation } from "../../core/index.ts";
import { ticksTo } from "../../core/index.ts";
import { ArtworkKey, ArtworkTrims, ArtworkUnder } from "../artwork/ArtworkLayers.tsx";
import { LazyMount } from "../controls/LazyMount.tsx";
import { useWidth } from "../controls/useWidth.ts";
import { ElevationDrawing, Legend } from "../drawing/index.ts";
import { useCommands, useSheet } from "../state/context.ts";
import { holdsBinding } from "../state/groupHolds.ts";
import { counted, lengthWithUnit, type Unit } from "../state/words.ts";
import { Band } from "./Band.tsx";
import { DatumFold } from "./DatumFold.tsx";
import { EmptyJob } from "./EmptyJob.tsx";
import { useOnSheet } from "./hooks.ts";
import { useScale } from "./scale.ts";
import { ZoomTools } from "./ZoomTools.tsx";

/** First band: every elevation with its panels and seams, all at one scale. */
export function CoveredBand() {
  const { elevations, layout, unit, job } = useOnSheet();
  const document = useSheet((state) => state.document);
  const [place, width] = useWidth<HTMLDivElement>(900);
  const { pixelsPerUnit } = useScale(elevations, layout, unit, width);
  const copies = elevations.reduce((sum, { count }) => sum + count, 0);
  const isEmpty = job !== null && job.elevations.length === 0;
  const summary =
    elevations.length === 0
      ? "Nothing yet"
      : [
          counted(elevations.length, "elevation") + (copies === elevations.length ? "" : `, ${copies} with copies`),
          layout === null ? null : counted(layout.totals.panelCount, "panel"),
        ]
          .filter(Boolean)
          .join(" · ");
  return (
    <Band
      id="covered"
      title="What is covered"
      summary={summary}
      tools={elevations.length === 0 ? null : <ZoomTools current={pixelsPerUnit} />}
    >
      <div ref={place} className="elevations" id="covered-scale" data-pixels={pixelsPerUnit}>
        {isEmpty ? <EmptyJob /> : null}
        {elevations.length === 0 && !isEmpty && document !== null ? (
          <p className="empty">
            The elevations can't be drawn until the job can be read. What to mend is listed at the side.
          </p>
        ) : null}
        {elevations.map((elevation) => (
          <ElevationFigure key={elevation.id} elevation={elevation} pixelsPerUnit={pixelsPerUnit} />
        ))}
      </div>
      {elevations.length === 0 ? null : (
        <div className="band-foot">
          <Legend />
          <DatumFold />
        </div>
      )}
    </Band>
  );
}

interface ElevationFigureProps {
  readonly elevation: Elevation;
  readonly pixelsPerUnit: number;
}

/** Room that the dimensions round a drawing take, in pixels. */
const roomRound = 64;

function ElevationFigure({ elevation, pixelsPerUnit }: ElevationFigureProps) {
  const { layout, unit, elevations } = useOnSheet();
  const holds = useMemo(() => holdsBinding(elevations, elevation), [elevations, elevation]);
  const selected = useSheet((state) => state.selected);
  const hovered = useSheet((state) => state.hovered);
  const { select, hover, changeView } = useCommands();
  const { y0, y1 } = elevation.box;
  const height = ticksTo(y1 - y0, unit) * pixelsPerUnit + roomRound;
  const isSelected = selected === `elevation:${elevation.id}`;
  return (
    <figure className={isSelected ? "elevation elevation-selected" : "elevation"} data-elevation={elevation.id}>
      <figcaption>
        <button
          type="button"
          className="elevation-name"
          aria-pressed={isSelected}
          onClick={() => select(isSelected ? null : `elevation:${elevation.id}`)}
        >
          {elevation.name || elevation.id}
        </button>
        <span className="aside figures">{describe(elevation, unit)}</span>
      </figcaption>
      <div>
        <LazyMount height={height}>
          <ElevationDrawing
            elevation={elevation}
            layout={layout}
            unit={unit}
            holds={holds}
            selectedId={selected}
            onSelect={select}
            hoveredId={hovered}
            onHover={hover}
            pixelsPerUnit={pixelsPerUnit}
            onPixelsPerUnit={(zoom) => changeView({ zoom })}
            under={(frame) => <ArtworkUnder elevation={elevation} unit={unit} frame={frame} />}
            between={(frame) => <ArtworkTrims elevation={elevation} layout={layout} unit={unit} frame={frame} />}
          />
        </LazyMount>
        <ArtworkKey elevation={elevation} layout={layout} unit={unit} />
      </div>
    </figure>
  );
}

function describe(elevation: Elevation, unit: Unit): string {
  const { x0, x1, y0, y1 } = elevation.box;
  const size = `${lengthWithUnit(ticksTo(x1 - x0, unit), unit)} × ${lengthWithUnit(ticksTo(y1 - y0, unit), unit)}`;
  const parts = [size];
  if (elevation.count > 1) parts.push(counted(elevation.count, "copy", "copies"));
  if (elevation.mirrorOf !== null)
    parts.push(`${elevation.mirror === "follow" ? "follows" : "mirror of"} ${elevation.mirrorOf}`);
  return parts.join(" · ");
}
