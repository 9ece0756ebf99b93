import { Button } from "../controls/Button.tsx";
import { CheckField } from "../controls/CheckField.tsx";
import { ChoiceField, LengthField } from "../controls/jobFields.tsx";
import { useCommands, useSheet } from "../state/context.ts";
import { type Entry, listIn, titleOf } from "../state/entries.ts";
import { FoundSections } from "./FoundSections.tsx";

const directions = [
  ["either", "either way"],
  ["vertical", "vertical"],
  ["horizontal", "horizontal"],
] as const;

const edges = [
  ["bottom", "bottom"],
  ["top", "top"],
  ["left", "left"],
  ["right", "right"],
] as const;

const headWords = { same: "all one way", alternate: "every second turned" } as const;

interface ElevationSectionsProps {
  readonly entry: Entry;
  readonly place: number;
}

/** How an elevation of its own outline is parted: its sections, those found along breaks, and its fills. */
export function ElevationSections({ entry, place }: ElevationSectionsProps) {
  const job = useSheet((state) => state.document?.job ?? null);
  const { edit } = useCommands();
  const films = listIn(job?.films).map((film) => [String(film.id), String(film.name || film.id)] as const);
  const at = `elevations[${place}]`;
  const title = titleOf(entry, place);
  const sections = listIn(entry.sections);

  const addFill = (): void =>
    edit(`Allow a fill on ${title}`, (draft) => {
      const here = listIn(draft.elevations)[place];
      if (here === undefined) return;
      const fill = listIn(here.fill);
      const taken = fill.map(({ edge }) => edge);
      const edge = edges.find(([one]) => !taken.includes(one))?.[0];
      if (edge === undefined) return;
      here.fill = [...fill, { edge, maxDepth: draft.units === "mm" ? 200 : 8, film: films.at(-1)?.[0] ?? "" }];
    });
  const removeFill = (fill: number): void =>
    edit(`No fill on ${title}`, (draft) => {
      const list = listIn(draft.elevations)[place]?.fill;
      if (Array.isArray(list)) list.splice(fill, 1);
    });

  return (
    <>
      <h4>Sections</h4>
      {sections.length === 0 ? <p className="aside">One section over the whole, panels run either way.</p> : null}
      <div className="fields">
        <ChoiceField
          path={`${at}.heads`}
          label="Heads on the film"
          step={`Heads of ${title}`}
          otherwise={null}
          choices={[
            [null, headWords.same],
            ["alternate", headWords.alternate],
          ]}
          hint="Turned, edges printed by the same side of the head meet."
        />
        <CheckField
          path={`${at}.findSections`}
          label="Also look for sections along breaks"
          step={`Sections of ${title} looked for`}
          hint="Along gaps, mouldings, body lines and colour edges, each part with a direction of its own. Slower."
        />
      </div>
      <FoundSections elevation={String(entry.id)} />
      {sections.map((section, step) => (
        <div className="fields" key={String(section.id ?? step)} data-path={`${at}.sections[${step}]`} tabIndex={-1}>
          <ChoiceField
            path={`${at}.sections[${step}].direction`}
            label={`${String(section.id)}: panels run`}
            step={`Direction of section ${String(section.id)}`}
            otherwise="either"
            choices={directions}
          />
          <LengthField
            path={`${at}.sections[${step}].maxAcross`}
            label={`${String(section.id)}: widest panel`}
            step={`Widest panel of section ${String(section.id)}`}
            none="as the film"
          />
          <ChoiceField
            path={`${at}.sections[${step}].heads`}
            label={`${String(section.id)}: heads`}
            step={`Heads of section ${String(section.id)}`}
            otherwise={null}
            choices={[
              [null, "as above"],
              ["same", headWords.same],
              ["alternate", headWords.alternate],
            ]}
          />
        </div>
      ))}
      <h4>Fills</h4>
      {listIn(entry.fill).map((fill, step) => (
        <div className="fields" key={String(fill.edge ?? step)} data-path={`${at}.fill[${step}]`} tabIndex={-1}>
          <ChoiceField path={`${at}.fill[${step}].edge`} label="Along the edge" step="Edge of a fill" choices={edges} />
          <LengthField path={`${at}.fill[${step}].maxDepth`} label="At most deep" step="Depth of a fill" />
          <ChoiceField path={`${at}.fill[${step}].film`} label="In film" step="Film of a fill" choices={films} />
          <Button weight="bare" onClick={() => removeFill(step)}>
            Remove the fill along the {String(fill.edge)}
          </Button>
        </div>
      ))}
      <Button onClick={addFill} disabled={listIn(entry.fill).length >= 4 || films.length === 0}>
        Allow a fill piece
      </Button>
    </>
  );
}
