import { Button } from "../controls/Button.tsx";
import { ChoiceField } from "../controls/jobFields.tsx";
import { useCommands, useSheet } from "../state/context.ts";
import { listIn, titleOf } from "../state/entries.ts";
import { asSentence } from "../state/words.ts";
import { FoundSections } from "./FoundSections.tsx";
import { useOnSheet } from "./hooks.ts";

interface TwoSidesProps {
  readonly at: string;
  readonly elevation: string;
  readonly mirrors: string;
}

/** What a mirrored elevation takes from the other, how closely, and where the layout shown departs from it. */
export function TwoSides({ at, elevation, mirrors }: TwoSidesProps) {
  const job = useSheet((state) => state.document?.job ?? null);
  const { select } = useCommands();
  const elevations = listIn(job?.elevations);
  const source = elevations.findIndex(({ id }) => id === mirrors);
  const other = titleOf(elevations[source] ?? { id: mirrors }, source);
  const own = elevations.find(({ id }) => id === elevation);
  return (
    <>
      <h4>Mirrored</h4>
      <p className="aside">
        Outline, openings, sections and fills are those of {other}, mirrored.{" "}
        <Button weight="bare" onClick={() => select(`elevation:${mirrors}`)}>
          Go to {other}
        </Button>
      </p>
      <div className="fields">
        <ChoiceField
          path={`${at}.mirror`}
          label="Its panels"
          step={`How ${titleOf(own ?? { id: elevation }, 0)} mirrors ${other}`}
          otherwise="exact"
          choices={[
            ["exact", "mirrored exactly"],
            ["follow", "follow the other"],
          ]}
          hint={
            own?.mirror === "follow"
              ? "It has its own breaks, zones and obstacles, and keeps the other side's seams wherever those allow."
              : "One set of windows serves both sides; each side's breaks and zones bind it."
          }
        />
      </div>
      <FoundSections elevation={elevation} />
      {own?.mirror === "follow" ? <Differences elevation={elevation} other={other} /> : null}
    </>
  );
}

function Differences({ elevation, other }: { readonly elevation: string; readonly other: string }) {
  const { layout, isOlder } = useOnSheet();
  if (layout === null) return null;
  const listed = layout.differences;
  const differences = listed?.filter((one) => one.elevation === elevation) ?? [];
  return (
    <>
      <h4>Where it departs from {other}</h4>
      {listed === undefined ? (
        <p className="aside">
          {isOlder ? "Told with the next plan." : "This plan does not say where the two sides differ."}
        </p>
      ) : differences.length === 0 ? (
        <p>Nowhere: every seam lies where that of {other} does.</p>
      ) : (
        <ul className="rows">
          {differences.map(({ section, axis, at, says }) => (
            <li key={`${section} ${axis} ${at}`} className="row-prose">
              {asSentence(says)}
            </li>
          ))}
        </ul>
      )}
    </>
  );
}
