import { Button } from "../controls/Button.tsx";
import { CountField, TextField } from "../controls/jobFields.tsx";
import { useCommands, useSheet } from "../state/context.ts";
import { AddElevation } from "./EmptyJob.tsx";

/** Elevations by name and number of copies; each opens for the rest of its values. */
export function ElevationList() {
  const elevations = useSheet((state) => state.document?.job.elevations);
  const { select } = useCommands();
  const list = Array.isArray(elevations) ? (elevations as Record<string, unknown>[]) : [];
  return (
    <>
      <ul className="rows">
        {list.map((entry, place) => (
          // biome-ignore lint/suspicious/noArrayIndexKey: an elevation is its place in the job, its id can be wrong
          <li key={place} className="row-fields">
            <TextField
              path={`elevations[${place}].name`}
              label={`Name of elevation ${place + 1}`}
              hiddenLabel
              step="Name of an elevation"
            />
            <CountField
              path={`elevations[${place}].count`}
              label={`Copies of ${String(entry.name || entry.id)}`}
              hiddenLabel
              otherwise={1}
              step={`Copies of ${String(entry.name || entry.id)}`}
            />
            <Button
              weight="bare"
              onClick={() => select(`elevation:${String(entry.id)}`)}
              aria-label={`More of ${String(entry.name || entry.id)}`}
            >
              More
            </Button>
          </li>
        ))}
      </ul>
      <AddElevation />
    </>
  );
}
