import { useMemo } from "react";
import { Fold } from "../controls/Fold.tsx";
import { type Caution, cautionsFor, governs } from "../state/cautions.ts";
import { useOnSheet } from "./hooks.ts";

export function useCautions(): readonly Caution[] {
  const { job } = useOnSheet();
  return useMemo(() => (job === null ? [] : cautionsFor(job)), [job]);
}

/** Everything in this job that calls for care, for the people who print and fit. */
export function CautionList() {
  const cautions = useCautions();
  return (
    <Fold title="Cautions" aside={String(cautions.length)} open>
      <ul className="cautions">
        {cautions.map((caution) => (
          <li key={caution.id}>
            <span>{caution.says}</span>{" "}
            <span className="aside">
              For: {caution.because}. Source: {caution.source}.
            </span>
          </li>
        ))}
      </ul>
      <p className="aside">
        Read the safety sheets of inks, ventilate, and let prints dry away from people. Two people or a lift for full
        rolls. Guard blades, test heat first, and do not cut on paint or glass coatings. Plan safe access for work at
        height. {governs}
      </p>
    </Fold>
  );
}
