import { ArtworkFold } from "../artwork/ArtworkFold.tsx";
import { Button } from "../controls/Button.tsx";
import { ChoiceField, CountField, LengthField, TextField } from "../controls/jobFields.tsx";
import { governs } from "../state/cautions.ts";
import { cautionsAt } from "../state/cautionsAt.ts";
import { useCommands, useSheet } from "../state/context.ts";
import { featuresOf, listIn, titleOf } from "../state/entries.ts";
import { useCautions } from "./CautionList.tsx";
import { ElevationSections } from "./ElevationSections.tsx";
import { ElevationZones } from "./ElevationZones.tsx";
import { FittingFold } from "./FittingFold.tsx";
import { HoldsFold } from "./HoldsFold.tsx";
import { MeasuresFold } from "./MeasuresFold.tsx";
import { TwoSides } from "./TwoSides.tsx";

/** The values of one elevation: name, copies, film, sections, holds, breaks, zones. `#2` names one without an id. */
export function ElevationDetails({ name }: { readonly name: string }) {
  const job = useSheet((state) => state.document?.job ?? null);
  const { edit, select } = useCommands();
  const cautions = useCautions();
  const elevations = listIn(job?.elevations);
  const place = name.startsWith("#") ? Number(name.slice(1)) : elevations.findIndex(({ id }) => id === name);
  const entry = elevations[place];
  if (entry === undefined) return <p className="aside">It stands no longer in the job.</p>;
  const at = `elevations[${place}]`;
  const title = titleOf(entry, place);
  const id = String(entry.id);
  const films = listIn(job?.films).map((film) => [String(film.id), String(film.name || film.id)] as const);
  const mirrors = typeof entry.mirrorOf === "string" ? entry.mirrorOf : null;
  const met = cautionsAt(cautions, name);

  const remove = (): void => {
    edit(`Remove elevation ${title}`, (draft) => {
      if (Array.isArray(draft.elevations)) draft.elevations.splice(place, 1);
    });
    select(null);
  };

  return (
    <div data-path={at} tabIndex={-1} className="place">
      <div className="fields">
        <TextField path={`${at}.name`} label="Name" step="Name of an elevation" />
        <CountField path={`${at}.count`} label="Copies" step={`Copies of ${title}`} otherwise={1} />
        <ChoiceField
          path={`${at}.film`}
          label="Film"
          step={`Film of ${title}`}
          otherwise={null}
          choices={mirrors === null ? films : [[null, "as mirrored"], ...films]}
        />
        <ChoiceField
          path={`${at}.travel`}
          label="Front is"
          step={`Front of ${title}`}
          otherwise={mirrors === null ? "none" : null}
          choices={[
            ...(mirrors === null ? [] : [[null, "as mirrored"] as const]),
            ["none", "nowhere"],
            ["left", "at the left"],
            ["right", "at the right"],
            ["up", "at the top"],
            ["down", "at the bottom"],
          ]}
        />
        {mirrors === null ? (
          <LengthField
            path={`${at}.ground`}
            label="Ground at"
            step={`Ground of ${title}`}
            none="its lowest edge"
            signed
            hint="Height zones of the rules count from here."
          />
        ) : null}
        <ChoiceField
          path={`${at}.straight`}
          label="Put up straight"
          step={`Straight panel of ${title}`}
          otherwise={null}
          choices={[
            [null, mirrors === null ? "largest lettering" : "as mirrored"],
            ...featuresOf(elevations, id, "keepClear").map(
              (zone) => [String(zone.id), String(zone.label || zone.id)] as const,
            ),
          ]}
          hint="Its panel goes on first where laps leave it open."
        />
      </div>
      {mirrors === null ? (
        <ElevationSections entry={entry} place={place} />
      ) : (
        <TwoSides at={at} elevation={id} mirrors={mirrors} />
      )}
      <HoldsFold elevation={id} />
      <MeasuresFold elevation={id} />
      <FittingFold elevation={id} />
      <ElevationZones entry={entry} at={at} elevation={id} />
      <ArtworkFold elevation={id} />
      {met.length === 0 ? null : (
        <ul className="cautions">
          {met.map(({ id: caution, says }) => (
            <li key={caution}>{says}</li>
          ))}
          <li className="aside">{governs}</li>
        </ul>
      )}
      <Button weight="bare" onClick={remove}>
        Remove this elevation
      </Button>
    </div>
  );
}
