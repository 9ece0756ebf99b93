import { Button } from "../controls/Button.tsx";
import {
  ChoiceField,
  CountField,
  LengthField,
  LengthListField,
  MoneyField,
  TextField,
} from "../controls/jobFields.tsx";
import { useCommands, useSheet } from "../state/context.ts";
import { freeId, newJob } from "../state/newJob.ts";

/** Films of the job: widths, prices, how pieces may lie. */
export function FilmFields() {
  const job = useSheet((state) => state.document?.job ?? null);
  const { edit } = useCommands();
  const films = Array.isArray(job?.films) ? (job.films as Record<string, unknown>[]) : [];
  const ids = films.map((film) => String(film?.id ?? ""));

  const add = (): void =>
    edit("Add a film", (draft) => {
      const [pattern] = newJob(draft.units === "mm" ? "mm" : "in").films as Record<string, unknown>[];
      const list = Array.isArray(draft.films) ? draft.films : [];
      draft.films = list;
      list.push({ ...pattern, id: freeId("film", ids), name: "New film" });
    });
  const remove = (place: number): void =>
    edit(`Remove film ${ids[place]}`, (draft) => {
      if (Array.isArray(draft.films)) draft.films.splice(place, 1);
    });

  return (
    <>
      {films.map((_, place) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: a film is its place in the job, its id can be edited or wrong
        <fieldset className="film" key={place} data-path={`films[${place}]`} tabIndex={-1}>
          <legend>{ids[place] || `Film ${place + 1}`}</legend>
          <div className="fields">
            <TextField path={`films[${place}].name`} label="Name" step="Name of a film" />
            <LengthListField path={`films[${place}].rollWidths`} label="Roll widths" hint="Parted by ; or ," />
            <MoneyField path={`films[${place}].pricePerArea`} label="Film" step="Price of film" per="area" />
            <MoneyField
              path={`films[${place}].laminatePricePerArea`}
              label="Laminate"
              step="Price of laminate"
              per="area"
            />
            <MoneyField path={`films[${place}].inkPricePerArea`} label="Ink" step="Price of ink" per="area" />
            <LengthField path={`films[${place}].edgeMargin`} label="Edge margin" otherwise={0} />
            <LengthField path={`films[${place}].rollLength`} label="Roll length" none="no limit" />
            <LengthField path={`films[${place}].maxRun`} label="Longest run" none="no limit" />
            <LengthField path={`films[${place}].laminateWidth`} label="Laminate width" none="no limit" />
            <CountField path={`films[${place}].newRolls`} label="New rolls to buy" none="no limit" />
            <ChoiceField
              path={`films[${place}].lay`}
              label="Heads lie"
              otherwise="one-way"
              choices={[
                ["one-way", "one way"],
                ["two-way", "two ways"],
                ["any", "any way"],
              ]}
            />
            <ChoiceField
              path={`films[${place}].joint`}
              label="Panels at a seam"
              step="How panels of a film meet"
              otherwise="lapped"
              choices={[
                ["lapped", "lap"],
                ["butted", "meet edge to edge"],
              ]}
            />
          </div>
          {films.length < 2 ? null : (
            <Button weight="bare" onClick={() => remove(place)}>
              Remove film {ids[place]}
            </Button>
          )}
        </fieldset>
      ))}
      <Button onClick={add}>Add a film</Button>
    </>
  );
}
