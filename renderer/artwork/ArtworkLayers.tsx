import { type ReactNode, useEffect, useMemo, useState } from "react";
import {
  type Elevation,
  type Point,
  type Registration,
  type SeamMap,
  seamVisibilityInParts,
  TICKS_PER,
  type Ticks,
  trimLine,
  type Unit,
} from "../../core/index.ts";
import type { PlanLayout } from "../../shared/planFile.ts";
import { ArtworkImage } from "../drawing/ArtworkImage.tsx";
import type { Frame } from "../drawing/frame.ts";
import { Heat } from "../drawing/Heat.tsx";
import { heatSteps } from "../drawing/heat.ts";
import { TrimLines } from "../drawing/TrimLines.tsx";
import { governs } from "../state/cautions.ts";
import { useSheet } from "../state/context.ts";
import { resolve } from "../state/resolved.ts";
import { counted } from "../state/words.ts";
import { type Artwork, useArtwork } from "./artworkStore.ts";
import { lay } from "./placing.ts";
import { type NamedBand, trimBands } from "./trimBands.ts";

/** The map that stands in the job now, its own or mirrored: newer than the plan while that is still being made. */
export function useSeamMap(elevation: string): SeamMap | null {
  const job = useSheet((state) => state.document?.job ?? null);
  return useMemo(() => {
    const instance = job === null ? null : resolve(job).instance;
    return instance?.elevations.find(({ id }) => id === elevation)?.seamMap ?? null;
  }, [job, elevation]);
}

function useRegistration({ loaded }: Artwork, elevation: Elevation, unit: Unit): Registration | null {
  const { box } = elevation;
  return useMemo(() => {
    const laid = loaded === null ? null : lay(loaded.placing, loaded.picture, box, unit);
    return laid !== null && "registration" in laid ? laid.registration : null;
  }, [loaded, box, unit]);
}

interface UnderProps {
  readonly elevation: Elevation;
  readonly unit: Unit;
  readonly frame: Frame;
}

/** Under the lines of an elevation's drawing: its artwork, and where a seam through it would be seen. */
export function ArtworkUnder({ elevation, unit, frame }: UnderProps): ReactNode {
  const artwork = useArtwork(elevation.id);
  const registration = useRegistration(artwork, elevation, unit);
  const map = useSeamMap(elevation.id);
  const { loaded, shows } = artwork;
  return (
    <>
      {loaded === null || registration === null || !shows.picture ? null : (
        <ArtworkImage href={loaded.href} {...loaded.picture} registration={registration} frame={frame} />
      )}
      {map === null || shows.heat === "none" ? null : (
        <Heat elevation={elevation} map={map} axis={shows.heat} frame={frame} />
      )}
    </>
  );
}

interface TrimsProps extends UnderProps {
  readonly layout: PlanLayout | null;
}

/** Beside the seams of an elevation's drawing: the trim line of each overlap, as they are found. */
export function ArtworkTrims({ elevation, layout, unit, frame }: TrimsProps): ReactNode {
  const artwork = useArtwork(elevation.id);
  const registration = useRegistration(artwork, elevation, unit);
  const picture = artwork.shows.trim ? (artwork.loaded?.picture ?? null) : null;
  const bands = useMemo(
    () => (layout === null || picture === null ? none : trimBands(elevation.id, layout, unit)),
    [elevation.id, layout, unit, picture],
  );
  const [lines, setLines] = useState<readonly Line[]>([]);
  useEffect(() => {
    setLines([]);
    if (picture === null || registration === null || bands.length === 0) return;
    let wanted = true;
    let timer: ReturnType<typeof setTimeout>;
    const found: Line[] = [];
    const steps = linesIn(bands, (cell, box) => seamVisibilityInParts(picture, registration, cell, box), unit);
    // A few hundredths of a second at a time, so that the window never stands still.
    const goOn = (): void => {
      for (const begun = performance.now(); performance.now() - begun < 24; ) {
        const step = steps.next();
        if (!wanted || step.done) return;
        if (step.value !== null) {
          found.push(step.value);
          setLines([...found]);
        }
      }
      timer = setTimeout(goOn, 0);
    };
    timer = setTimeout(goOn, 0);
    return () => {
      wanted = false;
      clearTimeout(timer);
    };
  }, [picture, registration, bands, unit]);
  return lines.length === 0 ? null : <TrimLines lines={lines} frame={frame} />;
}

const none: readonly NamedBand[] = [];

interface Line {
  readonly key: string;
  readonly points: readonly Point[];
}

/** Most cells that a map takes on a side; a longer band is looked at more coarsely. */
const mostCells = 4000;

/** The line of each band, and null after each piece of work between them. */
function* linesIn(
  bands: readonly NamedBand[],
  mapOf: (cell: Ticks, box: NamedBand["box"]) => Generator<unknown, SeamMap>,
  unit: Unit,
): Generator<Line | null> {
  const finest = unit === "in" ? TICKS_PER.in / 16 : TICKS_PER.mm;
  for (const band of bands) {
    const { x0, x1, y0, y1 } = band.box;
    const cell = Math.max(finest, Math.ceil(Math.max(x1 - x0, y1 - y0) / mostCells));
    const parts = mapOf(cell, band.box);
    for (let part = parts.next(); ; part = parts.next()) {
      if (part.done) {
        yield { key: band.key, points: trimLine(part.value, band) };
        break;
      }
      yield null;
    }
  }
}

/** Below an elevation's drawing: what the heat and the trim lines on it mean. Nothing where none is drawn. */
export function ArtworkKey({ elevation, layout, unit }: Omit<TrimsProps, "frame">): ReactNode {
  const artwork = useArtwork(elevation.id);
  const { shows } = artwork;
  const map = useSeamMap(elevation.id);
  const registration = useRegistration(artwork, elevation, unit);
  const bands = registration === null || layout === null || !shows.trim ? [] : trimBands(elevation.id, layout, unit);
  const hasHeat = map !== null && shows.heat !== "none";
  if (!hasHeat && bands.length === 0) return null;
  return (
    <div className="artwork-key">
      {hasHeat ? (
        <ul className="draw-legend" aria-label={`What the heat on ${elevation.name || elevation.id} means`}>
          <li>{shows.heat === "x" ? "An upright seam here is" : "A level seam here is"}</li>
          <li>
            <KeyMark>
              <rect className="draw-paper" width={52} height={18} />
            </KeyMark>
            hardly seen
          </li>
          {heatSteps.map(({ words }, step) => (
            <li key={words}>
              <KeyMark>
                <rect className="draw-paper" width={52} height={18} />
                <g className="draw-heat">
                  <rect className={`draw-heat-${step + 1}`} width={52} height={18} />
                </g>
              </KeyMark>
              {words}
            </li>
          ))}
        </ul>
      ) : null}
      {bands.length === 0 ? null : (
        <p className="artwork-trim">
          <KeyMark>
            <path className="draw-trim" d="M2 12L16 6L30 9L50 4" />
          </KeyMark>
          <span>
            Trim line seen least, in {counted(bands.length, "overlap")}. Cut over trimming tape or a backing strip,
            never into the body. {governs}
          </span>
        </p>
      )}
    </div>
  );
}

const KeyMark = ({ children }: { readonly children: ReactNode }): ReactNode => (
  <svg className="draw-legend-mark" width={52} height={18} aria-hidden="true">
    {children}
  </svg>
);
