import { Button } from "../controls/Button.tsx";
import { SmallCourse } from "../drawing/index.ts";
import { useCommands, useSheet } from "../state/context.ts";
import { counted, gapWords, money, seconds, stepWords } from "../state/words.ts";
import { useIsEmpty, useOnSheet } from "./hooks.ts";

const searchTimes = [2, 8, 30, 120, 600];

/** How the planning stands: what is being done, for how long, what is the best so far, and the way to stop it. */
export function RunStrip() {
  const run = useSheet((state) => state.run);
  const outcome = useSheet((state) => state.outcome);
  const limit = useSheet((state) => state.view.seconds);
  const { plan, currency, isOlder } = useOnSheet();
  const isEmpty = useIsEmpty();
  const commands = useCommands();
  const working = run.status === "working" || run.status === "stopping";
  const best = plan?.layouts.find(({ id }) => id === plan.chosen) ?? null;
  const share = run.of > 0 ? Math.min(1, run.done / run.of) : 0;

  return (
    <section className="run" aria-label="Planning">
      <progress
        className={working || run.status === "waiting" ? "run-progress" : "run-progress run-progress-still"}
        aria-label="Planning progress"
        max={1}
        value={working ? share : run.status === "done" ? 1 : 0}
      />
      {/* First, so that no change of words beside it moves it. */}
      <div className="run-course">
        {isEmpty ? null : <SmallCourse steps={run.standings} seconds={run.seconds} currency={currency} />}
      </div>
      <p className="run-what">
        <strong>{isEmpty ? "Nothing to plan yet" : headline(run.status, outcome?.status ?? null)}</strong>
        {working && !isEmpty && run.what !== "" ? (
          <span>
            {stepWords(run.what)}
            {run.of > 0 ? `, ${Math.round(run.done)} of ${Math.round(run.of)}` : ""}
          </span>
        ) : null}
        {isEmpty ? null : run.status === "working" ||
          run.status === "stopping" ||
          run.status === "done" ||
          run.status === "stopped" ? (
          <span className="figures">{seconds(run.seconds)}</span>
        ) : null}
      </p>
      <p className="run-best">
        {best === null || plan === null ? null : isOlder ? (
          <span className="mark-attention figures">
            Shown: the plan before the last edit, {money(best.totals.cost.total, currency)}
          </span>
        ) : (
          <>
            <span>{counted(plan.layouts.length, "layout")}</span>
            <span className="figures">
              {working ? "best so far " : "best "}
              {money(best.totals.cost.total, currency)}
            </span>
            <span>{gapWords(best.bound)}</span>
          </>
        )}
      </p>
      <div className="run-actions">
        <label className="run-limit">
          Search up to
          <select
            className="input"
            value={limit}
            onChange={(event) => commands.changeView({ seconds: Number(event.target.value) })}
          >
            {[...new Set([...searchTimes, limit])]
              .sort((a, b) => a - b)
              .map((time) => (
                <option key={time} value={time}>
                  {time < 60 ? `${time} s` : `${time / 60} min`}
                </option>
              ))}
          </select>
        </label>
        {working || run.status === "waiting" ? (
          <Button onClick={commands.stop} disabled={run.status === "stopping"} shortcut="Ctrl+.">
            Stop
          </Button>
        ) : (
          <Button onClick={() => void commands.plan()} shortcut="Ctrl+Enter">
            Plan again
          </Button>
        )}
      </div>
    </section>
  );
}

function headline(status: string, outcome: string | null): string {
  if (status === "working") return "Planning";
  if (status === "stopping") return "Stopping";
  if (status === "waiting") return "Planning starts when you pause";
  if (outcome === "noPlan") return "No plan exists for this job as it stands";
  if (outcome === "badJob") return "The job can't be read as it stands";
  if (outcome === "failed") return "Planning broke off";
  if (status === "stopped")
    return outcome === "stopped" ? "Stopped before a first plan" : "Stopped; the best so far is kept";
  if (status === "done") return "Planned";
  return "Not planned";
}
