import { type DragEvent, type ReactNode, useId, useMemo, useState } from "react";
import { type Elevation, ticksTo, type Unit } from "../../core/index.ts";
import { Button } from "../controls/Button.tsx";
import { Fold } from "../controls/Fold.tsx";
import { useCommands, useSheet } from "../state/context.ts";
import { resolve } from "../state/resolved.ts";
import { lengthWithUnit } from "../state/words.ts";
import { useSeamMap } from "./ArtworkLayers.tsx";
import { cellFault, type Shown, useArtwork, useShelf, usualCell } from "./artworkStore.ts";
import { PlacePicture, TicksField } from "./PlacePicture.tsx";
import { lay } from "./placing.ts";

/** An elevation's artwork: load it, say how it lies, read from it where seams would be seen, show it. */
export function ArtworkFold({ elevation: id }: { readonly elevation: string }): ReactNode {
  const job = useSheet((state) => state.document?.job ?? null);
  const artwork = useArtwork(id);
  const map = useSeamMap(id);
  const elevation = useMemo(() => {
    const instance = job === null ? null : resolve(job).instance;
    return instance?.elevations.find((one) => one.id === id) ?? null;
  }, [job, id]);
  const aside = map !== null ? "read" : artwork.loaded !== null ? "loaded" : "none";
  return (
    <Fold title="Artwork" aside={aside} open={artwork.loaded !== null}>
      {elevation === null ? (
        <p className="aside">Artwork can be read once nothing is wrong with the job.</p>
      ) : (
        <ArtworkTools elevation={elevation} unit={job?.units === "mm" ? "mm" : "in"} />
      )}
    </Fold>
  );
}

interface ArtworkToolsProps {
  readonly elevation: Elevation;
  readonly unit: Unit;
}

function ArtworkTools({ elevation, unit }: ArtworkToolsProps): ReactNode {
  const { id, box } = elevation;
  const shelf = useShelf();
  const { loaded, reading, fault, cell: chosen } = useArtwork(id);
  const cell = chosen ?? usualCell(unit);
  const laid = loaded === null ? null : lay(loaded.placing, loaded.picture, box, unit);
  const tooMany = cellFault(box, cell);
  const usual = lengthWithUnit(ticksTo(usualCell(unit), unit), unit);
  return (
    <>
      <FileDrop elevation={elevation} />
      {fault === null ? null : (
        <p className="field-said" role="alert">
          {fault}
        </p>
      )}
      {loaded === null ? null : (
        <>
          <p className="row-words">
            <span>
              {loaded.name},{" "}
              <span className="figures">
                {loaded.picture.width} × {loaded.picture.height} px
              </span>
            </span>
            <Button weight="bare" onClick={() => shelf.putAway(id)}>
              Put the picture away
            </Button>
          </p>
          <PlacePicture loaded={loaded} box={box} unit={unit} onPlace={(placing) => shelf.place(id, placing)} />
          <div className="fields">
            <TicksField
              label="Cells of the map"
              value={cell}
              unit={unit}
              hint={`How finely places are told apart; usually ${usual}.`}
              onChange={(next) => shelf.setCell(id, next)}
            />
            {tooMany === null ? null : <p className="field-said">{tooMany}</p>}
          </div>
          {reading === null ? (
            <Button
              onClick={() => void shelf.read(id, box, unit)}
              disabled={tooMany !== null || laid === null || "why" in laid}
            >
              Read where seams would be seen
            </Button>
          ) : (
            <p className="row-words">
              <label>
                Reading the picture <progress value={reading.done} max={reading.of} />
              </label>
              <Button onClick={() => shelf.stopReading(id)}>Stop reading</Button>
            </p>
          )}
        </>
      )}
      <MapFacts elevation={elevation} unit={unit} />
      <ShowFields elevation={elevation} />
    </>
  );
}

