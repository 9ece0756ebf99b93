import { useEffect, useRef } from "react";
import { Fold } from "../controls/Fold.tsx";
import { useCommands, useSheet } from "../state/context.ts";
import { counted } from "../state/words.ts";
import { CautionList } from "./CautionList.tsx";
import { ElevationList } from "./ElevationList.tsx";
import { FilmFields } from "./FilmFields.tsx";
import { PieceList } from "./PieceList.tsx";
import { ProblemList } from "./ProblemList.tsx";
import { RuleFields } from "./RuleFields.tsx";
import { SelectedThing } from "./SelectedThing.tsx";
import { StockTable } from "./StockTable.tsx";

const lengthOf = (value: unknown): number => (Array.isArray(value) ? value.length : 0);

/** Beside the bands: what is selected, what is wrong, and every value of the job that can be typed. */
export function SideColumn() {
  const document = useSheet((state) => state.document);
  const selected = useSheet((state) => state.selected);
  const { select } = useCommands();
  const top = useRef<HTMLDivElement>(null);
  // Another job begins at its head: what keeps it from being read stands there.
  const token = document?.token ?? null;
  // biome-ignore lint/correctness/useExhaustiveDependencies: the token is what calls for it
  useEffect(() => {
    if (top.current !== null) top.current.scrollTop = 0;
  }, [token]);
  useEffect(() => {
    if (selected !== null && top.current !== null) top.current.scrollTop = 0;
  }, [selected]);
  return (
    <aside className="side" aria-label="Details" id="details" tabIndex={-1} ref={top}>
      {document === null ? null : (
        <>
          <SelectedThing name={selected} onClose={() => select(null)} />
          <ProblemList />
          <Fold title="Rules" open>
            <RuleFields />
          </Fold>
          <Fold title="Film" aside={counted(lengthOf(document.job.films), "film")} open>
            <FilmFields />
          </Fold>
          <Fold title="Stock" aside={counted(lengthOf(document.job.stock), "entry", "entries")}>
            <StockTable />
          </Fold>
          <Fold title="Elevations" aside={String(lengthOf(document.job.elevations))} id="elevation-list">
            <ElevationList />
          </Fold>
          <Fold title="Loose pieces" aside={String(lengthOf(document.job.pieces))}>
            <PieceList />
          </Fold>
          <CautionList />
        </>
      )}
    </aside>
  );
}
