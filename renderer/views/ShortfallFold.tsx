import type { PlanFile } from "../../shared/planFile.ts";
import { Button } from "../controls/Button.tsx";
import { Fold } from "../controls/Fold.tsx";
import { useCommands } from "../state/context.ts";
import { showLength } from "../state/lengths.ts";
import { area, asSentence, counted, directionWords, lengthWithUnit, money, percent } from "../state/words.ts";
import { useOnSheet } from "./hooks.ts";

type Shortfall = NonNullable<PlanFile["shortfalls"]>[number];

/** Costs nearer than this are equal: nobody is charged less than half a cent. */
const SAME_COST = 0.005;

/** Where full panels leave a small rest bare, and what each way to make up for it comes to; nothing where none do. */
export function ShortfallFold() {
  const { plan } = useOnSheet();
  const shortfalls = plan?.shortfalls ?? [];
  if (shortfalls.length === 0) return null;
  return (
    <div className="shortfalls">
      <Fold title="Where film falls short" aside={counted(shortfalls.length, "place")}>
        <p className="aside">
          Full panels side by side leave less than a third of a panel bare here. Each way to make up for it is planned
          for one copy of the elevation alone, with all the film in stock, so these figures are no part of a layout's.
        </p>
        {shortfalls.map((shortfall) => (
          <ShortfallTable
            key={[shortfall.elevation, shortfall.section, shortfall.rollWidth, shortfall.direction].join(" ")}
            shortfall={shortfall}
          />
        ))}
      </Fold>
    </div>
  );
}

function ShortfallTable({ shortfall }: { readonly shortfall: Shortfall }) {
  const { elevations, unit, currency } = useOnSheet();
  const { select } = useCommands();
  const { elevation: id, section, rollWidth, direction, panels, short, choices } = shortfall;
  const elevation = elevations.find((one) => one.id === id);
  const least = Math.min(...choices.map(({ cost }) => cost));
  const inPart = (elevation?.sections.length ?? 0) > 1 ? `section ${section}: ` : "";
  const full = `${counted(panels, `${directionWords[direction]} panel`)} of ${lengthWithUnit(rollWidth, unit)} film`;
  const leave = panels === 1 ? "leaves" : "leave";
  return (
    <div className="shortfall table-scroll">
      <table className="table">
        <caption>
          <Button weight="bare" onClick={() => select(`elevation:${id}`)}>
            {elevation?.name || id}
          </Button>
          <span className="figures">{` ${inPart}${full} ${leave} ${lengthWithUnit(short, unit)} bare`}</span>
        </caption>
        <thead>
          <tr>
            <th scope="col">Way</th>
            <th scope="col" className="number">
              Cost
            </th>
            <th scope="col" className="number">
              Waste
            </th>
            <th scope="col" className="number">
              Film
            </th>
            <th scope="col" className="number">
              Seams seen
            </th>
            <th scope="col" className="number">
              Panels
            </th>
          </tr>
        </thead>
        <tbody>
          {choices.map(({ way, says, cost, wastePercent, filmArea, seamLength, panels: inAll }) => (
            <tr key={way}>
              <th scope="row" className="figures">
                {asSentence(unbroken(says))}
                {cost - least < SAME_COST ? <span className="tag">costs least</span> : null}
              </th>
              <td className="number">{money(cost, currency)}</td>
              <td className="number">{percent(wastePercent)}</td>
              <td className="number">{area(filmArea, unit)}</td>
              <td className="number figures">
                {showLength(Math.round(seamLength * 10) / 10, unit)} <span className="unit">{unit}</span>
              </td>
              <td className="number">{inAll}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}

/** A sentence whose lengths are not torn from their fractions and units at the end of a line. */
const unbroken = (says: string): string => says.replace(/(\d) (?=\d+\/\d|in\b|mm\b)/g, "$1\u00a0");
