import { useEffect, useRef, useState } from "react";
import { useSheet } from "../state/context.ts";
import { counted, gapWords, money } from "../state/words.ts";
import { useOnSheet } from "./hooks.ts";

/** Least time between two announcements of progress, in milliseconds: enough to be heard out. */
const pause = 3000;

/** Tells a screen reader how the planning stands, without talking over itself. */
export function Announcer() {
  const status = useSheet((state) => state.run.status);
  const outcome = useSheet((state) => state.outcome?.status ?? null);
  const { plan, currency } = useOnSheet();
  const [said, setSaid] = useState("");
  const last = useRef(0);
  const best = plan?.layouts.find(({ id }) => id === plan.chosen) ?? null;
  const now =
    status === "working"
      ? best === null
        ? "Planning"
        : `Planning, best so far ${money(best.totals.cost.total, currency)}`
      : status === "done" && outcome === null && best !== null && plan !== null
        ? `Planned: ${counted(plan.layouts.length, "layout")}, best ${money(best.totals.cost.total, currency)}, ${gapWords(best.bound)}`
        : status === "done" && outcome === "noPlan"
          ? "No plan exists for this job as it stands; the reasons are listed under details"
          : status === "done" && outcome === "badJob"
            ? "The job can't be read as it stands; the problems are listed under details"
            : status === "stopped"
              ? "Planning stopped"
              : "";
  useEffect(() => {
    const wait = status === "working" ? Math.max(0, pause - (performance.now() - last.current)) : 0;
    const timer = setTimeout(() => {
      last.current = performance.now();
      setSaid(now);
    }, wait);
    return () => clearTimeout(timer);
  }, [now, status]);
  return (
    <p className="only-heard" aria-live="polite">
      {said}
    </p>
  );
}
