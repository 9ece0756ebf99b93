import { Button } from "../controls/Button.tsx";
import { ChoiceField, CountField, LengthField, TextField } from "../controls/jobFields.tsx";
import { governs } from "../state/cautions.ts";
import { cautionsAt } from "../state/cautionsAt.ts";
import { useCommands, useSheet } from "../state/context.ts";
import { zoneName } from "../state/links.ts";
import { useCautions } from "./CautionList.tsx";

type Entry = Record<string, unknown>;
const listIn = (value: unknown): Entry[] => (Array.isArray(value) ? (value as Entry[]) : []);

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

/** The values of one elevation: name, copies, film, sections, fills, breaks and zones. `#2` names one without an id. */
export function ElevationDetails({ name }: { readonly name: string }) {
  const job = useSheet((state) => state.document?.job ?? null);
  const { edit, select } = useCommands();
  const cautions = useCautions();
  const elevations = listIn(job?.elevations);
  const place = name.startsWith("#") ? Number(name.slice(1)) : elevations.findIndex(({ id }) => id === name);
  const entry = elevations[place];
  if (entry === undefined) return <p className="aside">It stands no longer in the job.</p>;
  const at = `elevations[${place}]`;
  const title = String(entry.name || entry.id || place + 1);
  const films = listIn(job?.films).map((film) => [String(film.id), String(film.name || film.id)] as const);
  const mirrors = typeof entry.mirrorOf === "string" ? entry.mirrorOf : null;
  const met = cautionsAt(cautions, name);

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
      </div>
      {mirrors === null ? (
        <>
          <h4>Sections</h4>
          {listIn(entry.sections).length === 0 ? (
            <div className="fields">
              <p className="aside">One section over the whole, panels run either way.</p>
            </div>
          ) : (
            listIn(entry.sections).map((section, step) => (
              <div
                className="fields"
                key={String(section.id ?? step)}
                data-path={`${at}.sections[${step}]`}
                tabIndex={-1}
              >
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
              </div>
            ))
          )}
          <h4>Fills</h4>
          {listIn(entry.fill).map((fill, step) => (
            <div className="fields" key={String(fill.edge ?? step)} data-path={`${at}.fill[${step}]`} tabIndex={-1}>
              <ChoiceField
                path={`${at}.fill[${step}].edge`}
                label="Along the edge"
                step="Edge of a fill"
                choices={edges}
              />
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
      ) : (
        <p className="aside">
          Outline, openings, sections and fills are those of {mirrors}, mirrored.{" "}
          <Button weight="bare" onClick={() => select(`elevation:${mirrors}`)}>
            Go to {mirrors}
          </Button>
        </p>
      )}
      <Zones entry={entry} at={at} elevation={String(entry.id)} />
      {met.length === 0 ? null : (
        <ul className="cautions">
          {met.map(({ id, says }) => (
            <li key={id}>{says}</li>
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

interface ZonesProps {
  readonly entry: Entry;
  readonly at: string;
  readonly elevation: string;
}

/** Breaks with their lines; keep-clear zones and obstacles by name, each leading to its own values. */
function Zones({ entry, at, elevation }: ZonesProps) {
  const { select } = useCommands();
  const breaks = listIn(entry.breaks);
  const zones = [
    ...listIn(entry.keepClear).map((zone, place) => ({ zone, place, list: "keepClear", kind: "keepClear" })),
    ...listIn(entry.obstacles).map((zone, place) => ({ zone, place, list: "obstacles", kind: "obstacle" })),
  ];
  return (
    <>
      {breaks.length === 0 ? null : <h4>Breaks</h4>}
      {breaks.map((line, place) => (
        <div className="fields" key={String(line.id ?? place)} data-path={`${at}.breaks[${place}]`} tabIndex={-1}>
          <LengthField
            path={`${at}.breaks[${place}].at`}
            signed
            label={`${String(line.id)}, at`}
            step={`Place of break ${String(line.id)}`}
          />
          <ChoiceField
            path={`${at}.breaks[${place}].type`}
            label={`${String(line.id)}, type`}
            step={`Type of break ${String(line.id)}`}
            otherwise="gap"
            choices={[
              ["gap", "gap"],
              ["moulding", "moulding"],
              ["bodyLine", "body line"],
            ]}
          />
        </div>
      ))}
      {zones.length === 0 ? null : <h4>Keep clear</h4>}
      <ul className="rows">
        {zones.map(({ zone, place, list, kind }) => (
          <li
            key={`${list} ${String(zone.id)}`}
            className="row-words"
            data-path={`${at}.${list}[${place}]`}
            tabIndex={-1}
          >
            <Button weight="bare" onClick={() => select(zoneName(elevation, kind, String(zone.id)))}>
              {String(zone.label || zone.id)}
            </Button>
            <span className="aside">
              {String(zone.rule ?? "avoid") === "never" ? "no seam here" : "better elsewhere"}
            </span>
          </li>
        ))}
      </ul>
    </>
  );
}
