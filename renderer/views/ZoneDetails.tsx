import type { JobJson } from "../../shared/host.ts";
import { ChoiceField, LengthField } from "../controls/jobFields.tsx";
import { cautionsFor, governs } from "../state/cautions.ts";
import { useSheet } from "../state/context.ts";
import { type Entry, listIn } from "../state/entries.ts";
import { showLength } from "../state/lengths.ts";
import { valueAt } from "../state/path.ts";
import { useOnSheet } from "./hooks.ts";

/** The place in the job of a zone that is drawn on an elevation: its own entry, or that of the elevation it mirrors. */
function placeOf(
  elevations: Entry[],
  elevation: string,
  kind: string,
  id: string,
): { path: string; mirrored: boolean } | null {
  const seen = new Set<string>();
  let here = elevation;
  while (!seen.has(here)) {
    seen.add(here);
    const place = elevations.findIndex((entry) => entry.id === here);
    const entry = elevations[place];
    if (entry === undefined) return null;
    const zone = listIn(entry[kind]).findIndex((one) => one.id === id);
    if (zone >= 0) return { path: `elevations[${place}].${kind}[${zone}]`, mirrored: here !== elevation };
    if (typeof entry.mirrorOf !== "string") return null;
    here = entry.mirrorOf;
  }
  return null;
}

/** What the zone is called and what it is: "COUNTY, lettering"; its id where it has no label. */
function zoneTitle(zone: unknown, id: string): string {
  const { label, reason, kind } = (typeof zone === "object" && zone !== null ? zone : {}) as Entry;
  const name = typeof label === "string" && label !== "" ? label : id;
  const what = [reason, kind].find((one) => typeof one === "string" && one !== "" && one !== "other");
  return what === undefined || name.includes(String(what)) ? name : `${name}, ${String(what)}`;
}

/** What keeps seams off an obstacle that gives no clearance of its own: "1 in by rule", "none". */
function ruledClearance(job: JobJson | null, kind: unknown): string {
  const clearances = valueAt(job, "rules.clearances") as Entry | null | undefined;
  const ruled = clearances?.[typeof kind === "string" ? kind : "other"];
  if (typeof ruled !== "number") return "none";
  return `${showLength(ruled, job?.units === "mm" ? "mm" : "in")} ${job?.units === "mm" ? "mm" : "in"} by rule`;
}

/** A keep-clear zone or an obstacle: its rule and clearance can be changed here, with the caution that belongs to it. */
export function ZoneDetails({ rest }: { readonly rest: string }) {
  const job = useSheet((state) => state.document?.job ?? null);
  const { job: read } = useOnSheet();
  const [elevation = "", kind = "", ...ids] = rest.split("/");
  const list = kind === "obstacle" ? "obstacles" : "keepClear";
  const place = placeOf(listIn(job?.elevations), elevation, list, ids.join("/"));
  const met = read === null ? [] : cautionsFor(read).filter(({ at }) => at.includes(`zone:${rest}`));
  return (
    <>
      <p className="lead">{zoneTitle(place === null ? undefined : valueAt(job, place.path), ids.join("/"))}</p>
      {place === null ? (
        <p className="aside">It stands no longer in the job.</p>
      ) : (
        <>
          {place.mirrored ? (
            <p className="aside">Taken over from the elevation that this one mirrors; both change.</p>
          ) : null}
          <div className="fields">
            <ChoiceField
              path={`${place.path}.rule`}
              label="A seam here"
              step="Rule of a zone"
              otherwise={kind === "obstacle" ? "avoid" : null}
              choices={[
                ["never", "is never allowed"],
                ["avoid", "is better elsewhere"],
              ]}
            />
            {kind === "obstacle" ? (
              <LengthField
                path={`${place.path}.clearance`}
                label="Clearance"
                step="Clearance of an obstacle"
                none={ruledClearance(job, valueAt(job, `${place.path}.kind`))}
              />
            ) : null}
            {(["left", "bottom", "right", "top"] as const).map((side, step) => (
              <LengthField
                key={side}
                signed
                path={`${place.path}.box[${step}]`}
                label={`${side.charAt(0).toUpperCase()}${side.slice(1)} edge`}
                step={`${side} edge of a zone`}
              />
            ))}
          </div>
        </>
      )}
      {met.length === 0 ? null : (
        <ul className="cautions">
          {met.map(({ id, says }) => (
            <li key={id}>{says}</li>
          ))}
          <li className="aside">{governs}</li>
        </ul>
      )}
    </>
  );
}
