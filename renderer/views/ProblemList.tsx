import type { Problem } from "../../shared/problem.ts";
import { useSheet } from "../state/context.ts";
import { placeWords, problemKey } from "../state/words.ts";
import { useGoTo } from "./goTo.ts";
import { useIsEmpty, useOnSheet } from "./hooks.ts";

/** What is wrong, why no plan exists, what is worth knowing: each line leads to its place. */
export function ProblemList() {
  const reading = useSheet((state) => state.reading);
  const outcome = useSheet((state) => state.outcome);
  const { layout } = useOnSheet();
  const isEmpty = useIsEmpty();
  const reasons = outcome?.status === "noPlan" && !isEmpty ? outcome.reasons : [];
  return (
    <div className="problems" id="problems" tabIndex={-1}>
      {reading.problems.length === 0 ? null : (
        <Problems
          title={`${reading.problems.length === 1 ? "One thing keeps" : `${reading.problems.length} things keep`} this job from being read`}
          problems={reading.problems}
        />
      )}
      {reasons.length === 0 ? null : <Problems title="Why no plan exists" problems={reasons} />}
      {outcome?.status === "failed" ? (
        <section className="problem-group">
          <h3>Planning broke off</h3>
          <p>
            The program broke a rule of its own and gave no plan rather than a wrong one. Your job is as you left it.
            For the report:
          </p>
          <p className="report">{outcome.says}</p>
        </section>
      ) : null}
      {reading.warnings.length === 0 ? null : <Problems title="Worth knowing" problems={reading.warnings} mild />}
      {layout === null || layout.warnings.length === 0 ? null : (
        <section className="problem-group problem-group-mild">
          <h3>About this layout</h3>
          <ul>
            {layout.warnings.map((warning) => (
              <li key={warning}>{warning}</li>
            ))}
          </ul>
        </section>
      )}
    </div>
  );
}

interface ProblemsProps {
  readonly title: string;
  readonly problems: readonly Problem[];
  readonly mild?: boolean;
}

function Problems({ title, problems, mild = false }: ProblemsProps) {
  const goTo = useGoTo();
  const job = useSheet((state) => state.document?.job ?? null);
  return (
    <section className={mild ? "problem-group problem-group-mild" : "problem-group"}>
      <h3>{title}</h3>
      <ol>
        {problems.map((problem, place) => (
          <li key={problemKey(problem, place)}>
            <button type="button" className="problem" onClick={() => goTo(problem.path)}>
              <span className="problem-place">{placeWords(problem.path, job)}</span>
              <span className="problem-why">{problem.why}</span>
              <span className="problem-mend">{problem.mend}</span>
            </button>
          </li>
        ))}
      </ol>
    </section>
  );
}
