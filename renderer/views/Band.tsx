import type { ReactNode } from "react";
import { useCommands, useSheet } from "../state/context.ts";
import type { BandId } from "../state/sheetState.ts";

interface BandProps {
  readonly id: BandId;
  readonly title: string;
  /** The band in one line, so that it says the main thing folded too. */
  readonly summary: ReactNode;
  readonly tools?: ReactNode;
  readonly children: ReactNode;
}

/** One of the three bands of the sheet, under a head that folds it and stays in sight while it is read. */
export function Band({ id, title, summary, tools, children }: BandProps) {
  const folded = useSheet((state) => state.view.folded);
  const { changeView } = useCommands();
  return (
    <section className="band" aria-labelledby={`${id}-title`} id={id} tabIndex={-1}>
      <div className="band-head">
        <h2 id={`${id}-title`}>
          <button
            type="button"
            className="band-fold"
            aria-expanded={!folded[id]}
            aria-controls={`${id}-body`}
            onClick={() => changeView({ folded: { ...folded, [id]: !folded[id] } })}
          >
            {title}
          </button>
        </h2>
        <p className="band-summary">{summary}</p>
        {folded[id] ? null : <div className="band-tools">{tools}</div>}
      </div>
      <div className="band-body" id={`${id}-body`} hidden={folded[id]}>
        {folded[id] ? null : children}
      </div>
    </section>
  );
}
