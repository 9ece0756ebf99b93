import { Button } from "../controls/Button.tsx";
import { ChoiceField, LengthField, TextField } from "../controls/jobFields.tsx";
import { useCommands, useSheet } from "../state/context.ts";
import { freeId } from "../state/newJob.ts";
import { SameLots } from "./SameLots.tsx";

/** Rolls and offcuts at hand: one row each, to be typed over, added and removed. */
export function StockTable() {
  const job = useSheet((state) => state.document?.job ?? null);
  const { edit } = useCommands();
  const stock = Array.isArray(job?.stock) ? (job.stock as Record<string, unknown>[]) : [];
  const films = Array.isArray(job?.films) ? (job.films as Record<string, unknown>[]) : [];
  const ids = stock.map((entry) => String(entry?.id ?? ""));
  const choices = films.map((film) => [String(film.id), String(film.name || film.id)] as const);

  const add = (): void =>
    edit("Add a stock roll", (draft) => {
      const [film] = films;
      const widths = Array.isArray(film?.rollWidths) ? film.rollWidths : [];
      const list = Array.isArray(draft.stock) ? draft.stock : [];
      draft.stock = list;
      list.push({
        id: freeId("roll", ids),
        film: String(film?.id ?? ""),
        lot: null,
        kind: "roll",
        width: typeof widths[0] === "number" ? widths[0] : draft.units === "mm" ? 1372 : 54,
        length: draft.units === "mm" ? 10_000 : 360,
      });
    });
  const remove = (place: number): void =>
    edit(`Remove stock ${ids[place]}`, (draft) => {
      if (Array.isArray(draft.stock)) draft.stock.splice(place, 1);
    });

  return (
    <>
      {stock.length === 0 ? <p className="aside">No rolls or offcuts at hand: new rolls are bought.</p> : null}
      {stock.map((_, place) => {
        const at = `stock[${place}]`;
        return (
          // biome-ignore lint/suspicious/noArrayIndexKey: an entry is its place in the job, its id can be edited or wrong
          <fieldset className="stock" key={place} data-path={at} tabIndex={-1}>
            <legend>{ids[place] || `Entry ${place + 1}`}</legend>
            <div className="fields">
              <TextField path={`${at}.id`} label="Name on the roll" step="Name of a stock roll" />
              <ChoiceField path={`${at}.film`} label="Of film" step="Film of a stock roll" choices={choices} />
              <LengthField path={`${at}.width`} label="Width" step="Width of a stock roll" />
              <LengthField path={`${at}.length`} label="Length left" step="Length of a stock roll" />
              <TextField path={`${at}.lot`} label="Lot" step="Lot of a stock roll" />
              <ChoiceField
                path={`${at}.kind`}
                label="Kind"
                step="Kind of a stock roll"
                otherwise="roll"
                choices={[
                  ["roll", "part roll"],
                  ["offcut", "offcut"],
                ]}
              />
            </div>
            <Button weight="bare" onClick={() => remove(place)}>
              Remove {ids[place] || `entry ${place + 1}`}
            </Button>
          </fieldset>
        );
      })}
      <Button onClick={add} disabled={films.length === 0}>
        Add a roll or offcut
      </Button>
      <SameLots />
    </>
  );
}
