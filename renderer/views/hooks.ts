import { useMemo } from "react";
import type { Elevation, Instance } from "../../core/index.ts";
import type { JobFile } from "../../shared/jobFile.ts";
import type { PlanFile, PlanLayout } from "../../shared/planFile.ts";
import { useSheet } from "../state/context.ts";
import { resolve } from "../state/resolved.ts";
import type { Unit } from "../state/words.ts";

export interface OnSheet {
  readonly plan: PlanFile | null;
  readonly layout: PlanLayout | null;
  /** Of the plan's own job while there is a plan, so that both always belong together. */
  readonly elevations: readonly Elevation[];
  readonly instance: Instance | null;
  readonly job: JobFile | null;
  readonly unit: Unit;
  readonly currency: string;
  /** The plan on the sheet is of the job before the last edit. */
  readonly isOlder: boolean;
}

const none: readonly Elevation[] = [];

/** The layout the bands show, with the elevations it covers. */
export function useOnSheet(): OnSheet {
  const shown = useSheet((state) => state.shown);
  const layoutId = useSheet((state) => state.layoutId);
  const document = useSheet((state) => state.document);
  return useMemo(() => {
    const source = shown?.job ?? document?.job;
    const resolved = source === undefined ? null : resolve(source);
    const plan = shown?.plan ?? null;
    const job = resolved?.job ?? null;
    return {
      plan,
      layout: plan?.layouts.find(({ id }) => id === (layoutId ?? plan.chosen)) ?? null,
      elevations: resolved?.instance?.elevations ?? none,
      instance: resolved?.instance ?? null,
      job,
      unit: source?.units === "mm" ? "mm" : "in",
      currency: job?.rules.currency ?? "USD",
      isOlder: shown !== null && document !== null && shown.job !== document.job,
    };
  }, [shown, layoutId, document]);
}

/** A job that can be read and has nothing in it to be made: a beginning, not a fault. */
export function useIsEmpty(): boolean {
  const document = useSheet((state) => state.document);
  return useMemo(() => {
    const job = document === null ? null : resolve(document.job).job;
    return job !== null && job.elevations.length === 0 && (job.pieces ?? []).length === 0;
  }, [document]);
}
