import { Button } from "../controls/Button.tsx";
import { ChoiceField, CountField, TextField } from "../controls/jobFields.tsx";
import { useCommands, useSheet } from "../state/context.ts";
import { listIn } from "../state/entries.ts";
import { panelName } from "../state/links.ts";

/** Overlays, inlays and decals: pieces that are printed whole, beside the panels. */
export function PieceList() {
  const job = useSheet((state) => state.document?.job ?? null);
  const { edit, select } = useCommands();
  const films = listIn(job?.films).map((film) => [String(film.id), String(film.name || film.id)] as const);
  const pieces = listIn(job?.pieces);
  const remove = (place: number, title: string): void =>
    edit(`Remove piece ${title}`, (draft) => {
      if (Array.isArray(draft.pieces)) draft.pieces.splice(place, 1);
    });
  if (pieces.length === 0) return <p className="aside">No overlays, inlays or decals in this job.</p>;
  return (
    <>
      {pieces.map((piece, place) => {
        const at = `pieces[${place}]`;
        const title = String(piece?.id || `piece ${place + 1}`);
        return (
          // biome-ignore lint/suspicious/noArrayIndexKey: a piece is its place in the job, its id can be wrong
          <fieldset className="stock" key={place} data-path={at} tabIndex={-1}>
            <legend>
              {title} <span className="aside">{String(piece?.role ?? "")}</span>
            </legend>
            <div className="fields">
              <TextField path={`${at}.label`} label="Label" step={`Label of ${title}`} />
              <CountField path={`${at}.count`} label="How many" step={`Number of ${title}`} otherwise={1} />
              <ChoiceField path={`${at}.film`} label="Film" step={`Film of ${title}`} choices={films} />
              <ChoiceField
                path={`${at}.turn`}
                label="May be turned"
                step={`Turning of ${title}`}
                otherwise="fixed"
                choices={[
                  ["fixed", "not at all"],
                  ["half", "head to foot"],
                  ["quarter", "by quarters"],
                ]}
              />
            </div>
            <div className="row-words">
              <Button weight="bare" onClick={() => select(panelName(title))}>
                Where {title} lies
              </Button>
              <Button weight="bare" onClick={() => remove(place, title)}>
                Remove {title}
              </Button>
            </div>
          </fieldset>
        );
      })}
    </>
  );
}
