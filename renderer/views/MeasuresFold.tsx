import { Fold } from "../controls/Fold.tsx";
import { safeWords } from "../state/slack.ts";
import { lengthWithUnit } from "../state/words.ts";
import { useOnSheet } from "./hooks.ts";

/** Every measure of the body that the layout shown rests on, and how much longer it may turn out before film falls short. */
export function MeasuresFold({ elevation }: { readonly elevation: string }) {
  const { layout, unit } = useOnSheet();
  if (layout === null) return null;
  const dimensions = layout.dimensions?.filter((one) => one.elevation === elevation);
  const least = dimensions === undefined ? [] : [...dimensions].sort((a, b) => a.slack - b.slack);
  const [tightest] = least;
  const aside =
    dimensions === undefined ? (
      "not worked out"
    ) : tightest === undefined ? (
      "none"
    ) : (
      <span className="figures">
        {dimensions.length}, {safeWords(tightest.slack, unit)}
      </span>
    );
  return (
    <Fold title="Measures to check" aside={aside}>
      {dimensions === undefined ? (
        <p className="aside">This plan does not say how much room its measures leave.</p>
      ) : dimensions.length === 0 ? (
        <p className="aside">Nothing of this elevation is covered by panels.</p>
      ) : (
        <>
          <p className="aside">
            Measure the body before printing. A measure may turn out longer by this much, the others as drawn, before
            film falls short or a seam stops lapping. Rounded down to the tape.
          </p>
          <ul className="rows">
            {least.map(({ name, from, to, slack, axis }) => (
              <li key={`${name} ${axis} ${from}`} className="measure">
                <span>{name}</span>
                <span className="figures">{lengthWithUnit(to - from, unit)}</span>
                <span className="figures measure-safe">{safeWords(slack, unit)}</span>
              </li>
            ))}
          </ul>
        </>
      )}
    </Fold>
  );
}