/** Takes a picture by the file dialog, or dropped on it. */
function FileDrop({ elevation: { id, box, name } }: { readonly elevation: Elevation }): ReactNode {
  const shelf = useShelf();
  const { loaded, isLoading } = useArtwork(id);
  const { notice } = useCommands();
  const [over, setOver] = useState(false);
  const label = useId();
  const take = (files: FileList | null): void => {
    const [file, ...others] = files ?? [];
    if (file === undefined) return;
    if (others.length > 0) notice("One picture at a time: drop a single file.", "attention");
    else void shelf.take(id, file, box);
  };
  const holdsFile = (event: DragEvent): boolean => [...event.dataTransfer.types].includes("Files");
  return (
    // biome-ignore lint/a11y/noStaticElementInteractions: dropping a file is an extra; the file input does the same by key
    <div
      className={over ? "artwork-drop artwork-drop-over" : "artwork-drop"}
      onDragOver={(event) => {
        if (!holdsFile(event)) return;
        event.preventDefault();
        event.stopPropagation();
        setOver(true);
      }}
      onDragLeave={() => setOver(false)}
      onDrop={(event) => {
        if (!holdsFile(event)) return;
        event.preventDefault();
        // The window would take it for a job.
        event.stopPropagation();
        setOver(false);
        take(event.dataTransfer.files);
      }}
    >
      <label htmlFor={label} className="field-label">
        {loaded === null ? `Picture of the artwork on ${name}` : "Another picture"}
      </label>
      <input
        id={label}
        className="input"
        type="file"
        accept="image/png,image/jpeg"
        onChange={(event) => {
          take(event.target.files);
          // So that the same file, mended meanwhile, can be chosen again.
          event.target.value = "";
        }}
      />
      <p className="field-hint" aria-live="polite">
        {isLoading
          ? "Opening the picture"
          : "PNG or JPEG, or dropped here. It stays in this window; the job keeps only the map."}
      </p>
    </div>
  );
}

/** What map stands in the job. */
function MapFacts({ elevation, unit }: ArtworkToolsProps): ReactNode {
  const shelf = useShelf();
  const own = useSheet((state) => ownMap(state.document?.job, elevation.id));
  const { seamMap, mirrorOf } = elevation;
  if (seamMap === null) {
    return <p className="aside artwork-map">No map yet: seams are weighed by their length alone.</p>;
  }
  const size = `${seamMap.columns} by ${seamMap.rows} cells of ${lengthWithUnit(ticksTo(seamMap.cell, unit), unit)}`;
  if (own === null) {
    return (
      <p className="aside artwork-map">
        The map of {mirrorOf}, mirrored: {size}. Load a picture to give this side its own.
      </p>
    );
  }
  return (
    <p className="row-words artwork-map">
      <span>
        Map {typeof own.picture === "string" ? `read from ${own.picture}` : "in the job"}: {size}.
      </span>
      <Button weight="bare" onClick={() => shelf.removeMap(elevation.id)}>
        Remove the map
      </Button>
    </p>
  );
}

type Entry = Record<string, unknown>;

function ownMap(job: Entry | undefined, elevation: string): Entry | null {
  const list = Array.isArray(job?.elevations) ? (job.elevations as Entry[]) : [];
  const map = list.find(({ id }) => id === elevation)?.seamMap;
  return typeof map === "object" && map !== null ? (map as Entry) : null;
}

/** What of the artwork is drawn. */
function ShowFields({ elevation: { id, seamMap } }: { readonly elevation: Elevation }): ReactNode {
  const shelf = useShelf();
  const { loaded, shows } = useArtwork(id);
  const name = useId();
  if (loaded === null && seamMap === null) return null;
  const box = (key: "picture" | "trim", words: string): ReactNode => (
    <label className="artwork-which">
      <input
        type="checkbox"
        checked={shows[key]}
        onChange={(event) => shelf.show(id, { [key]: event.target.checked })}
      />
      {words}
    </label>
  );
  return (
    <div className="fields">
      {loaded === null ? null : box("picture", "Show the picture under the panels")}
      {loaded === null ? null : box("trim", "Show trim lines in the overlaps")}
      {seamMap === null ? null : (
        <div className="field">
          <label htmlFor={name} className="field-label">
            Show as heat
          </label>
          <select
            id={name}
            className="input"
            value={shows.heat}
            onChange={(event) => shelf.show(id, { heat: event.target.value as Shown["heat"] })}
          >
            <option value="none">nothing</option>
            <option value="x">upright seams</option>
            <option value="y">level seams</option>
          </select>
        </div>
      )}
    </div>
  );
}
