import { Button } from "../controls/Button.tsx";
import { ChoiceField, LengthField } from "../controls/jobFields.tsx";
import { PointsField } from "../controls/PointsField.tsx";
import { useCommands } from "../state/context.ts";
import { type Entry, listIn } from "../state/entries.ts";
import { zoneName } from "../state/links.ts";

interface ElevationZonesProps {
  readonly entry: Entry;
  readonly at: string;
  readonly elevation: string;
}

const pathHint = "Sloped or stepped: points x, y parted by ; in order along it. The films lap wide enough to hold it.";

/** Breaks and colour edges with their lines; keep-clear zones and obstacles by name, each leading to its own values. */
export function ElevationZones({ entry, at, elevation }: ElevationZonesProps) {
  const { select } = useCommands();
  const breaks = listIn(entry.breaks);
  const colourEdges = listIn(entry.colourEdges);
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
      {colourEdges.length === 0 ? null : <h4>Colour edges</h4>}
      {colourEdges.map((line, place) => (
        <div className="fields" key={String(line.id ?? place)} data-path={`${at}.colourEdges[${place}]`} tabIndex={-1}>
          <LengthField
            path={`${at}.colourEdges[${place}].at`}
            signed
            label={`${String(line.id)}, seam at`}
            step={`Place of colour edge ${String(line.id)}`}
          />
          <PointsField
            path={`${at}.colourEdges[${place}].path`}
            label={`${String(line.id)}, runs through`}
            step={`Path of colour edge ${String(line.id)}`}
            none="straight"
            {...(place === 0 ? { hint: pathHint } : {})}
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
