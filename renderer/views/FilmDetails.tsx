import { Button } from "../controls/Button.tsx";
import { governs } from "../state/cautions.ts";
import { cautionsAt } from "../state/cautionsAt.ts";
import { useCommands } from "../state/context.ts";
import { showLength } from "../state/lengths.ts";
import { copiesOf, cutName, panelName, pieceName } from "../state/links.ts";
import { stepsOn } from "../state/steps.ts";
import { asSentence, directionWords, lengthWithUnit } from "../state/words.ts";
import { bringToView } from "./bringToView.ts";
import { useCautions } from "./CautionList.tsx";
import { Facts, Names } from "./Facts.tsx";
import { useOnSheet } from "./hooks.ts";
import { laps } from "./laps.ts";
import { PanelSlack } from "./PanelSlack.tsx";
import { WidthHold } from "./WidthHold.tsx";

interface PanelDetailsProps {
  readonly id: string;
  /** The one copy that was pointed at on the film; null for the panel as such. */
  readonly copy: number | null;
}

/** A panel, fill or loose piece: what it carries, how it laps, when it is fitted, where each copy lies. */
export function PanelDetails({ id, copy }: PanelDetailsProps) {
  const { layout, unit, job } = useOnSheet();
  const { select } = useCommands();
  const cautions = useCautions();
  if (layout === null) return null;
  const panel = layout.panels.find((one) => one.id === id) ?? null;
  const films = new Map(job?.films.map((film) => [film.id, film.name || film.id]));
  const loose = job?.pieces?.find((one) => one.id === id) ?? null;
  const copies = copiesOf(layout, id).filter(({ piece }) => copy === null || piece.copy === copy);
  const elevation = panel?.elevation ?? loose?.elevation ?? null;
  const ordered = elevation === null ? [] : stepsOn(layout, elevation);
  const step = ordered.findIndex(({ item }) => item === id);
  const { over, under } = panel === null ? { over: [], under: [] } : laps(panel, layout.seams);
  const [x0, y0, x1, y1] = panel?.window ?? [0, 0, 0, 0];
  const met = elevation === null ? [] : cautionsAt(cautions, elevation);
  return (
    <>
      <p className="lead">
        {loose?.label ? `${loose.label} (${id})` : id}
        {copy === null ? "" : `, copy ${copy}`}
      </p>
      <Facts
        facts={[
          ["Film", films.get(panel?.film ?? loose?.film ?? "") ?? panel?.film ?? loose?.film ?? null],
          ["Across the roll", panel === null ? null : lengthWithUnit(panel.across, unit)],
          ["Along the roll", panel === null ? null : lengthWithUnit(panel.along, unit)],
          ["Runs", panel === null ? null : directionWords[panel.direction]],
          ["Artwork, left to right", panel === null ? null : `${showLength(x0, unit)} to ${lengthWithUnit(x1, unit)}`],
          ["Artwork, bottom to top", panel === null ? null : `${showLength(y0, unit)} to ${lengthWithUnit(y1, unit)}`],
          ["Laps over", over.length === 0 ? null : <Names key="over">{over.join(", ")}</Names>],
          ["Lies under", under.length === 0 ? null : <Names key="under">{under.join(", ")}</Names>],
          ["Role", loose?.role ?? null],
        ]}
      />
      {panel === null ? null : <PanelSlack panel={panel} />}
      {panel === null || panel.role === "fill" ? null : <WidthHold key={id} panel={panel} />}
      {step < 0 ? null : (
        <p>
          Fitted {step + 1} of {ordered.length} on this elevation. {asSentence(ordered[step]?.why ?? "")}
        </p>
      )}
      <h4>{copies.length === 1 ? "Where it lies" : "Where its copies lie"}</h4>
      <ul className="rows">
        {copies.map(({ load, cutNumber, cut, piece }) => (
          <li key={piece.copy} className="row-words figures">
            <span>
              {copy === null && copies.length > 1 ? `Copy ${piece.copy}: ` : ""}load {load.id}, cut {cutNumber}, counter{" "}
              {showLength(cut.start + piece.y, unit)} to {lengthWithUnit(cut.start + piece.y + piece.along, unit)}
            </span>
            <Button
              weight="bare"
              aria-label={`Show copy ${piece.copy} of ${id} on the film`}
              onClick={() => {
                select(pieceName(id, piece.copy));
                bringToView(pieceName(id, piece.copy), `[data-load="${CSS.escape(load.id)}"]`);
              }}
            >
              On the film
            </Button>
          </li>
        ))}
      </ul>
      {panel === null ? null : (
        <Button
          weight="bare"
          onClick={() => {
            select(panelName(id));
            bringToView(panelName(id), `[data-elevation="${CSS.escape(panel.elevation)}"]`);
          }}
        >
          On the elevation
        </Button>
      )}
      {copies.length !== 1 || copies[0] === undefined ? null : (
        <Button weight="bare" onClick={() => copies[0] && select(cutName(copies[0].load.id, copies[0].cutNumber))}>
          Its cut
        </Button>
      )}
      {met.length === 0 ? null : (
        <ul className="cautions">
          {met.map((caution) => (
            <li key={caution.id}>{caution.says}</li>
          ))}
          <li className="aside">{governs}</li>
        </ul>
      )}
    </>
  );
}

interface CutDetailsProps {
  readonly load: string;
  readonly number: number;
}

/** One cut length: where the counter stands, and what lies in it. */
export function CutDetails({ load, number }: CutDetailsProps) {
  const { layout, unit } = useOnSheet();
  const { select } = useCommands();
  const roll = layout?.rolls.find(({ id }) => id === load);
  const cut = roll?.cuts[number - 1];
  if (layout === null || roll === undefined || cut === undefined) return null;
  const printed = layout.printOrder.indexOf(`${load}:${number}`);
  return (
    <>
      <Facts
        facts={[
          ["From", lengthWithUnit(cut.start, unit)],
          ["To", lengthWithUnit(cut.start + cut.length, unit)],
          ["Cut length", lengthWithUnit(cut.length, unit)],
          ["Printed", printed < 0 ? null : `${printed + 1} of ${layout.printOrder.length}`],
        ]}
      />
      <ul className="rows">
        {cut.pieces.map((piece) => (
          <li key={pieceName(piece.id, piece.copy)} className="row-words">
            <Button weight="bare" onClick={() => select(pieceName(piece.id, piece.copy))}>
              {piece.id}, copy {piece.copy}
            </Button>
          </li>
        ))}
      </ul>
    </>
  );
}
