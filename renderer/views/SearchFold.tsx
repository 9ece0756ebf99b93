import { Fold } from "../controls/Fold.tsx";
import { SearchCourse } from "../drawing/index.ts";
import { useSheet } from "../state/context.ts";
import { counted, gapWords, money, percent, seconds } from "../state/words.ts";
import { useOnSheet } from "./hooks.ts";

/** How the search went: drawn, and the same as a table for whoever reads numbers or hears the page. */
export function SearchFold() {
  const standings = useSheet((state) => state.run.standings);
  const searched = useSheet((state) => state.run.seconds);
  const { currency } = useOnSheet();
  const last = standings.at(-1);
  const aside =
    last === undefined
      ? "no layout of this search yet"
      : `${counted(standings.length, "step")} in ${seconds(searched)}, ${gapWords(last)}`;
  return (
    <div className="search-fold">
      <Fold title="How the search went" aside={aside} open>
        <SearchCourse steps={standings} seconds={searched} currency={currency} />
        {last === undefined ? null : (
          <details className="search-table">
            <summary>As a table</summary>
            <div className="table-scroll">
              <table className="table">
                <caption className="only-heard">Cost and bound over the time of the search</caption>
                <thead>
                  <tr>
                    <th scope="col">After</th>
                    <th scope="col" className="number">
                      Cost
                    </th>
                    <th scope="col" className="number">
                      At the least
                    </th>
                    <th scope="col" className="number">
                      Could save
                    </th>
                    <th scope="col">Reckoned from</th>
                  </tr>
                </thead>
                <tbody>
                  {standings.map((standing) => (
                    <tr key={`${standing.seconds} ${standing.cost} ${standing.bound}`}>
                      <th scope="row" className="figures">
                        {seconds(standing.seconds)}
                      </th>
                      <td className="number">{money(standing.cost, currency)}</td>
                      <td className="number">{money(standing.bound, currency)}</td>
                      <td className="number">{standing.proven ? "0, proven" : `≤ ${percent(standing.gapPercent)}`}</td>
                      <td>{standing.by}</td>
                    </tr>
                  ))}
                </tbody>
              </table>
            </div>
          </details>
        )}
      </Fold>
    </div>
  );
}
